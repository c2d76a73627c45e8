#pragma once

namespace pullproof {

inline constexpr double feet = 0.3048;  ///< metres in a foot, for the limits of keys

/// Whether a number with these limits is a count: both are whole, and it is no share of one.
constexpr bool is_count(double low, double high) {
  constexpr double most = 1e9;
  return high > 1 && low >= 0 && high < most && low == static_cast<int>(low) && high == static_cast<int>(high);
}

}  // namespace pullproof
