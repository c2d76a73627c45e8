#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <list>
#include <set>

#include "code/book.hpp"

namespace pullproof::code {
namespace {

std::string line_of(std::string_view text, std::uint32_t line) {
  for (std::uint32_t n = 1; n < line; ++n) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  return std::string(text.substr(0, std::min(text.find('\n'), text.size())));
}

/// Reads one rule file. Entries go into `book`; a delta's changes are applied to it.
class RuleReader {
 public:
  RuleReader(const RuleFile& file, Diagnostics& diagnostics) : file_(file), diagnostics_(diagnostics) {
    try {
      root_ = toml::parse(std::string_view(file.text), file.name);
    } catch (const toml::parse_error& e) {
      const auto& at = e.source().begin;
      diagnostics_.add({file.name, at.line, at.column, 1, std::string(e.description()), {}, line_of(file.text, at.line)});
      broken_ = true;
    }
  }

  bool broken() const { return broken_; }

  /// The `[edition]` table's texts. A full edition starts from nothing; a delta has a base.
  void read_edition(Book& book, bool full) {
    const toml::node* edition = root_.get("edition");
    const toml::table* e = edition != nullptr ? edition->as_table() : nullptr;
    book.file = file_.name;
    if (e == nullptr)
      return complain(edition != nullptr ? *edition : root_, "a rule file for an edition or amendment has an [edition] table");
    for (const auto& [key, node] : *e) {
      if (key == "unseen") {
        if (node.is_boolean()) unseen_ = *node.value<bool>();
        else complain(node, "'unseen' is true or false");
      } else if (key == "id") book.id = text(node);
      else if (key == "title") book.title = text(node);
      else if (key == "base") book.base = text(node);
      else if (key == "ordinance") book.ordinance = text(node);
      else if (key == "adopted") {
        if (const auto* d = node.as_date())
          book.adopted = fmt::format("{:04}-{:02}-{:02}", d->get().year, d->get().month, d->get().day);
        else complain(node, "'adopted' is a date, such as 2025-07-01");
      } else if (key != "publisher") complain(node, fmt::format("unknown key '{}' in [edition]", key.str()));
      else book.publisher = text(node);
    }
    if (book.id.empty()) complain(*e, "an edition has an id");
    if (book.title.empty()) complain(*e, "an edition has a title");
    if (full && !book.base.empty()) complain(*e, "a full edition has no base");
    if (!full && book.base.empty()) complain(*e, "an edition without a folder of its own has a base");
  }

  /// Complains at a key of `[edition]`, or at the table when it has no such key.
  void complain_of_edition(std::string_view key, std::string message) {
    const toml::node* edition = root_.get("edition");
    const toml::table* e = edition != nullptr ? edition->as_table() : nullptr;
    const toml::node* at = e != nullptr ? e->get(key) : nullptr;
    complain(at != nullptr ? *at : edition != nullptr ? *edition : root_, std::move(message));
  }

  void read_entries(Book& book, bool full) {
    for (const auto& [key, node] : root_) {
      const bool of_deltas = key == "change" || key == "same" || key == "renumbered";
      if (key == "table") each_table(node, [&](const std::string& name, const toml::table& t) { table(book, name, t); });
      else if (key == "rule") each_table(node, [&](const std::string& name, const toml::table& t) { rule(book, name, t); });
      else if (full && of_deltas) complain(node, fmt::format("a full edition has no [[{}]]", key.str()));
      else if (key != "edition" && !of_deltas) complain(node, fmt::format("unknown key '{}'", key.str()));
    }
  }

  /// For a delta: marks, then changes what is there.
  void read_changes(Book& book) {
    if (unseen_) {
      for (auto& [name, t] : book.tables) hide(t.entry);
      for (auto& [name, r] : book.rules) hide(r.entry);
    }
    each_of("same", [&](const toml::table& t) { same(book, t); });
    each_of("renumbered", [&](const toml::table& t) { renumbered(book, t); });
    each_of("change", [&](const toml::table& t) { change(book, t); });
  }

 private:
  static void hide(BookEntry& e) {
    e.seen = false;
    e.clause_basis = Basis::memory;
  }
  static void confirm(BookEntry& e) {
    if (!e.seen) e.clause_basis = Basis::published;
    e.seen = true;
  }

