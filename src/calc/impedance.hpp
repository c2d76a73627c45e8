#pragma once
// Resistance and reactance of one conductor over a stretch. The texts are in ohm/kft, ft and ohm.
#include "core/working.hpp"

namespace pullproof::calc {

/// Note 2 of Chapter 9 Table 8: a straight line through the table's own temperature. The coefficient k belongs to
/// that temperature and to no other.
inline constexpr auto resistance_at_temperature = formula("resistance at that temperature", "r", "rt * (1 + k * (T - T0))",
    {"rt", "k", "T", "T0"}, [](ResistancePerLength table, double k, Temperature t, Temperature reference) -> ResistancePerLength {
      return table * (1 + k * (t.celsius - reference.celsius));
    });

/// The ac table knows bare copper only: tin raises it as it raises the dc resistance.
inline constexpr auto resistance_tinned = formula("resistance with tin", "r", "rt * rc / ru", {"rt", "rc", "ru"},
    [](ResistancePerLength table, ResistancePerLength coated, ResistancePerLength uncoated) -> ResistancePerLength {
      return table * (coated.value() / uncoated.value());
    });

inline constexpr auto resistance = formula("resistance of a conductor", "R", "r * L / 1000", {"r", "L"},
    [](ResistancePerLength r, Length l) -> Resistance { return r * l; });
inline constexpr auto reactance = formula("reactance of a conductor", "X", "x * L / 1000", {"x", "L"},
    [](ResistancePerLength x, Length l) -> Resistance { return x * l; });

/// Conductors in parallel share the current evenly: each set the same (310.10(G) demands that they are alike).
inline constexpr auto resistance_of_sets = formula("resistance of the sets", "R", "r * L / 1000 / m", {"r", "L", "m"},
    [](ResistancePerLength r, Length l, double sets) -> Resistance { return r * l / sets; });
inline constexpr auto reactance_of_sets = formula("reactance of the sets", "X", "x * L / 1000 / m", {"x", "L", "m"},
    [](ResistancePerLength x, Length l, double sets) -> Resistance { return x * l / sets; });

}  // namespace pullproof::calc
