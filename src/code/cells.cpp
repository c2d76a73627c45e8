#include "code/cells.hpp"

#include <fmt/format.h>

#include "core/text.hpp"

namespace pullproof::code {

std::string cell_text(const CellRef& cell) {
  if (cell.blank()) return "-";
  const auto n = cell.number();
  if (!n) return std::string(cell.text());
  return *n >= 1e9 ? "and more" : number_text(*n, 9);
}

std::vector<std::string> row_key(const TableRef& table, std::size_t row) {
  std::vector<std::string> key;
  for (std::size_t c = 0; c < table.columns(); ++c)
    if (c < table.keys() || (table.keys() == 0 && table.column_name(c).starts_with("through"))) key.push_back(cell_text(table.cell(row, c)));
  if (key.empty()) key.push_back(cell_text(table.cell(row, std::size_t{0})));
  return key;
}

std::string row_key_text(const TableRef& table, std::size_t row) { return fmt::format("{}", fmt::join(row_key(table, row), ", ")); }

std::optional<std::size_t> row_called(const TableRef& table, const std::vector<std::string>& key) {
  for (std::size_t r = 0; r < table.rows(); ++r)
    if (row_key(table, r) == key) return r;
  return std::nullopt;
}

std::string parameter_text(const RuleRef& rule, std::string_view parameter) {
  std::string s;
  for (const CellRef& cell : rule.list(parameter)) s += fmt::format("{}{}", s.empty() ? "" : ", ", cell_text(cell));
  return s;
}

}  // namespace pullproof::code
