#pragma once
// Receptacles: the one that an appliance plugs into, and the one for whoever services it.
#include <cstdint>

#include "core/quantity.hpp"
#include "job/given.hpp"
#include "job/place.hpp"

namespace pullproof {

enum class ReceptacleKind : std::uint8_t { single, duplex };
enum class Cover : std::uint8_t { in_use, closed, plain };

struct Receptacle {
  Given<Current> rating;
  Given<ReceptacleKind> kind;
  Given<double> count;
  Given<Place> place;
  Given<bool> gfci, readily_accessible;
  Given<bool> weather_resistant, tamper_resistant;
  Given<Cover> cover;
  Given<Length> height;
  Given<bool> dedicated_space;
  Given<bool> attended;
  Given<Length> sink_distance;
  Given<bool> through_cabinet_door;
  Given<bool> listed_for_vehicles;
  Where where;
};

/// The one that the appliance plugs into.
struct OutletReceptacle : Receptacle {
  Given<bool> isolated_mark;  ///< the orange triangle of an isolated ground
};

struct ServiceReceptacle {
  Receptacle outlet;
  Given<bool> none;
  Given<Length> distance;
  Given<bool> same_level, load_side;
  Where where;
};

}  // namespace pullproof
