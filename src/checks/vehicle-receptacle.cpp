#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

constexpr std::string_view rule = "vehicle-charger-receptacle";

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c) || derive::appliance_word(cx, c, "disconnect") != "vehicle-charger-disconnect") {
    cx.not_applicable("not for charging vehicles");
    return;
  }
  const auto connection = derive::connection_of(cx, c);
  if (connection == Connection::hard_wired) {
    cx.not_applicable("the charger is hard-wired");
    return;
  }
  const Citation cite = cx.cite(rule);
  if (!cx.flag(rule, "required")) {
    cx.not_applicable("this edition takes any receptacle of the rating", cite);
    return;
  }
  if (!connection) cx.needs_input("load.connection", "a charger that is plugged in needs a receptacle made for it");
  const Given<Current>& rating = c.receptacle.rating ? c.receptacle.rating : c.breaker.rating;
  cx.need(rating, "receptacle.rating", "receptacles from some rating up are listed for charging vehicles");
  if (*rating < cx.parameter(rule, "smallest", units::ampere)) {
    cx.not_applicable("a small receptacle needs no listing for vehicles", cite);
    return;
  }
  if (cx.need(c.receptacle.listed_for_vehicles, "receptacle.listed_for_vehicles", "a receptacle of this rating has to be listed for charging vehicles"))
    cx.pass("the receptacle is listed for charging vehicles", cite, c.receptacle.listed_for_vehicles.where);
  else
    cx.fail("the receptacle is not listed for charging vehicles", "use one that is", cite, c.receptacle.listed_for_vehicles.where);
}

}  // namespace

extern const Check check_vehicle_receptacle{
    .id = "vehicle-receptacle",
    .title = "Receptacle for charging vehicles",
    .family = Family::circuits,
    .about = "Ordinary range receptacles melt when a vehicle draws their full current for hours and the plug is pulled every day. The newest edition "
             "wants those of the larger ratings listed for the purpose.",
    .formula = "",
    .reads = "load.appliance, load.connection, receptacle.rating, receptacle.listed_for_vehicles, breaker.rating",
    .rules = "vehicle-charger-receptacle, appliances",
    .run = run};

}  // namespace pullproof
