#pragma once
// The disconnecting means of an appliance, and the space in front of equipment that is worked on.
#include <cstdint>

#include "core/quantity.hpp"
#include "job/given.hpp"
#include "job/place.hpp"

namespace pullproof {

enum class DisconnectKind : std::uint8_t {
  breaker, fusible_switch, switch_, molded_case_switch, snap_switch, pull_out, unit_switch, plug, none
};
enum class Opposite : std::uint8_t { nothing, grounded, live };
/// Where the other means is that lets the appliance's own switch serve.
enum class OtherMeans : std::uint8_t { service, in_unit, same_floor, outside, branch };
enum class GfciClass : std::uint8_t { a, c, d, e, equipment };

/// Room to work in front of a disconnect or a panel.
struct WorkingSpace {
  Given<Length> depth, width, height;
  Given<Opposite> opposite;
  Given<Length> equipment_width, equipment_height;
  Given<Angle> door_opens;
  Given<bool> storage;  ///< things are kept in it
  Where where;
};

struct Disconnect {
  Given<DisconnectKind> kind;
  Given<bool> within_sight;
  Given<Length> distance;
  Given<bool> lockable, lock_stays, readily_accessible;
  Given<Current> rating;
  Given<Horsepower> horsepower;
  Given<double> poles;
  Given<bool> marked_off;
  Given<OtherMeans> other_means;
  Given<bool> impracticable;
  Given<bool> marked;  ///< it says what it turns off
  Given<bool> source_marked;  ///< and which panel and circuit feed it
  Given<bool> on_removable_panel, over_nameplate, locked_cover;
  Given<std::string_view> enclosure;
  Given<Place> place;
  Given<bool> gfci;
  Given<GfciClass> gfci_class;
  Given<bool> class_c_label;
  WorkingSpace working_space;
  Where where;
};

}  // namespace pullproof
