#pragma once
#include <vector>

#include "pdf/type.hpp"
#include "report/document.hpp"

namespace pullproof::pdf {

/// Widths of columns that fill `room`: each at least as wide as its widest word where that can be had, the rest shared
/// out by how much text there is.
std::vector<double> column_widths(const doc::Table& table, double room, double size);
inline constexpr double cell_pad = 4;  ///< left and right of a cell's text

}  // namespace pullproof::pdf
