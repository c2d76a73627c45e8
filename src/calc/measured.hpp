#pragma once
// Readings against what the wire accounts for.
#include <cmath>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto volts_lost = formula("measured drop", "Vm", "Vs - Vl", {"Vs", "Vl"},
    [](Voltage start, Voltage load) -> Voltage { return start - load; });
inline constexpr auto most_volts = formula("most that the wire accounts for", "Vx", "Vd * (1 + k) + m", {"Vd", "k", "m"},
    [](Voltage expected, double more, Voltage margin) -> Voltage { return expected * (1 + more) + margin; });
inline constexpr auto fewest_volts = formula("least that the wire accounts for", "Vn", "Vd * k - m", {"Vd", "k", "m"},
    [](Voltage expected, double share, Voltage margin) -> Voltage { return expected * share - margin; });
inline constexpr auto loop_most = formula("most that the cable accounts for", "Rx", "R * (1 + k) + m", {"R", "k", "m"},
    [](Resistance r, double more, Resistance margin) -> Resistance { return r * (1 + more) + margin; });
inline constexpr auto loop_least = formula("least that the cable accounts for", "Rn", "R * (1 - k) - m", {"R", "k", "m"},
    [](Resistance r, double less, Resistance margin) -> Resistance { return r * (1 - less) - margin; });

}  // namespace pullproof::calc
