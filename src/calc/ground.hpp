#pragma once
// How large a wire-type equipment grounding conductor is (NFPA 70 250.122): by the device, then grown in the ratio of
// circular mils with conductors that are larger than they need be, then capped by them. The ratio is never rounded.
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto grown = formula("circular mils when it grows with the conductors", "Gg", "G * S / M", {"G", "S", "M"},
    [](double table, double installed, double smallest) -> double { return table * installed / smallest; });
inline constexpr auto all_sets = formula("circular mils of the conductors in parallel", "Sm", "m * S", {"m", "S"},
    [](double sets, double one) -> double { return sets * one; });
inline constexpr auto capped = formula("circular mils that are needed", "Gn", "min(Gg, Sm)", {"Gg", "Sm"},
    [](double wanted, double conductors) -> double { return std::min(wanted, conductors); });

}  // namespace pullproof::calc
