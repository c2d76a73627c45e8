#include "code/difference.hpp"

#include <fmt/format.h>

#include <set>

#include "code/cells.hpp"

namespace pullproof::code {
namespace {

void say(std::vector<Difference>& out, std::string what, std::string_view was, std::string_view now, Where origin = {}) {
  if (was != now) out.push_back({std::move(what), std::string(was), std::string(now), origin});
}

std::string whole(const TableRef& t, std::size_t row) {
  std::string s;
  for (std::size_t c = 0; c < t.columns(); ++c) s += fmt::format("{}{}", c == 0 ? "" : ", ", cell_text(t.cell(row, c)));
  return s;
}

template <class Ref>
std::vector<Difference> fields(const Ref& a, const Ref& b) {
  std::vector<Difference> out;
  say(out, "title", a.title(), b.title());
  say(out, "clause", a.clause(), b.clause());
  say(out, "basis", name(a.basis()), name(b.basis()));
  say(out, "source", a.source(), b.source());
  say(out, "seen", a.seen() ? "yes" : "no: not covered", b.seen() ? "yes" : "no: not covered");
  return out;
}

/// Walks two lists that are sorted by name side by side.
template <class At>
void entries(std::vector<EntryDifference>& out, bool table, const Edition& a, std::size_t count_a, const Edition& b, std::size_t count_b, At at) {
  for (std::size_t i = 0, j = 0; i < count_a || j < count_b;) {
    const bool left = j == count_b || (i < count_a && at(a, i).name() < at(b, j).name());
    const bool right = !left && (i == count_a || at(b, j).name() < at(a, i).name());
    const auto shown = left ? at(a, i) : at(b, j);
    EntryDifference e{table, shown.name(), shown.title(), shown.clause(), left ? a.id() : right ? b.id() : std::string_view{}, {}};
    if (!left && !right) {
      e.inside = fields(at(a, i), at(b, j));
      for (Difference& d : content_differences(at(a, i), at(b, j))) e.inside.push_back(std::move(d));
    }
    if (!right) ++i;
    if (!left) ++j;
    if (!e.only_in.empty() || !e.inside.empty()) out.push_back(std::move(e));
  }
}

}  // namespace

std::vector<Difference> content_differences(const TableRef& a, const TableRef& b) {
  std::vector<Difference> out;
  std::set<std::size_t> met;
  for (std::size_t r = 0; r < a.rows(); ++r) {
    const auto other = row_called(b, row_key(a, r));
    if (!other) {
      say(out, fmt::format("row {}", row_key_text(a, r)), whole(a, r), "no such row");
      continue;
    }
    met.insert(*other);
    for (std::size_t c = 0; c < a.columns(); ++c) {
      const std::string_view column = a.column_name(c);
      if (!b.has_column(column)) continue;
      const CellRef cell = b.cell(*other, column);
      say(out, fmt::format("{}, {}", row_key_text(a, r), column), cell_text(a.cell(r, c)), cell_text(cell), cell.origin());
    }
  }
  for (std::size_t r = 0; r < b.rows(); ++r)
    if (!met.contains(r)) say(out, fmt::format("row {}", row_key_text(b, r)), "no such row", whole(b, r), b.cell(r, std::size_t{0}).origin());
  for (std::size_t c = 0; c < a.columns(); ++c)
    if (!b.has_column(a.column_name(c))) say(out, fmt::format("column {}", a.column_name(c)), "there", "not there");
  for (std::size_t c = 0; c < b.columns(); ++c)
    if (!a.has_column(b.column_name(c))) say(out, fmt::format("column {}", b.column_name(c)), "not there", "there");
  return out;
}

std::vector<Difference> content_differences(const RuleRef& a, const RuleRef& b) {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < a.parameters(); ++i) names.insert(a.parameter_name(i));
  for (std::size_t i = 0; i < b.parameters(); ++i) names.insert(b.parameter_name(i));
  const auto text = [](const RuleRef& r, std::string_view n) {
    const std::string s = parameter_text(r, n);
    return s.empty() ? std::string("nothing") : s;
  };
  std::vector<Difference> out;
  for (const std::string_view n : names) say(out, std::string(n), text(a, n), text(b, n), b[n].origin());
  return out;
}

std::vector<EntryDifference> differences(const Edition& a, const Edition& b) {
  std::vector<EntryDifference> out;
  entries(out, true, a, a.table_count(), b, b.table_count(), [](const Edition& e, std::size_t i) { return e.table_at(i); });
  entries(out, false, a, a.rule_count(), b, b.rule_count(), [](const Edition& e, std::size_t i) { return e.rule_at(i); });
  return out;
}

}  // namespace pullproof::code
