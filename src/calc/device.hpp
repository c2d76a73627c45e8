#pragma once
// Which overcurrent device protects a conductor (NFPA 70 Article 240).
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto lower_device = formula("largest device for the conductors", "In", "min(Is, If)", {"Is", "If"},
    [](Current standard, Current fixed) -> Current { return std::min(standard, fixed); });

}  // namespace pullproof::calc