  void complain(const toml::node& node, std::string message) {
    const toml::source_position begin = node.source().begin, end = node.source().end;
    const bool one_line = begin.line == end.line && end.column > begin.column;
    diagnostics_.add({file_.name, begin.line, begin.column, one_line ? end.column - begin.column : 1, std::move(message), {},
                      line_of(file_.text, begin.line)});
  }
  Origin origin(const toml::node& node) const { return {file_.name, node.source().begin.line}; }

  std::string text(const toml::node& node) {
    if (const auto* s = node.as_string()) return s->get();
    complain(node, "text is wanted here");
    return {};
  }

  /// The source that an entry of a delta has to name.
  std::string source_of(const toml::table& t, std::string_view what) {
    const toml::node* n = t.get("source");
    const std::string s = n != nullptr ? text(*n) : std::string{};
    if (n == nullptr || (n->is_string() && s.empty()))
      complain(n != nullptr ? *n : t, fmt::format("{} says in 'source' where it was read", what));
    return s;
  }

  Basis basis_of(const toml::table& t, std::string_view what) {
    if (const toml::node* n = t.get("basis")) return basis(*n);
    complain(t, fmt::format("{} has a basis", what));
    return Basis::memory;
  }

  bool only_keys(const toml::table& t, std::initializer_list<std::string_view> known, std::string_view what) {
    bool good = true;
    for (const auto& [k, node] : t)
      if (std::find(known.begin(), known.end(), k.str()) == known.end()) {
        complain(node, fmt::format("unknown key '{}' in {}", k.str(), what));
        good = false;
      }
    return good;
  }

  template <class Fn>
  void each_table(const toml::node& node, Fn fn) {
    const toml::table* all = node.as_table();
    if (all == nullptr) return complain(node, "a table is wanted here");
    for (const auto& [key, n] : *all) {
      if (const toml::table* t = n.as_table()) fn(std::string(key.str()), *t);
      else complain(n, "a table is wanted here");
    }
  }

  template <class Fn>
  void each_of(std::string_view key, Fn fn) {
    const toml::node* node = root_.get(key);
    if (node == nullptr) return;
    const toml::array* a = node->as_array();
    if (a == nullptr) return complain(*node, fmt::format("[[{}]] is an array of tables", key));
    for (const auto& n : *a) {
      if (const toml::table* t = n.as_table()) fn(*t);
      else complain(n, "a table is wanted here");
    }
  }

  Basis basis(const toml::node& node) {
    const std::string b = text(node);
    for (const Basis one : {Basis::published, Basis::derived, Basis::memory, Basis::common_practice})
      if (b == name(one)) return one;
    complain(node, "a basis is 'published', 'derived', 'memory' or 'common practice'");
    return Basis::memory;
  }

  BookCell cell(const toml::node& node, Basis basis) {
    BookCell c;
    c.basis = basis;
    c.origin = origin(node);
    if (const auto* s = node.as_string()) {
      if (!s->get().empty()) c.value = s->get();
    } else if (const auto* i = node.as_integer()) c.value = static_cast<double>(i->get());
    else if (const auto* f = node.as_floating_point()) {
      if (!(std::abs(f->get()) < 1e300)) complain(node, "a number has to be finite");
      c.value = f->get();
    } else if (const auto* b = node.as_boolean()) c.value = b->get() ? "yes" : "no";
    else complain(node, "a number, a text or true or false is wanted here");
    return c;
  }

  /// The keys that tables and rules share. True when `key` was one of them.
  bool entry_key(BookEntry& entry, std::string_view key, const toml::node& node) {
    if (key == "title") entry.title = text(node);
    else if (key == "clause") entry.clause = text(node);
    else if (key == "source") entry.source = text(node);
    else if (key == "basis") entry.basis = basis(node);
    else return false;
    return true;
  }

  void entry_complete(const BookEntry& e, const toml::table& t, std::string_view name) {
    if (e.title.empty()) complain(t, fmt::format("'{}' has no title", name));
    if (e.clause.empty()) complain(t, fmt::format("'{}' has no clause", name));
    if (e.source.empty()) complain(t, fmt::format("'{}' has no source", name));
    if (t.get("basis") == nullptr) complain(t, fmt::format("'{}' has no basis", name));
  }

