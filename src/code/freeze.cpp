#include <algorithm>
#include <unordered_map>

#include "code/frozen.hpp"

namespace pullproof::code {
namespace {

class Freezer {
 public:
  FrozenStore run(const std::vector<Book>& books) {
    str("");
    for (const Book& book : books) {
      EditionRecord e{str(book.id), str(book.title), str(book.base), str(book.publisher), str(book.adopted), str(book.ordinance), file(book.file)};
      e.first_table = size(out_.tables);
      e.tables = static_cast<std::uint32_t>(book.tables.size());
      for (const auto& [name, table] : book.tables) add(name, table);
      e.first_rule = size(out_.rules);
      e.rules = static_cast<std::uint32_t>(book.rules.size());
      for (const auto& [name, rule] : book.rules) add(name, rule);
      e.first_slot = size(out_.slots);
      e.table_slots = lay_out(book.tables);
      e.rule_slots = lay_out(book.rules);
      out_.editions.push_back(e);
    }
    std::sort(out_.sources.begin(), out_.sources.end(),
              [](const CellSource& a, const CellSource& b) { return a.cell < b.cell; });
    return std::move(out_);
  }

 private:
  template <class T>
  static std::uint32_t size(const std::vector<T>& v) { return static_cast<std::uint32_t>(v.size()); }

  /// Appends slots in which the names of `entries` are found at once; returns how many.
  template <class Entries>
  std::uint32_t lay_out(const Entries& entries) {
    std::uint32_t count = 2;
    while (count < 2 * entries.size()) count *= 2;
    std::vector<std::uint16_t> slots(count);
    std::uint16_t number = 0;
    for (const auto& [name, unused] : entries) {
      std::uint32_t at = slot_of(name, count);
      while (slots[at] != 0) at = (at + 1) & (count - 1);
      slots[at] = ++number;
    }
    out_.slots.insert(out_.slots.end(), slots.begin(), slots.end());
    return count;
  }

  Str str(const std::string& text) {
    const auto [at, fresh] = strings_.try_emplace(text, Str{});
    if (fresh) {
      at->second = {static_cast<std::uint32_t>(out_.pool.size()), static_cast<std::uint32_t>(text.size())};
      out_.pool += text;
    }
    return at->second;
  }

  std::uint16_t file(const std::string& name) {
    const Str s = str(name);
    const auto at = std::find(out_.files.begin(), out_.files.end(), s);
    if (at != out_.files.end()) return static_cast<std::uint16_t>(at - out_.files.begin());
    out_.files.push_back(s);
    return static_cast<std::uint16_t>(out_.files.size() - 1);
  }

  Entry entry(const std::string& name, const BookEntry& e) {
    return {str(name), str(e.title), str(e.clause), str(e.source), e.origin.line, file(e.origin.file), e.basis, e.clause_basis, e.seen};
  }

  /// Appends cells, or finds the same run of cells from an earlier edition.
  std::uint32_t cells(const std::vector<const BookCell*>& run) {
    std::vector<Cell> made;
    std::string fingerprint;
    for (const BookCell* b : run) {
      Cell c;
      c.line = b->origin.line;
      c.file = file(b->origin.file);
      c.basis = b->basis;
      if (const auto* number = std::get_if<double>(&b->value)) {
        c.kind = CellKind::number;
        c.number = *number;
      } else if (const auto* text = std::get_if<std::string>(&b->value)) {
        c.kind = CellKind::text;
        c.text = str(*text);
      }
      const Str source = str(b->source);
      fingerprint.append(reinterpret_cast<const char*>(&c.number), sizeof c.number);
      for (const std::uint32_t n : {c.text.at, c.text.size, c.line, std::uint32_t{c.file},
                                    static_cast<std::uint32_t>(c.kind), static_cast<std::uint32_t>(c.basis),
                                    source.at, source.size})
        fingerprint.append(reinterpret_cast<const char*>(&n), sizeof n);
      made.push_back(c);
    }
    const auto [at, fresh] = runs_.try_emplace(fingerprint, size(out_.cells));
    if (fresh) {
      for (std::size_t i = 0; i < run.size(); ++i)
        if (!run[i]->source.empty())
          out_.sources.push_back({size(out_.cells) + static_cast<std::uint32_t>(i), str(run[i]->source)});
      out_.cells.insert(out_.cells.end(), made.begin(), made.end());
    }
    return at->second;
  }

