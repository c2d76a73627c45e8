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

/// The noncontinuous part at its value, the continuous part raised.
inline constexpr auto with_continuous_part = formula("load with its continuous part raised", "Ic", "(I - C) + C * k",
    {"I", "C", "k"}, [](Current i, Current c, double k) -> Current { return (i - c) + c * k; });
inline constexpr auto all_continuous = formula("continuous load raised", "Ic", "I * k", {"I", "k"},
    [](Current i, double k) -> Current { return i * k; });

}  // namespace pullproof::calc