  std::vector<std::string> texts(const toml::node& node) {
    std::vector<std::string> out;
    const toml::array* a = node.as_array();
    if (a == nullptr) {
      complain(node, "a list of texts is wanted here");
      return out;
    }
    for (const auto& n : *a) out.push_back(text(n));
    return out;
  }

  void table(Book& book, const std::string& name, const toml::table& t) {
    if (book.tables.contains(name)) return complain(t, fmt::format("there is a table '{}' already", name));
    BookTable made;
    made.entry.origin = origin(t);
    std::vector<std::string> key;
    for (const auto& [k, node] : t)
      if (!entry_key(made.entry, k.str(), node)) {
        if (k == "key") key = texts(node);
        else if (k == "columns") made.columns = texts(node);
        else if (k == "units") made.units = texts(node);
        else if (k != "rows" && k != "except") complain(node, fmt::format("unknown key '{}' in a table", k.str()));
      }
    entry_complete(made.entry, t, name);
    made.entry.clause_basis = made.entry.basis == Basis::memory ? Basis::memory : Basis::published;
    if (made.units.size() != made.columns.size()) return complain(t, fmt::format("'{}': one unit for each column", name));
    for (auto c = made.columns.begin(); c != made.columns.end(); ++c)
      if (std::find(made.columns.begin(), c, *c) != c) return complain(t, fmt::format("'{}' has two columns '{}'", name, *c));
    made.keys = key.size();
    for (std::size_t i = 0; i < key.size(); ++i)
      if (i >= made.columns.size() || made.columns[i] != key[i])
        return complain(t, fmt::format("'{}': the key has to be the leading columns", name));
    const toml::array* rows = t["rows"].as_array();
    if (rows == nullptr || rows->empty()) return complain(t, fmt::format("'{}' has no rows", name));
    for (const auto& r : *rows) made.rows.push_back(row(r, made));
    if (!unique_keys(made)) complain(t, fmt::format("'{}': two rows with the same key", name));
    if (const toml::node* except = t.get("except")) exceptions(*except, made);
    book.tables.emplace(name, std::move(made));
  }

  std::vector<BookCell> row(const toml::node& node, const BookTable& t) {
    std::vector<BookCell> cells;
    if (const toml::array* a = node.as_array())
      for (const auto& n : *a) cells.push_back(cell(n, t.entry.basis));
    if (cells.size() != t.columns.size()) {
      complain(node, fmt::format("a row of this table has {} cells", t.columns.size()));
      cells.resize(t.columns.size());
    }
    return cells;
  }

  static bool unique_keys(const BookTable& t) {
    std::set<std::vector<BookValue>> seen;
    for (const auto& r : t.rows) {
      std::vector<BookValue> key;
      for (std::size_t i = 0; i < t.keys; ++i) key.push_back(r[i].value);
      if (t.keys > 0 && !seen.insert(key).second) return false;
    }
    return true;
  }

  void exceptions(const toml::node& node, BookTable& t) {
    const toml::array* all = node.as_array();
    if (all == nullptr) return complain(node, "'except' is a list of tables");
    for (const auto& n : *all) {
      const toml::table* e = n.as_table();
      if (e == nullptr || e->get("basis") == nullptr || e->get("source") == nullptr) {
        complain(n, "an exception has row, columns, basis and source");
        continue;
      }
      if (!only_keys(*e, {"row", "columns", "basis", "source"}, "an exception")) continue;
      const Basis b = basis(*e->get("basis"));
      const std::string source = source_of(*e, "an exception");
      const auto columns = e->get("columns") != nullptr ? texts(*e->get("columns")) : t.columns;
      const toml::node* which = e->get("row");
      std::size_t hits = 0;
      for (auto& r : t.rows) {
        if (which != nullptr && !is_row(r, *which)) continue;
        for (const std::string& c : columns) {
          const auto at = std::find(t.columns.begin(), t.columns.end(), c);
          if (at == t.columns.end()) {
            complain(n, fmt::format("there is no column '{}'", c));
            continue;
          }
          BookCell& cell = r[static_cast<std::size_t>(at - t.columns.begin())];
          cell.basis = b;
          cell.source = source;
          ++hits;
        }
      }
      if (hits == 0) complain(n, "this exception names no row of the table");
    }
  }

