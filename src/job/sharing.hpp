#pragma once
// How an appliance is connected, and what else its circuit feeds.
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "job/given.hpp"

namespace pullproof {

enum class Connection : std::uint8_t { hard_wired, plug };
/// What kind of building or room it is, as far as rules ask.
enum class Occupancy : std::uint8_t {
  one_family, two_family, multifamily, dormitory, hotel_room, nursing_home, station_quarters, other
};
enum class ShareKind : std::uint8_t { fixed, portable, lighting, auxiliary, air_conditioning };

/// What a dwelling has certain circuits for.
enum class Purpose : std::uint8_t { small_appliance, laundry, bathroom, garage, general };

/// Another load on the same circuit.
struct Share {
  Given<std::string_view> name;
  Given<ShareKind> kind;
  Given<Current> current;
  Given<bool> continuous;  ///< it runs three hours or more
  Given<bool> motor;       ///< most of its current is that of a motor
  Where where;
};

}  // namespace pullproof
