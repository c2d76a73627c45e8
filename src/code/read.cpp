#include <list>

#include "code/delta_reader.hpp"

namespace pullproof::code {
namespace {

std::string folder_of(const std::string& name) {
  const auto slash = name.rfind('/');
  return slash == std::string::npos ? std::string{} : name.substr(0, slash);
}

const Book* find(const std::vector<Book>& books, std::string_view id) {
  const auto at = std::find_if(books.begin(), books.end(), [&](const Book& b) { return b.id == id; });
  return at != books.end() ? &*at : nullptr;
}

/// Whether edition `id` is `ancestor` or descends from it.
bool descends(const std::vector<Book>& books, std::string_view id, std::string_view ancestor) {
  for (const Book* b = find(books, id); b != nullptr; b = b->base.empty() ? nullptr : find(books, b->base))
    if (b->id == ancestor) return true;
  return false;
}

void lay_over(RuleReader& reader, Book head, std::string_view over, std::vector<Book>& books) {
  if (find(books, head.id) != nullptr)
    return reader.complain_of_edition("id", fmt::format("there is an edition '{}' already", head.id));
  if (head.base.empty()) return;  // complained of when it was read
  const Book* base = find(books, over.empty() ? std::string_view(head.base) : over);
  if (base == nullptr)
    return reader.complain_of_edition("base", fmt::format("its base '{}' is no edition here, or comes back to it", head.base));
  if (!over.empty() && !descends(books, over, head.base))
    return reader.complain_of_edition("base", fmt::format("this changes '{}', which the case is not checked to", head.base));
  Book made = *base;
  made.id = std::move(head.id);
  made.title = std::move(head.title);
  made.base = base->id;
  made.publisher = std::move(head.publisher);
  made.file = std::move(head.file);
  made.adopted = std::move(head.adopted);
  made.ordinance = std::move(head.ordinance);
  reader.read_changes(made);
  reader.read_entries(made, false);
  books.push_back(std::move(made));
}

}  // namespace

std::vector<Book> read_books(const std::vector<RuleFile>& files, Diagnostics& diagnostics) {
  std::vector<RuleFile> sorted = files;
  std::sort(sorted.begin(), sorted.end(), [](const RuleFile& a, const RuleFile& b) { return a.name < b.name; });
  std::map<std::string, Book> bases;  // by folder
  for (const RuleFile& f : sorted)
    if (f.name.ends_with("/edition.toml")) bases[folder_of(f.name)];

  struct Delta {
    RuleReader reader;
    Book head;
  };
  std::list<Delta> deltas;
  for (const RuleFile& f : sorted) {
    RuleReader reader(f, diagnostics);
    if (reader.broken()) continue;
    if (const auto base = bases.find(folder_of(f.name)); base != bases.end()) {
      if (f.name.ends_with("/edition.toml")) {
        reader.read_edition(base->second, true);
        for (const auto& [folder, other] : bases)
          if (&other != &base->second && !other.id.empty() && other.id == base->second.id)
            reader.complain_of_edition("id", fmt::format("there is an edition '{}' already", other.id));
      }
      reader.read_entries(base->second, true);
    } else {
      Book head;
      reader.read_edition(head, false);
      deltas.push_back({std::move(reader), std::move(head)});
    }
  }
  std::vector<Book> books;
  for (auto& [folder, book] : bases) books.push_back(std::move(book));
  while (!deltas.empty()) {  // each round lays those whose base is ready; what stays has no base or a ring of them
    const auto ready = std::find_if(deltas.begin(), deltas.end(),
                                    [&](const Delta& d) { return find(books, d.head.base) != nullptr; });
    const auto next = ready != deltas.end() ? ready : deltas.begin();
    lay_over(next->reader, next->head, {}, books);
    deltas.erase(next);
  }
  return books;
}

void lay_over(const RuleFile& file, std::vector<Book>& books, Diagnostics& diagnostics) {
  RuleReader reader(file, diagnostics);
  if (reader.broken()) return;
  Book head;
  reader.read_edition(head, false);
  lay_over(reader, std::move(head), {}, books);
}

void adopt(const RuleFile& file, std::string_view over, std::vector<Book>& books, Diagnostics& diagnostics) {
  RuleReader reader(file, diagnostics);
  if (reader.broken()) return;
  Book head;
  reader.read_edition(head, false);
  const std::string_view start = over.empty() ? std::string_view(head.base) : over;
  if (!descends(books, start, head.id)) std::erase_if(books, [&](const Book& b) { return b.id == head.id; });
  lay_over(reader, std::move(head), over, books);
}

}  // namespace pullproof::code
