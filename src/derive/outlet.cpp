#include "derive/outlet.hpp"

#include "job/words.hpp"

namespace pullproof::derive {

bool is_feeder(const Circuit& c) { return c.role.value_or(CircuitRole::branch) == CircuitRole::feeder; }

std::string_view appliance_word(const Context& cx, const Circuit& c, std::string_view column) {
  // What an appliance is does not hang on whether this edition's copy of the table has been seen.
  const auto t = cx.edition().table("appliances");
  if (!c.load.appliance || !t || !t->has_column(column)) return {};
  const auto row = t->find(*c.load.appliance);
  return row ? t->cell(*row, column).text() : std::string_view{};
}

std::optional<std::string_view> occupancy_of(Context& cx) {
  const Supply& s = cx.job().supply;
  if (!s.occupancy) {
    if (!s.dwelling) return std::nullopt;
    return *s.dwelling ? "dwelling" : "other";
  }
  const Occupancy o = *s.occupancy;
  const bool dwelling = o == Occupancy::one_family || o == Occupancy::two_family || o == Occupancy::multifamily;
  if (s.dwelling && *s.dwelling != dwelling)
    cx.unclear("supply.occupancy", cx.text("supply.occupancy is '{}' and supply.dwelling says otherwise", s.occupancy.text), s.occupancy.where);
  return dwelling ? "dwelling" : word(o);
}

std::string_view needed_occupancy(Context& cx) {
  const auto o = occupancy_of(cx);
  if (!o) cx.needs_input("supply.dwelling", "whether it is a dwelling decides what has to be protected");
  return *o;
}

std::optional<Occupancy> families_of(Context& cx) {
  if (needed_occupancy(cx) != "dwelling") return std::nullopt;
  const auto& o = cx.job().supply.occupancy;
  return cx.need(o, "supply.occupancy", "one-family, two-family and multifamily dwellings differ here");
}

std::optional<Connection> connection_of(Context& cx, const Circuit& c) {
  if (c.load.connection) return *c.load.connection;
  if (c.receptacle.where || (c.disconnect.kind && *c.disconnect.kind == DisconnectKind::plug)) {
    cx.choose("connection", "cord and plug, since a receptacle or plug is described");
    return Connection::plug;
  }
  const std::string_view usual = appliance_word(cx, c, "connection");
  for (const auto& [text, connection] : Words<Connection>::all)
    if (text == usual) {
      cx.assume("connection", cx.text("load.connection is not given: {} is taken as {}, as is usual", *c.load.appliance, text));
      return connection;
    }
  return std::nullopt;
}

const Given<Place>& outlet_place(const Circuit& c) { return c.receptacle.place ? c.receptacle.place : c.load.place; }

bool names_area(const Place& p) {
  constexpr std::uint64_t areas =
      Place::outdoors | Place::rooftop | Place::attic | Place::garage | Place::kitchen | Place::laundry | Place::bathroom |
      Place::basement | Place::finished_basement | Place::unfinished_basement | Place::crawl_space | Place::accessory_building |
      Place::bedroom | Place::living_room | Place::dining_room | Place::family_room | Place::den | Place::library |
      Place::parlor | Place::sunroom | Place::recreation_room | Place::closet | Place::hallway | Place::similar_room |
      Place::utility_room | Place::countertop | Place::food_preparation | Place::boathouse | Place::buffet | Place::locker_room;
  return (p.words & areas) != 0;
}

bool place_is(const Place& p, std::string_view name) {
  const bool outside = p.has(Place::outdoors) || p.has(Place::rooftop);
  if (name == "outdoors") return outside;
  if (name == "indoors wet") return p.has(Place::wet) && !outside;
  if (name == "indoors damp") return p.has(Place::damp) && !outside;
  if (name == "indoors damp or wet") return (p.has(Place::wet) || p.has(Place::damp)) && !outside;
  // A basement that is not said to be finished is as a rule not.
  if (name == "unfinished basement") return p.has(Place::unfinished_basement) || (p.has(Place::basement) && !p.has(Place::finished_basement));
  if (name == "kitchen") return p.has(Place::kitchen) || p.has(Place::countertop);
  for (const auto& [text, w] : Words<Place::Word>::all)
    if (text == name) return p.has(w);
  return false;
}

}  // namespace pullproof::derive