  /// Whether the leading cells of a row are the values of the array `key`.
  static bool is_row(const std::vector<BookCell>& row, const toml::node& key) {
    const toml::array* a = key.as_array();
    if (a == nullptr || a->empty() || a->size() > row.size()) return false;
    for (std::size_t i = 0; i < a->size(); ++i)
      if (row[i].value != plain(*a->get(i))) return false;
    return true;
  }

  static BookValue plain(const toml::node& node) {
    if (const auto* s = node.as_string()) return s->get().empty() ? BookValue{} : BookValue{s->get()};
    if (const auto* i = node.as_integer()) return static_cast<double>(i->get());
    if (const auto* f = node.as_floating_point()) return f->get();
    if (const auto* b = node.as_boolean()) return std::string(b->get() ? "yes" : "no");
    return {};
  }

  void rule(Book& book, const std::string& name, const toml::table& t) {
    if (book.rules.contains(name)) return complain(t, fmt::format("there is a rule '{}' already", name));
    BookRule made;
    made.entry.origin = origin(t);
    if (const toml::node* b = t.get("basis")) made.entry.basis = basis(*b);
    for (const auto& [k, node] : t)
      if (!entry_key(made.entry, k.str(), node)) made.parameters[std::string(k.str())] = parameter(node, made.entry.basis);
    entry_complete(made.entry, t, name);
    made.entry.clause_basis = made.entry.basis == Basis::memory ? Basis::memory : Basis::published;
    book.rules.emplace(name, std::move(made));
  }

  BookParameter parameter(const toml::node& node, Basis b) {
    BookParameter p;
    if (const toml::array* a = node.as_array()) {
      p.list = true;
      for (const auto& n : *a) p.cells.push_back(cell(n, b));
    } else {
      p.cells.push_back(cell(node, b));
    }
    return p;
  }

  void same(Book& book, const toml::table& t) {
    source_of(t, "a [[same]]");
    if (t.get("tables") == nullptr && t.get("rules") == nullptr) complain(t, "a [[same]] names tables or rules");
    for (const auto& [k, node] : t) {
      if (k == "tables") {
        for (const std::string& name : texts(node))
          if (const auto at = book.tables.find(name); at != book.tables.end()) confirm(at->second.entry);
          else complain(node, fmt::format("the base edition has no table '{}'", name));
      } else if (k == "rules") {
        for (const std::string& name : texts(node))
          if (const auto at = book.rules.find(name); at != book.rules.end()) confirm(at->second.entry);
          else complain(node, fmt::format("the base edition has no rule '{}'", name));
      } else if (k != "source" && k != "basis" && k != "note") {
        complain(node, fmt::format("unknown key '{}' in [[same]]", k.str()));
      }
    }
  }

  /// Clauses that only have another number: rows of name, was, now.
  void renumbered(Book& book, const toml::table& t) {
    source_of(t, "a [[renumbered]]");
    const Basis b = basis_of(t, "a [[renumbered]]");
    if (t.get("tables") == nullptr && t.get("rules") == nullptr) complain(t, "a [[renumbered]] names tables or rules");
    for (const auto& [k, node] : t) {
      if (k == "source" || k == "basis" || k == "note") continue;
      if (k != "tables" && k != "rules") {
        complain(node, fmt::format("unknown key '{}' in [[renumbered]]", k.str()));
        continue;
      }
      const toml::array* rows = node.as_array();
      if (rows == nullptr) {
        complain(node, "a list of [name, was, now] is wanted here");
        continue;
      }
      for (const auto& n : *rows) {
        const auto row = texts(n);
        if (row.size() != 3) complain(n, "a renumbered clause is [name, was, now]");
        else if (BookEntry* e = find_entry(book, k == "tables", row[0])) renumber(*e, row, n, b);
        else complain(n, fmt::format("the base edition has no {} '{}'", k == "tables" ? "table" : "rule", row[0]));
      }
    }
  }

