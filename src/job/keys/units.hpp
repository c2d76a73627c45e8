#pragma once

namespace pullproof {

inline constexpr double feet = 0.3048;  ///< metres in a foot, for the limits of keys

}  // namespace pullproof
