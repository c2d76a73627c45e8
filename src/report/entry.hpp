#pragma once
// Tables and rules of an edition, as text and as JSON.
#include <optional>
#include <string>
#include <vector>

#include "code/edition.hpp"

namespace pullproof::report {

/// What an edition has under a name: a table, or some rows and columns of it; a rule; or both.
struct Entry {
  std::optional<code::TableRef> table;
  std::vector<std::size_t> rows, columns;  ///< columns beside those that name a row
  bool looked_up = false;                  ///< a few rows were asked for: each is printed with all that it rests on
  std::optional<code::RuleRef> rule;
};

/// Cells that are not plain are marked, with what they rest on below the table.
std::string entry_text(const code::Edition& edition, const Entry& entry, std::size_t width, bool color);
/// One object: `format` "pullproof-entry-1", `version`, `edition`, `table` and `rule`, either of which may be null.
std::string entry_json(const code::Edition& edition, const Entry& entry, std::string_view version);

}  // namespace pullproof::report
