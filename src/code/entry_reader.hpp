#pragma once
// Reading whole tables and rules. Private to read.cpp.
#include "code/rule_nodes.hpp"

namespace pullproof::code {

/// Reads the tables and rules of a file into a book.
class EntryReader : public RuleNodes {
 public:
  using RuleNodes::RuleNodes;

  void read_entries(Book& book, bool full) {
    for (const auto& [key, node] : root_) {
      const bool of_deltas = key == "change" || key == "same" || key == "renumbered";
      if (key == "table") each_table(node, [&](const std::string& name, const toml::table& t) { table(book, name, t); });
      else if (key == "rule") each_table(node, [&](const std::string& name, const toml::table& t) { rule(book, name, t); });
      else if (full && of_deltas) complain(node, fmt::format("a full edition has no [[{}]]", key.str()));
      else if (key != "edition" && !of_deltas) complain(node, fmt::format("unknown key '{}'", key.str()));
    }
  }

 private:
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
};

}  // namespace pullproof::code
