#pragma once
// Reading what an edition or amendment changes in its base. Private to read.cpp.
#include "code/entry_reader.hpp"

namespace pullproof::code {

/// Reads a whole rule file: its head, its entries, and for a delta its changes, which say what they replace.
class RuleReader : public EntryReader {
 public:
  using EntryReader::EntryReader;

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

  bool unseen_ = false;
};

}  // namespace pullproof::code
