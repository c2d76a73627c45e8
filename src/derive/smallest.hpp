#pragma once
// The smallest conductors that would do for a circuit as it is installed.
#include <optional>
#include <string_view>

#include "derive/ampacity.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// A size, and why it is the one: what it carries and what the next smaller one does not.
struct SmallestConductor {
  ConductorSize size;
  std::string_view why;
  bool enough = true;  ///< false: even the installed size does not do
  std::optional<ConductorSize> too_small;  ///< the next smaller one, where it fails
};

/// The smallest size, the same on every stretch and of the metal, type and number of sets that are installed, that
/// carries the load, that the device may protect (where its rating is given) and that may be used at all. At most the
/// largest installed size. Ampacity is with the factors of each place and the terminals.
/// Without a load in the case the device alone decides. Throws Stop where the ampacity of what is installed cannot be
/// found.
SmallestConductor smallest_conductor(Context& cx, const Circuit& c, const Line& line);

/// Whether one size all along would do, with or without the factors of the place. Throws as above.
bool would_do(Context& cx, const Circuit& c, const Line& line, const ConductorSize& size, Factors factors);

}  // namespace pullproof::derive
