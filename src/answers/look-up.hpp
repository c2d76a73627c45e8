#pragma once
// Looking something up in a table by what the trade calls it: "size 6, copper", "ambient 105 °F".
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "code/edition.hpp"

namespace pullproof::answers {

/// One thing asked of a table: a column by its name, or a word of the trade for what the table is searched by.
struct Asked {
  std::string name, value;
};

struct LookedUp {
  std::vector<std::size_t> rows, columns;  ///< columns without those that name a row
  std::string error, note;                 ///< what cannot be asked, and what can
};

/// What a table may be asked by, the columns that name its rows first: "size", "material", "ambient".
std::vector<std::string> asked_by(const code::TableRef& table);

/// The rows that have everything that is asked, and the columns that are about it. Sizes are read as people write them
/// ("6", "#6", "3/4 in"), quantities with or without their unit; a temperature needs one. A table of bands gives the
/// first band that reaches the value. With an error there are no rows.
LookedUp look_up(const code::Edition& edition, const code::TableRef& table, std::span<const Asked> asked);

}  // namespace pullproof::answers
