#pragma once
// The size that a wire-type equipment grounding conductor must have (NFPA 70 250.122).
#include "derive/line.hpp"
#include "derive/smallest.hpp"
#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// Circular mils of a size by the edition's table, as a step; of the standard where nobody has seen the table.
Traced<double> circular_mils(Context& cx, const ConductorSize& size, std::string_view name, std::string_view symbol);
/// The first size of the table that has at least so many circular mils.
ConductorSize size_from(Context& cx, double circular_mils);

/// Whether the armor or sheath of a cable is its grounding conductor.
bool armor_grounds(Context& cx, const Cable& k);

/// What a grounding wire must be.
struct GroundNeed {
  enum class By : std::uint8_t { table, increase, conductors, cord };
  By by = By::table;  ///< what decided
  ConductorSize size;
  Traced<double> circular_mils;  ///< of that size
  Citation cite;
  std::optional<SmallestConductor> smallest;  ///< the conductors that would have done, where that was asked
  StepId why = no_step;                       ///< says why those would have done
  std::optional<Stop> open;  ///< those are not known, for this reason: the size is the most that can be asked for
};

/// In this order: the table by the device, the ratio of the installed conductors to the smallest that would do, the
/// cap by the installed conductors. Both methods of the editions measure from the smallest conductor that does with
/// the factors of its place, since a size that the factors ask for is no increase: "installed" because that is the
/// smallest for the installation, "without-derating" because the rule excepts what the factors ask for.
/// `metal` is that of the grounding wire. Needs the rating of the device.
GroundNeed ground_need(Context& cx, const Circuit& c, const Stretch& s, Material metal);

}  // namespace pullproof::derive