  void add(const std::string& name, const BookTable& t) {
    Table record;
    record.entry = entry(name, t.entry);
    record.first_column = size(out_.columns);
    record.columns = size(t.columns);
    record.keys = static_cast<std::uint32_t>(t.keys);
    for (std::size_t i = 0; i < t.columns.size(); ++i)
      out_.columns.push_back({str(t.columns[i]), str(t.units[i])});
    record.rows = size(t.rows);
    std::vector<const BookCell*> run;
    for (const auto& row : t.rows)
      for (const BookCell& c : row) run.push_back(&c);
    record.first_cell = cells(run);
    out_.tables.push_back(record);
  }

  void add(const std::string& name, const BookRule& r) {
    Rule record;
    record.entry = entry(name, r.entry);
    std::vector<Parameter> parameters;
    for (const auto& [key, p] : r.parameters) {
      std::vector<const BookCell*> run;
      for (const BookCell& c : p.cells) run.push_back(&c);
      parameters.push_back({str(key), cells(run), size(p.cells), p.list});
    }
    record.first_parameter = size(out_.parameters);
    record.parameters = size(parameters);
    out_.parameters.insert(out_.parameters.end(), parameters.begin(), parameters.end());
    out_.rules.push_back(record);
  }

  FrozenStore out_;
  std::unordered_map<std::string, Str> strings_;
  std::unordered_map<std::string, std::uint32_t> runs_;
};

}  // namespace

FrozenStore freeze(const std::vector<Book>& books) { return Freezer{}.run(books); }

std::shared_ptr<const Store> share(FrozenStore store) {
  struct Both {
    FrozenStore frozen;
    Store view;
  };
  auto both = std::make_shared<Both>();
  both->frozen = std::move(store);
  both->view = both->frozen.view();
  return {both, &both->view};
}

std::vector<Book> thaw(const Store& store) {
  std::vector<Book> books;
  const auto text = [&](Str s) { return std::string(store.text(s)); };
  const auto source_of = [&](std::uint32_t cell) {
    const auto at = std::lower_bound(store.sources.begin(), store.sources.end(), cell,
                                     [](const CellSource& s, std::uint32_t i) { return s.cell < i; });
    return at != store.sources.end() && at->cell == cell ? text(at->source) : std::string{};
  };
  const auto thaw_cell = [&](std::uint32_t index) {
    const Cell& c = store.cells[index];
    BookCell b;
    if (c.kind == CellKind::number) b.value = c.number;
    if (c.kind == CellKind::text) b.value = text(c.text);
    b.basis = c.basis;
    b.source = source_of(index);
    b.origin = {text(store.files[c.file]), c.line};
    return b;
  };
  const auto thaw_entry = [&](const Entry& e) {
    return BookEntry{text(e.title), text(e.clause), text(e.source), e.basis, e.clause_basis, e.seen,
                     {text(store.files[e.file]), e.line}};
  };
  for (const EditionRecord& e : store.editions) {
    Book& book = books.emplace_back();
    book.id = text(e.id);
    book.title = text(e.title);
    book.base = text(e.base);
    book.publisher = text(e.publisher);
    book.file = text(store.files[e.file]);
    book.adopted = text(e.adopted);
    book.ordinance = text(e.ordinance);
    for (const Table& t : store.tables.subspan(e.first_table, e.tables)) {
      BookTable& table = book.tables[text(t.entry.name)];
      table.entry = thaw_entry(t.entry);
      table.keys = t.keys;
      for (const Column& c : store.columns.subspan(t.first_column, t.columns)) {
        table.columns.push_back(text(c.name));
        table.units.push_back(text(c.unit));
      }
      for (std::uint32_t r = 0; r < t.rows; ++r) {
        auto& row = table.rows.emplace_back();
        for (std::uint32_t c = 0; c < t.columns; ++c) row.push_back(thaw_cell(t.first_cell + r * t.columns + c));
      }
    }
    for (const Rule& r : store.rules.subspan(e.first_rule, e.rules)) {
      BookRule& rule = book.rules[text(r.entry.name)];
      rule.entry = thaw_entry(r.entry);
      for (const Parameter& p : store.parameters.subspan(r.first_parameter, r.parameters)) {
        BookParameter& parameter = rule.parameters[text(p.name)];
        parameter.list = p.list;
        for (std::uint32_t i = 0; i < p.cells; ++i) parameter.cells.push_back(thaw_cell(p.first_cell + i));
      }
    }
  }
  return books;
}

}  // namespace pullproof::code
