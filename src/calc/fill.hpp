#pragma once
// How full a raceway is (NFPA 70 Chapter 9 Table 1 and its notes). The inside area comes from the inside diameter,
// not from the rounded area printed beside it: the printed conduit counts of Annex C follow from the unrounded one.
// The area of a conductor is the printed one, which the same counts follow from.
#include <cmath>
#include <numbers>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto circle = formula("area of one", "A1", "pi / 4 * d * d", {"d"},
    [](Length d) -> Area { return std::numbers::pi / 4 * d * d; });
inline constexpr auto bore = formula("area inside the raceway", "Ar", "pi / 4 * D * D", {"D"},
    [](Length d) -> Area { return std::numbers::pi / 4 * d * d; });
inline constexpr auto allowed_fill = formula("area that may be filled", "Am", "p * Ar", {"p", "Ar"},
    [](double percent, Area inside) -> Area { return percent * inside; });

/// The area in use is added up kind by kind.
inline constexpr auto first_area = formula("area in use", "Au", "n * A1", {"n", "A1"},
    [](double n, Area one) -> Area { return n * one; });
inline constexpr auto next_area = formula("area in use", "Au", "Ab + n * A1", {"Ab", "n", "A1"},
    [](Area before, double n, Area one) -> Area { return before + n * one; });
inline constexpr auto share = formula("share of the inside in use", "u", "Au / Ar", {"Au", "Ar"},
    [](Area used, Area inside) -> double { return used / inside; });

/// All alike: Chapter 9 Table 1 Note 7. `r` is the decimal part from which the quotient counts as the next number.
inline constexpr auto quotient = formula("conductors in the area that may be filled", "q", "Am / A1", {"Am", "A1"},
    [](Area allowed, Area one) -> double { return allowed / one; });
inline constexpr auto most_alike = formula("most conductors of this size", "N", "floor(q + 1 - r)", {"q", "r"},
    [](double q, double r) -> double { return std::floor(q + 1 - r + slack); });

/// Three conductors side by side are about as wide as the bore: Chapter 9 Table 1, informational note on jamming.
inline constexpr auto jam_ratio = formula("inside diameter over conductor diameter", "J", "D / d", {"D", "d"},
    [](Length inside, Length conductor) -> double { return inside / conductor; });

}  // namespace pullproof::calc
