#include "derive/sharing.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// One of the receptacles of a circuit.
struct Subject {
  const Receptacle* receptacle = nullptr;
  const Given<Place>* place = nullptr;
  std::string_view name, key;     ///< "service receptacle", "service_receptacle"
  std::optional<Current> rating;  ///< its own or the circuit's
};

void judge(Context& cx, const Subject& s) {
  const Receptacle& r = *s.receptacle;
  cx.need(*s.place, cx.text("{}.place", s.key), "in damp and wet places its cover keeps water out");
  const Place& p = **s.place;
  const bool damp = p.has(Place::damp);
  const bool wet = p.has(Place::wet) || (derive::place_is(p, "outdoors") && !damp);
  if (!damp && !wet) {
    cx.not_applicable(cx.text("the {} is in a dry place", s.name), cx.cite("receptacle-damp"));
    return;
  }
  if (!s.rating) cx.needs_input(cx.text("{}.rating", s.key), "covers of small and large receptacles differ");
  const bool small = derive::rating_listed(cx, wet ? "receptacle-wet" : "receptacle-damp", "ratings", *s.rating);
  const Citation cite = cx.cite(!wet ? "receptacle-damp" : small ? "receptacle-wet" : "receptacle-wet-other");
  const Cover cover = cx.need(r.cover, cx.text("{}.cover", s.key), cx.text("the {} is in a {} place: in use, closed or plain", s.name, wet ? "wet" : "damp"));
  const bool while_in_use = wet && (small || !r.attended.value_or(false));
  const bool good = cover == Cover::in_use || (cover == Cover::closed && !while_in_use);
  if (good)
    cx.pass(cx.text("the cover of the {} is weatherproof {}", s.name, cover == Cover::in_use ? "in use" : "when closed"), cite, r.cover.where);
  else
    cx.fail(cx.text("the cover of the {} is {}, in a {} place", s.name, cover == Cover::plain ? "plain" : "weatherproof only when closed", wet ? "wet" : "damp"),
            while_in_use ? "use a cover that is weatherproof with the plug in (cover = \"in use\")" : "use a weatherproof cover", cite, r.cover.where);
  if (!small || (!wet && !cx.flag("receptacle-damp", "weather-resistant"))) return;
  if (cx.need(r.weather_resistant, cx.text("{}.weather_resistant", s.key), cx.text("the {} is in a {} place and has to be marked WR", s.name, wet ? "wet" : "damp")))
    cx.pass(cx.text("the {} is weather-resistant", s.name), cite, r.weather_resistant.where);
  else
    cx.fail(cx.text("the {} is not weather-resistant, in a {} place", s.name, wet ? "wet" : "damp"), "use one marked WR", cite, r.weather_resistant.where);
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  std::optional<Current> own, service;
  if (c.receptacle.rating || c.breaker.rating) own = c.receptacle.rating ? *c.receptacle.rating : *c.breaker.rating;
  const Receptacle& for_service = c.service_receptacle.outlet;
  // The rule that wants it wants one of the small ratings.
  service = for_service.rating ? *for_service.rating : cx.parameter("service-receptacle", "ratings", units::ampere);
  bool any = false;
  if (c.receptacle.where || derive::connection_of(cx, c) == Connection::plug) {
    any = true;
    judge(cx, {&c.receptacle, &derive::outlet_place(c), "receptacle", "receptacle", own});
  }
  if (c.service_receptacle.where && !c.service_receptacle.none.value_or(false)) {
    any = true;
    judge(cx, {&for_service, for_service.place ? &for_service.place : &c.load.place, "service receptacle", "service_receptacle", service});
  }
  if (!any) cx.not_applicable("no receptacle is described");
}

}  // namespace

extern const Check check_receptacle_weather{
    .id = "receptacle-weather",
    .title = "Receptacles in damp and wet places",
    .family = Family::circuits,
    .about = "Outdoors a receptacle gets wet while something is plugged in, so its cover has to keep water out then too, and its parts have "
             "to withstand the weather. Under a roof that keeps rain away it is enough that the cover is weatherproof when closed. "
             "Outdoors counts as wet unless the place says damp.",
    .formula = "",
    .reads = "receptacle.place, receptacle.cover, receptacle.weather_resistant, receptacle.rating, receptacle.attended, "
             "service_receptacle.place, service_receptacle.cover, service_receptacle.weather_resistant, service_receptacle.rating, load.place",
    .rules = "receptacle-damp, receptacle-wet, receptacle-wet-other, service-receptacle",
    .run = run};

}  // namespace pullproof
