#pragma once
// Volumes in boxes and lengths of pull boxes (NFPA 70 Article 314).
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto volume_of = formula("volume", "v", "n * v1", {"n", "v1"},
    [](double count, Volume each) -> Volume { return count * each; });
inline constexpr auto volume_so_far = formula("volume so far", "S", "S0 + v", {"S0", "v"},
    [](Volume sum, Volume more) -> Volume { return sum + more; });
/// The first grounds together count once, each further one a share.
inline constexpr auto grounds_counted = formula("count of the grounds", "n", "k + q * max(0, g - g0)", {"k", "q", "g", "g0"},
    [](double first, double share, double grounds, double included) -> double {
      return first + share * std::max(0.0, grounds - included);
    });
inline constexpr auto device_count = formula("count of the devices", "n", "k * g", {"k", "g"},
    [](double each, double gangs) -> double { return each * gangs; });

inline constexpr auto straight_length = formula("least length of a straight pull", "Ls", "k * t", {"k", "t"},
    [](double times, Length trade) -> Length { return times * trade; });
inline constexpr auto angle_length = formula("least distance to the opposite wall", "La", "k * t + s", {"k", "t", "s"},
    [](double times, Length largest, Length others) -> Length { return times * largest + others; });
inline constexpr auto entry_distance = formula("least distance between the entries", "Le", "k * t", {"k", "t"},
    [](double times, Length larger) -> Length { return times * larger; });

}  // namespace pullproof::calc
