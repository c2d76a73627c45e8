#include "derive/sharing.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

constexpr std::string_view rule = "service-receptacle";

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  const std::string_view kind = derive::appliance_word(cx, c, "service");
  if (kind.empty()) {
    cx.not_applicable("not heating, air-conditioning or refrigeration equipment that is serviced");
    return;
  }
  const Citation cite = cx.cite(rule);
  if (kind == "evaporative cooler") {
    const auto families = derive::families_of(cx);
    if (families == Occupancy::one_family || families == Occupancy::two_family) {
      cx.not_applicable("an evaporative cooler of a one- or two-family dwelling needs none", cite);
      return;
    }
  }
  const ServiceReceptacle& s = c.service_receptacle;
  if (!s.where) cx.needs_input("circuit.service_receptacle", cx.text("a {} needs a receptacle near it for service: say how far it is, or none = true", *c.load.appliance));
  if (s.none.value_or(false)) {
    cx.fail("there is no receptacle for service", cx.text("put one within {} ft and on the same level", number_text(units::foot.show(cx.parameter(rule, "distance", units::foot)), 0)),
            cite, s.none.where);
    return;
  }
  if (s.load_side.value_or(false)) {
    cx.fail("the service receptacle is dead when the equipment's disconnect is open", "feed it from another circuit, or from ahead of the disconnect", cite, s.load_side.where);
    return;
  }
  if (s.same_level && !*s.same_level) {
    cx.fail("the service receptacle is on another level than the equipment", "put one on the same level", cite, s.same_level.where);
    return;
  }
  if (s.outlet.rating && !derive::rating_listed(cx, rule, "ratings", *s.outlet.rating)) {
    cx.fail("the service receptacle is none of the ratings that service tools plug into", "use an ordinary small one of 125 V", cite, s.outlet.rating.where);
    return;
  }
  cx.need(s.distance, "service_receptacle.distance", "it has to be near the equipment");
  if (!s.same_level) cx.assume("level", "service_receptacle.same_level is not given: it is taken to be on the same level as the equipment", cite);
  if (!s.load_side) cx.assume("feed", "service_receptacle.load_side is not given: it is taken not to be fed through the equipment's disconnect", cite);
  const auto far = cx.given("distance to the service receptacle", "L", s.distance, units::foot);
  const auto most = cx.parameter(rule, "distance", "distance that is near", "Lm", units::foot);
  Finding& f = cx.require(far, Must::at_most, most, cite, s.distance.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("put one within {} ft", number_text(units::foot.show(most.value), 0));
}

}  // namespace

extern const Check check_service_receptacle{
    .id = "service-receptacle",
    .title = "Receptacle for servicing equipment",
    .family = Family::circuits,
    .about = "Whoever services a furnace or condenser plugs in a pump, a lamp or a recovery machine. A 125 V receptacle within reach of a cord, on "
             "the same level and live while the equipment is turned off, keeps cords from being run through windows. Evaporative "
             "coolers of small dwellings and ventilation need none.",
    .formula = "L <= what is near",
    .reads = "load.appliance, service_receptacle.none, service_receptacle.distance, service_receptacle.same_level, "
             "service_receptacle.load_side, service_receptacle.rating, supply.occupancy",
    .rules = "service-receptacle, appliances",
    .run = run};

}  // namespace pullproof
