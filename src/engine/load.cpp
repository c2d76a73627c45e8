#include "engine/load.hpp"

#include <fmt/format.h>

#include "code/frozen.hpp"
#include "engine/run.hpp"
#include "job/link.hpp"
#include "job/read.hpp"

namespace pullproof {
namespace {

bool looks_like_path(std::string_view name) {
  return name.find('/') != std::string_view::npos || name.ends_with(".toml");
}

std::string beside(std::string_view case_file, std::string_view path) {
  const auto slash = case_file.rfind('/');
  if (path.starts_with('/') || slash == std::string_view::npos) return std::string(path);
  return std::string(case_file.substr(0, slash + 1)).append(path);
}

std::string unknown_edition(const code::Store& store, std::string_view name) {
  const auto ids = edition_ids(store);
  const std::string_view near = nearest(name, ids);
  return fmt::format("{}known: {}; or the path of an amendment file",
                     near.empty() ? std::string{} : fmt::format("did you mean '{}'? ", near), fmt::join(ids, ", "));
}

/// Finds one edition from an id and a list of files. `complain` gets a message, a note and the place in the case.
class Adoption {
 public:
  using Complain = std::function<void(std::string message, std::string note, const Where& where)>;
  Adoption(const Shelf& shelf, Complain complain, Diagnostics& diagnostics)
      : shelf_(shelf), complain_(std::move(complain)), diagnostics_(diagnostics) {}

  std::optional<code::Edition> plain(std::string_view id) const { return code::Edition::find(shelf_.store, id); }

  /// Lays the file over its own base, or over the edition found so far.
  bool lay(const std::string& path, const Where& where) {
    const FileText file = shelf_.read ? shelf_.read(path) : FileText{{}, "no files are read here"};
    if (!file.error.empty()) {
      complain_(fmt::format("the amendment '{}' cannot be read: {}", path, file.error), {}, where);
      return false;
    }
    if (books_.empty()) books_ = code::thaw(*shelf_.store);
    const std::size_t before = diagnostics_.size();
    code::adopt({path, file.text}, current_, books_, diagnostics_);
    if (diagnostics_.size() != before) return false;
    current_ = books_.back().id;
    return true;
  }

  void start_from(std::string_view id) { current_ = id; }

  std::optional<code::Edition> result() const { return code::Edition::find(code::share(code::freeze(books_)), current_); }

 private:
  const Shelf& shelf_;
  Complain complain_;
  Diagnostics& diagnostics_;
  std::vector<code::Book> books_;
  std::string current_;
};

}  // namespace

std::vector<std::string_view> edition_ids(const code::Store& store) {
  std::vector<std::string_view> ids;
  for (const code::EditionRecord& e : store.editions) ids.push_back(store.text(e.id));
  return ids;
}

std::optional<code::Edition> find_edition(const Shelf& shelf, std::string_view name, std::span<const std::string> amendments, Diagnostics& diagnostics) {
  const auto complain = [&](std::string message, std::string note, const Where&) {
    diagnostics.add({std::string(name), 0, 0, 1, std::move(message), std::move(note), {}});
  };
  Adoption adoption(shelf, complain, diagnostics);
  if (const auto found = adoption.plain(name)) {
    if (amendments.empty()) return found;
    adoption.start_from(name);
  } else if (looks_like_path(name)) {
    if (!adoption.lay(std::string(name), {})) return std::nullopt;
  } else {
    complain(fmt::format("there is no edition '{}'", name), unknown_edition(*shelf.store, name), {});
    return std::nullopt;
  }
  for (const std::string& file : amendments)
    if (!adoption.lay(file, {})) return std::nullopt;
  return adoption.result();
}

std::optional<code::Edition> edition_of(const Shelf& shelf, const Case& job, Diagnostics& diagnostics) {
  const auto complain = [&](std::string message, std::string note, const Where& w) {
    diagnostics.add({job.file, w.line, w.column, std::max<std::uint32_t>(1, w.length), std::move(message),
                     std::move(note), source_line(job, w)});
  };
  if (!job.edition) {
    if (!job.edition.where && job.whole)
      complain("the case does not say which edition it is to be checked to",
               fmt::format("write edition = \"...\" with one of: {}; or the path of an amendment file", fmt::join(edition_ids(*shelf.store), ", ")),
               {job.file, 1, 1, 1});
    return std::nullopt;
  }
  Adoption adoption(shelf, complain, diagnostics);
  std::optional<code::Edition> found = adoption.plain(*job.edition);
  if (!found) {
    if (!looks_like_path(*job.edition)) {
      complain(fmt::format("there is no edition '{}'", *job.edition), unknown_edition(*shelf.store, *job.edition), job.edition.where);
      return std::nullopt;
    }
    if (!adoption.lay(beside(job.file, *job.edition), job.edition.where)) return std::nullopt;
  } else if (job.amendments.empty()) {
    return found;
  } else {
    adoption.start_from(found->id());
  }
  bool good = true;
  for (const auto& file : job.amendments) {
    if (!file) return std::nullopt;  // complained of already
    if (!looks_like_path(*file) && adoption.plain(*file)) {
      complain(fmt::format("'{}' is an edition, and amendments are files", *file), fmt::format("write edition = \"{}\"", *file), file.where);
      good = false;
    } else {
      good = adoption.lay(beside(job.file, *file), file.where) && good;
    }
  }
  return good ? adoption.result() : std::nullopt;
}

std::optional<LoadedCase> load_case(const Shelf& shelf, std::string file, std::string text,
                                    const std::optional<code::Edition>& instead, Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.size();
  auto job = read_case_partly(std::move(file), std::move(text), diagnostics);
  if (!job) return std::nullopt;
  const auto edition = instead ? instead : edition_of(shelf, *job, diagnostics);
  if (edition) fit_to_edition(*job, *edition, diagnostics);
  if (!edition || diagnostics.size() != before) return std::nullopt;
  return LoadedCase{std::move(job), *edition};
}

}  // namespace pullproof
