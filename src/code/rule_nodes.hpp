#pragma once
// Reading the nodes of a rule file, with complaints at their place. Private to read.cpp, the one file that sees toml++ here.
#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "code/book.hpp"

namespace pullproof::code {

inline std::string line_of(std::string_view text, std::uint32_t line) {
  for (std::uint32_t n = 1; n < line; ++n) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  return std::string(text.substr(0, std::min(text.find('\n'), text.size())));
}

/// One parsed rule file, and what tables, rules and changes have in common.
class RuleNodes {
 public:
  RuleNodes(const RuleFile& file, Diagnostics& diagnostics) : file_(file), diagnostics_(diagnostics) {
    try {
      root_ = toml::parse(std::string_view(file.text), file.name);
    } catch (const toml::parse_error& e) {
      const auto& at = e.source().begin;
      diagnostics_.add({file.name, at.line, at.column, 1, std::string(e.description()), {}, line_of(file.text, at.line)});
      broken_ = true;
    }
  }

  bool broken() const { return broken_; }

 protected:
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

  const RuleFile& file_;
  Diagnostics& diagnostics_;
  toml::table root_;
  bool broken_ = false;
};

}  // namespace pullproof::code
