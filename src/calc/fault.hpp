#pragma once
// Fault current at the end of a circuit. The source is taken as pure reactance and the conductors as cold, which
// gives the largest current that can be: what equipment has to withstand. Ohm's law.
#include <cmath>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto source_reactance = formula("reactance of the source", "Xs", "V / (c * Is)", {"V", "c", "Is"},
    [](Voltage v, double c, Current fault) -> Resistance { return v / (c * fault); });
inline constexpr auto fault_current = formula("largest fault current at the load", "If", "V / (c * sqrt(R^2 + (X + Xs)^2))",
    {"V", "c", "R", "X", "Xs"}, [](Voltage v, double c, Resistance r, Resistance x, Resistance xs) -> Current {
      const double rr = raw(r), xx = raw(x) + raw(xs);
      return Current::from_value(raw(v) / (c * std::sqrt(rr * rr + xx * xx)));
    });

}  // namespace pullproof::calc
