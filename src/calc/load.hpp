#pragma once
// Load current. Definitions of apparent and real power.
#include <algorithm>
#include <cmath>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto current_from_va_1ph = formula("load current", "I", "S / V", {"S", "V"},
    [](Power s, Voltage v) -> Current { return s / v; });
inline constexpr auto current_from_va_3ph = formula("load current", "I", "S / (sqrt(3) * V)", {"S", "V"},
    [](Power s, Voltage v) -> Current { return s / v / std::sqrt(3.0); });
inline constexpr auto current_from_watts_1ph = formula("load current", "I", "P / (V * pf)", {"P", "V", "pf"},
    [](Power p, Voltage v, double pf) -> Current { return p / v / pf; });
inline constexpr auto current_from_watts_3ph = formula("load current", "I", "P / (sqrt(3) * V * pf)", {"P", "V", "pf"},
    [](Power p, Voltage v, double pf) -> Current { return p / v / (std::sqrt(3.0) * pf); });

/// Household cooking equipment (220.55): the percentage of small ones, and the growth above the base rating.
inline constexpr auto share_of_power = formula("demand of the appliance", "D", "P * p", {"P", "p"},
    [](Power p, double share) -> Power { return p * share; });
inline constexpr auto whole_kilowatts = formula("kilowatts over the base, a major fraction counted as one", "n", "floor(P - B + 0.5)",
    {"P", "B"}, [](Power p, Power b) -> double { return std::floor(units::kilowatt.show(p) - units::kilowatt.show(b) + 0.5 + slack); });
inline constexpr auto grown_demand = formula("demand of the appliance", "D", "Dc * (1 + p * n)", {"Dc", "p", "n"},
    [](Power base, double share, double steps) -> Power { return base * (1 + share * steps); });

/// How far two figures for the same current are apart, over the smaller one.
inline constexpr auto apart = formula("difference between the two", "d", "max(I, Ip) / min(I, Ip) - 1", {"I", "Ip"},
    [](Current a, Current b) -> double { return std::max(a, b) / std::min(a, b) - 1; });

/// What a marked minimum circuit ampacity leaves for the running current at least: it raises the largest motor alone.
inline constexpr auto least_running = formula("least running current behind the marked minimum", "I", "MCA / k", {"MCA", "k"},
    [](Current marked, double k) -> Current { return marked / k; });

/// The noncontinuous part at its value, the continuous part raised.
inline constexpr auto with_continuous_part = formula("load with its continuous part raised", "Ic", "(I - C) + C * k",
    {"I", "C", "k"}, [](Current i, Current c, double k) -> Current { return (i - c) + c * k; });
/// The largest of the motors among other loads on a circuit, raised (220.18(A)).
inline constexpr auto with_largest_motor = formula("all loads of the circuit, the largest motor raised", "Is", "I + (k - 1) * Im",
    {"I", "Im", "k"}, [](Current all, Current motor, double k) -> Current { return all + (k - 1) * motor; });
inline constexpr auto all_continuous = formula("continuous load raised", "Ic", "I * k", {"I", "k"},
    [](Current i, double k) -> Current { return i * k; });

}  // namespace pullproof::calc
