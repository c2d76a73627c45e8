#pragma once
// How much current a conductor may carry (NFPA 70 Article 310: order of work in rules/us-2017/conductors.toml).
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto corrected = formula("ampacity for the place", "Ia", "It * fa * fn", {"It", "fa", "fn"},
    [](Current table, double ambient, double count) -> Current { return table * ambient * count; });
inline constexpr auto corrected_sets = formula("ampacity for the place", "Ia", "m * It * fa * fn", {"m", "It", "fa", "fn"},
    [](double sets, Current table, double ambient, double count) -> Current { return sets * table * ambient * count; });
inline constexpr auto of_sets = formula("ampacity of the sets", "Is", "m * It", {"m", "It"},
    [](double sets, Current table) -> Current { return sets * table; });
inline constexpr auto lower_of_two = formula("usable ampacity", "Iz", "min(Ia, It)", {"Ia", "It"},
    [](Current a, Current b) -> Current { return std::min(a, b); });
inline constexpr auto lower_of_three = formula("usable ampacity", "Iz", "min(Ia, It, Ik)", {"Ia", "It", "Ik"},
    [](Current a, Current b, Current c) -> Current { return std::min({a, b, c}); });

inline constexpr auto plain_of_two = formula("ampacity before factors", "Ip", "min(Ib, It)", {"Ib", "It"},
    [](Current a, Current b) -> Current { return std::min(a, b); });
inline constexpr auto plain_of_three = formula("ampacity before factors", "Ip", "min(Ib, It, Ik)", {"Ib", "It", "Ik"},
    [](Current a, Current b, Current c) -> Current { return std::min({a, b, c}); });

inline constexpr auto raised_ambient = formula("ambient with the roof's heat", "Ta", "T + dT", {"T", "dT"},
    [](Temperature t, double rise) -> Temperature { return {t.celsius + rise}; });
inline constexpr auto raised_ambient_f = formula("ambient with the roof's heat", "Ta", "T + dT", {"T", "dT"},
    [](double t, double rise) -> double { return t + rise; });
inline constexpr auto bundle_count = formula("counted conductors in the bundle", "n", "b * n1", {"b", "n1"},
    [](double cables, double each) -> double { return cables * each; });

/// 310.14(A)(2) Exception: the lesser of a length and a share of the higher-ampacity part.
inline constexpr auto short_part = formula("longest part that may keep the higher ampacity", "Lx", "min(La, p * Lh)",
    {"La", "p", "Lh"}, [](Length a, double share, Length higher) -> Length { return std::min(a, share * higher); });

}  // namespace pullproof::calc
