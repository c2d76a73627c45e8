#pragma once
// Cells, rows and parameters of the rule data as text.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "code/edition.hpp"

namespace pullproof::code {

/// "20", "yes", "-" for a blank.
std::string cell_text(const CellRef& cell);
/// What names a row: its key cells, or the columns that bands are searched by.
std::vector<std::string> row_key(const TableRef& table, std::size_t row);
std::string row_key_text(const TableRef& table, std::size_t row);
/// The row of a table that has this key.
std::optional<std::size_t> row_called(const TableRef& table, const std::vector<std::string>& key);
/// The value of a parameter, its items separated by commas; empty when the rule has none.
std::string parameter_text(const RuleRef& rule, std::string_view parameter);

}  // namespace pullproof::code
