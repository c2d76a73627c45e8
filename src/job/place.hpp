#pragma once
// Where things are, and dates.
#include <compare>
#include <cstdint>

#include "core/working.hpp"

namespace pullproof {

enum class Moisture : std::uint8_t { dry, damp, wet };

/// A day, as TOML writes it.
struct Date {
  int year = 0, month = 0, day = 0;
  friend constexpr auto operator<=>(const Date&, const Date&) = default;
};

/// Where something is: words of `place_words`, separated by commas ("outdoors, wet, sunlight").
struct Place {
  enum Word : std::uint64_t {
    indoors = 1u << 0, outdoors = 1u << 1, underground = 1u << 2, dry = 1u << 3, damp = 1u << 4, wet = 1u << 5,
    rooftop = 1u << 6, attic = 1u << 7, concealed = 1u << 8, exposed = 1u << 9, sunlight = 1u << 10,
    damage = 1u << 11, plenum = 1u << 12, garage = 1u << 13, kitchen = 1u << 14, laundry = 1u << 15,
    bathroom = 1u << 16, basement = 1u << 17, crawl_space = 1u << 18, accessory_building = 1u << 19,
    sink = 1u << 20, thermal_insulation = 1u << 21, corrosive = 1u << 22, hazardous = 1u << 23,
    pool = 1u << 24, riser = 1u << 25, severe_damage = 1u << 26, duct = 1u << 27,
    bedroom = 1ull << 28, living_room = 1ull << 29, dining_room = 1ull << 30, family_room = 1ull << 31, den = 1ull << 32,
    library = 1ull << 33, parlor = 1ull << 34, sunroom = 1ull << 35, recreation_room = 1ull << 36, closet = 1ull << 37,
    hallway = 1ull << 38, similar_room = 1ull << 39, utility_room = 1ull << 40, countertop = 1ull << 41,
    food_preparation = 1ull << 42, boathouse = 1ull << 43, bath = 1ull << 44, buffet = 1ull << 45,
    locker_room = 1ull << 46, tank = 1ull << 47, finished_basement = 1ull << 48, unfinished_basement = 1ull << 49,
  };
  std::uint64_t words = 0;
  bool has(Word w) const { return (words & w) != 0; }
};

}  // namespace pullproof
