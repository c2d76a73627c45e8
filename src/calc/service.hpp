#pragma once
// Load of a service (NFPA 70 Article 220, Parts III and IV). Powers in volt-amperes.
#include <algorithm>
#include <cmath>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto load_of_area = formula("general lighting", "P", "a * f", {"a", "f"},
    [](Area a, double va_per_square_foot) -> Power { return Power::from_value(a.value() / (0.3048 * 0.3048) * va_per_square_foot); });
inline constexpr auto load_of_units = formula("load of several alike", "P", "n * p", {"n", "p"},
    [](double n, Power each) -> Power { return n * each; });
inline constexpr auto load_share = formula("share of a load", "P", "k * p", {"k", "p"},
    [](double share, Power p) -> Power { return share * p; });
inline constexpr auto load_sum = formula("load so far", "T", "T0 + P", {"T0", "P"},
    [](Power sum, Power more) -> Power { return sum + more; });
inline constexpr auto load_larger = formula("larger of the two", "P", "max(a, b)", {"a", "b"},
    [](Power a, Power b) -> Power { return std::max(a, b); });
inline constexpr auto load_at_least = formula("load, but not less than", "P", "max(p, l)", {"p", "l"},
    [](Power p, Power least) -> Power { return std::max(p, least); });
inline constexpr auto first_block = formula("first block whole, the rest in part", "D", "min(T, b) + k * max(0, T - b)",
    {"T", "b", "k"}, [](Power t, Power block, double share) -> Power {
      return std::min(t, block) + share * std::max(Power{}, t - block);
    });
inline constexpr auto demand_step = formula("part of the demand step", "P", "k * max(0, min(T, h) - l)", {"k", "T", "h", "l"},
    [](double share, Power t, Power high, Power low) -> Power { return share * std::max(Power{}, std::min(t, high) - low); });
/// Note 1 and 2 of the cooking table: 5 % for each kW, or major part of one, above the base.
inline constexpr auto range_demand = formula("demand of the ranges", "P", "C * (1 + q * floor(max(0, (A - B) / 1000) + 0.5))",
    {"C", "q", "A", "B"}, [](Power column_c, double share, Power average, Power base) -> Power {
      return column_c * (1 + share * std::floor(std::max(0.0, (average - base).value() / 1000) + 0.5));
    });
inline constexpr auto service_current_1ph = formula("current of the service", "I", "D / V", {"D", "V"},
    [](Power d, Voltage v) -> Current { return d / v; });
inline constexpr auto service_current_3ph = formula("current of the service", "I", "D / (sqrt(3) * V)", {"D", "V"},
    [](Power d, Voltage v) -> Current { return d / v / std::sqrt(3.0); });
inline constexpr auto measured_current = formula("measured demand raised, with the new load", "I", "k * Im + In", {"k", "Im", "In"},
    [](double k, Current measured, Current added) -> Current { return k * measured + added; });

}  // namespace pullproof::calc
