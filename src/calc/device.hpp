#pragma once
// Which overcurrent device protects a conductor (NFPA 70 Article 240).
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto lower_device = formula("largest device for the conductors", "In", "min(Is, If)", {"Is", "If"},
    [](Current standard, Current fixed) -> Current { return std::min(standard, fixed); });

/// 422.11(E): a percentage of the appliance's current.
inline constexpr auto appliance_share = formula("share of the appliance's current", "Ik", "k * I", {"k", "I"},
    [](double k, Current i) -> Current { return k * i; });

}  // namespace pullproof::calc
