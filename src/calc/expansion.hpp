#pragma once
// How much a straight run of plastic conduit grows and shrinks (NFPA 70 Table 352.44, whose cells are this product).
#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto swing_f = formula("temperature swing in °F", "dT", "(Th - Tc) * 1.8", {"Th", "Tc"},
    [](Temperature hottest, Temperature coldest) -> double { return (hottest.celsius - coldest.celsius) * 1.8; });
inline constexpr auto swing_in_sun_f = formula("temperature swing in the sun, in °F", "dTs", "dT + s", {"dT", "s"},
    [](double swing, double sun) -> double { return swing + sun; });
/// Length in feet, change in inches.
inline constexpr auto length_change = formula("length change", "dL", "a * L * 12 * dT", {"a", "L", "dT"},
    [](double per_f, Length run, double swing) -> Length { return per_f * run * swing; });

}  // namespace pullproof::calc
