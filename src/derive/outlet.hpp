#pragma once
// The outlet at the end of a branch circuit: what is connected, how, in what building and where.
#include <optional>

#include "derive/line.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

bool is_feeder(const Circuit& c);

/// What the edition's table of appliances says of the load in one column; empty without an appliance and for blanks.
std::string_view appliance_word(const Context& cx, const Circuit& c, std::string_view column);

/// The occupancy as the tables of places name it, "dwelling", "dormitory", "hotel room" ... or "other"; nothing when the
/// case says neither `supply.occupancy` nor `supply.dwelling`.
std::optional<std::string_view> occupancy_of(Context& cx);
/// As above; needs it.
std::string_view needed_occupancy(Context& cx);
/// The kind of dwelling by its families, in the words of `supply.occupancy`; needs it for a dwelling.
std::optional<Occupancy> families_of(Context& cx);

/// How the load is connected: as given, else as a receptacle or disconnect of the case shows, else as is usual for the
/// appliance, aloud. Nothing where both are usual.
std::optional<Connection> connection_of(Context& cx, const Circuit& c);

/// Where the outlet is: the receptacle's place, else the load's.
const Given<Place>& outlet_place(const Circuit& c);

/// Whether a place is what a table of places calls it: "garage", "indoors damp or wet", "unfinished basement".
bool place_is(const Place& p, std::string_view name);
/// Whether a place says which room or area it is, not only "indoors, dry".
bool names_area(const Place& p);

}  // namespace pullproof::derive
