#pragma once
// How round things lie in a round tube that runs level.
#include <vector>

#include "draw/drawing.hpp"

namespace pullproof::draw {

/// Where each circle ended up.
struct Packed {
  std::vector<Point> centres;  ///< from the middle of the tube, y down; in the order of the radii that were given
  std::vector<bool> inside;    ///< false: there was no room left for it, and its centre means nothing
};

/// Lays circles into a tube of inside radius `tube`, the largest first, each in the lowest place there is, and lets the
/// pile settle. None overlaps another or the wall by more than `packing_slack` of the tube's radius. The same input
/// gives the same places. Radii are positive and in the unit of `tube`.
Packed pack(const std::vector<double>& radii, double tube);
inline constexpr double packing_slack = 1e-6;

}  // namespace pullproof::draw