  void renumber(BookEntry& e, const std::vector<std::string>& row, const toml::node& n, Basis b) {
    if (e.clause != row[1]) return refuse(n, fmt::format("the clause of '{}' (it says '{}')", row[0], e.clause));
    if (row[1] == row[2]) return complain(n, "the clause has the same number as before");
    if (row[2].empty()) return complain(n, "a clause cannot become empty");
    e.clause = row[2];
    e.clause_basis = b;
    e.seen = true;
  }

  static BookEntry* find_entry(Book& book, bool table, const std::string& name) {
    if (table) {
      const auto at = book.tables.find(name);
      return at != book.tables.end() ? &at->second.entry : nullptr;
    }
    const auto at = book.rules.find(name);
    return at != book.rules.end() ? &at->second.entry : nullptr;
  }

  void change(Book& book, const toml::table& t) {
    if (!only_keys(t, {"table", "rule", "field", "row", "column", "after", "was", "now", "source", "basis", "note"}, "[[change]]")) return;
    if (t.get("table") != nullptr && t.get("rule") != nullptr) return complain(t, "a [[change]] names a table or a rule, not both");
    if (t.get("field") != nullptr && t.get("row") != nullptr) return complain(t, "a [[change]] names a field or a row, not both");
    source_of(t, "a [[change]]");
    const Basis b = basis_of(t, "a [[change]]");
    if (const toml::node* n = t.get("table")) {
      const auto at = book.tables.find(text(*n));
      if (at == book.tables.end()) return complain(*n, fmt::format("the base edition has no table '{}'", text(*n)));
      at->second.entry.seen = true;
      if (const toml::node* f = t.get("field")) change_field(at->second.entry, *f, t);
      else if (const toml::node* r = t.get("row")) change_row(at->second, *r, t, b);
      else complain(t, "a change of a table names a field or a row");
    } else if (const toml::node* r = t.get("rule")) {
      const auto at = book.rules.find(text(*r));
      if (at == book.rules.end()) return complain(*r, fmt::format("the base edition has no rule '{}'", text(*r)));
      at->second.entry.seen = true;
      if (const toml::node* f = t.get("field")) {
        if (!is_entry_field(text(*f))) change_parameter(at->second, *f, t, b);
        else change_field(at->second.entry, *f, t);
      } else {
        complain(t, "a change of a rule names a field");
      }
    } else {
      complain(t, "a [[change]] names a table or a rule");
    }
  }

  static bool is_entry_field(std::string_view f) {
    return f == "title" || f == "clause" || f == "source" || f == "basis";
  }

  void refuse(const toml::node& was, std::string_view what) {
    complain(was, fmt::format("the base edition does not say this about {}", what));
  }

  void change_field(BookEntry& e, const toml::node& field, const toml::table& t) {
    const std::string f = text(field);
    if (!is_entry_field(f)) return complain(field, fmt::format("a table has no field '{}'", f));
    if (f == "clause") return complain(field, "a clause is renumbered in [[renumbered]]");
    const toml::node *was = t.get("was"), *now = t.get("now");
    if (was == nullptr || now == nullptr) return complain(t, "a change of a field says what was and what is now");
    if (f == "basis") {
      if (text(*was) != name(e.basis)) return refuse(*was, fmt::format("the basis (it says '{}')", name(e.basis)));
      const Basis next = basis(*now);
      if (next == e.basis) complain(*now, "this changes nothing");
      e.basis = next;
      return;
    }
    std::string& value = f == "title" ? e.title : e.source;
    if (text(*was) != value) return refuse(*was, fmt::format("the {} (it says '{}')", f, value));
    const std::string next = text(*now);
    if (next.empty()) return complain(*now, fmt::format("a {} cannot become empty", f));
    if (next == value) complain(*now, "this changes nothing");
    value = next;
  }

  static bool alike(const std::vector<BookCell>& a, const std::vector<BookCell>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const BookCell& x, const BookCell& y) { return x.value == y.value; });
  }

  static std::string shown(const BookCell& c) {
    if (const auto* n = std::get_if<double>(&c.value)) return number_text(*n, 9);
    if (const auto* s = std::get_if<std::string>(&c.value)) return fmt::format("'{}'", *s);
    return "nothing";
  }

