#pragma once
// Which overcurrent device protects a conductor (NFPA 70 Article 240).
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto lower_device = formula("largest device for the conductors", "In", "min(Is, If)", {"Is", "If"},
    [](Current standard, Current fixed) -> Current { return std::min(standard, fixed); });

/// 440.22(A): a percentage of the compressor's current, but never less than the smallest device.
inline constexpr auto compressor_device = formula("largest device for the compressor", "In", "max(k * I, Il)", {"k", "I", "Il"},
    [](double k, Current i, Current least) -> Current { return std::max(k * i, least); });
/// 422.11(E): a percentage of the appliance's current.
inline constexpr auto appliance_share = formula("share of the appliance's current", "Ik", "k * I", {"k", "I"},
    [](double k, Current i) -> Current { return k * i; });

}  // namespace pullproof::calc
