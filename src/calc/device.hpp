#pragma once
// Which overcurrent device protects a conductor (NFPA 70 Article 240).
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto lower_device = formula("largest device for the conductors", "In", "min(Is, If)", {"Is", "If"},
    [](Current standard, Current fixed) -> Current { return std::min(standard, fixed); });

/// Conductors of a dwelling's service or main feeder: their ampacity is a share of the rating (310.12).
inline constexpr auto rating_for_share = formula("largest device for conductors that carry a whole dwelling", "In", "Iz / k", {"Iz", "k"},
    [](Current usable, double k) -> Current { return usable / k; });
inline constexpr auto share_of_service = formula("ampacity that the rating needs", "Ir", "k * In", {"k", "In"},
    [](double k, Current rating) -> Current { return k * rating; });

/// The largest device ahead of a tap (240.21(B)).
inline constexpr auto tap_multiple = formula("largest device ahead of the tap", "In", "m * Iz", {"m", "Iz"},
    [](double m, Current usable) -> Current { return m * usable; });

/// 422.11(E): a percentage of the appliance's current.
inline constexpr auto appliance_share = formula("share of the appliance's current", "Ik", "k * I", {"k", "I"},
    [](double k, Current i) -> Current { return k * i; });

}  // namespace pullproof::calc