  void change_parameter(BookRule& rule, const toml::node& field, const toml::table& t, Basis b) {
    const std::string f = text(field);
    const toml::node *was = t.get("was"), *now = t.get("now");
    const auto at = rule.parameters.find(f);
    if (was != nullptr) {
      if (at == rule.parameters.end()) return refuse(*was, fmt::format("'{}'", f));
      if (!alike(parameter(*was, b).cells, at->second.cells)) return refuse(*was, fmt::format("'{}'", f));
    } else if (at != rule.parameters.end()) {
      return complain(t, fmt::format("the base edition has '{}' already; say what it was", f));
    }
    if (now == nullptr) {
      if (was == nullptr) complain(t, "a change says what was, what is now, or both");
      rule.parameters.erase(f);
      return;
    }
    BookParameter p = parameter(*now, b);
    if (was != nullptr && alike(p.cells, at->second.cells)) complain(*now, "this changes nothing");
    for (BookCell& c : p.cells)
      if (const toml::node* s = t.get("source")) c.source = text(*s);
    rule.parameters[f] = std::move(p);
  }

  void change_row(BookTable& table, const toml::node& key, const toml::table& t, Basis b) {
    const auto at = std::find_if(table.rows.begin(), table.rows.end(), [&](const auto& r) { return is_row(r, key); });
    const toml::node *was = t.get("was"), *now = t.get("now");
    const std::string source = t.get("source") != nullptr ? text(*t.get("source")) : std::string{};
    if (const toml::node* c = t.get("column")) {
      if (at == table.rows.end()) return complain(key, "the base edition has no such row");
      const auto column = std::find(table.columns.begin(), table.columns.end(), text(*c));
      if (column == table.columns.end()) return complain(*c, fmt::format("there is no column '{}'", text(*c)));
      if (was == nullptr || now == nullptr) return complain(t, "a change of a cell says what was and what is now");
      BookCell& cell = (*at)[static_cast<std::size_t>(column - table.columns.begin())];
      if (plain(*was) != cell.value) return refuse(*was, fmt::format("this cell (it says {})", shown(cell)));
      BookCell next = this->cell(*now, b);
      if (next.value == cell.value) complain(*now, "this changes nothing");
      next.source = source;
      cell = std::move(next);
      if (!unique_keys(table)) complain(*now, "there is a row with this key already");
      return;
    }
    if (was == nullptr) {
      if (at != table.rows.end()) return complain(key, "the base edition has this row already; say what it was");
      if (now == nullptr) return complain(t, "a new row says what is now");
      if (now->is_array() && !is_row(row(*now, table), key)) return complain(key, "'row' is not how 'now' begins");
      insert_row(table, *now, t.get("after"), source, b);
      return;
    }
    if (at == table.rows.end()) return refuse(*was, "this row");
    if (!alike(row(*was, table), *at)) return refuse(*was, "this row");
    if (now == nullptr) {
      table.rows.erase(at);
      return;
    }
    auto next = sourced(row(*now, table), source, b);
    if (alike(next, *at)) complain(*now, "this changes nothing");
    *at = std::move(next);
    if (!unique_keys(table)) complain(*now, "there is a row with this key already");
  }

  static std::vector<BookCell> sourced(std::vector<BookCell> cells, const std::string& source, Basis b) {
    for (BookCell& c : cells) {
      c.source = source;
      c.basis = b;
    }
    return cells;
  }

  void insert_row(BookTable& table, const toml::node& now, const toml::node* after, const std::string& source, Basis b) {
    auto place = table.rows.end();
    if (after != nullptr) {
      place = std::find_if(table.rows.begin(), table.rows.end(), [&](const auto& r) { return is_row(r, *after); });
      if (place == table.rows.end()) return complain(*after, "there is no such row to come after");
      ++place;
    }
    table.rows.insert(place, sourced(row(now, table), source, b));
    if (!unique_keys(table)) complain(now, "there is a row with this key already");
  }

  const RuleFile& file_;
  Diagnostics& diagnostics_;
  toml::table root_;
  bool broken_ = false, unseen_ = false;
};

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
