#include "derive/sharing.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

constexpr std::string_view rule = "receptacle-tamper";

void judge(Context& cx, const Receptacle& r, std::optional<Current> rating, std::string_view name, std::string_view key) {
  const Citation cite = cx.cite(rule);
  if (!rating) cx.needs_input(cx.text("{}.rating", key), "only small receptacles have to be tamper-resistant");
  if (!derive::rating_listed(cx, rule, "ratings", *rating)) {
    cx.not_applicable(cx.text("a {} of {} A is not meant", name, number_text(raw(*rating), 1)), cite);
    return;
  }
  const Length high = cx.parameter(rule, "exempt-height", units::foot);
  if (r.height && *r.height > high && !at_most(*r.height, high)) {
    cx.not_applicable(cx.text("the {} is above {} ft", name, number_text(units::foot.show(high), 1)), cite);
    return;
  }
  if (r.dedicated_space.value_or(false)) {
    cx.not_applicable(cx.text("the {} serves appliances in their own spaces that are not easily moved", name), cite);
    return;
  }
  if (cx.need(r.tamper_resistant, cx.text("{}.tamper_resistant", key),
              cx.text("the {} of a dwelling is tamper-resistant, except high up or behind an appliance that is not easily moved", name)))
    cx.pass(cx.text("the {} is tamper-resistant", name), cite, r.tamper_resistant.where);
  else
    cx.fail(cx.text("the {} is not tamper-resistant", name), "use one marked TR", cite, r.tamper_resistant.where);
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  const bool own = c.receptacle.where || derive::connection_of(cx, c) == Connection::plug;
  const bool service = c.service_receptacle.where && !c.service_receptacle.none.value_or(false);
  if (!own && !service) {
    cx.not_applicable("no receptacle is described");
    return;
  }
  if (derive::needed_occupancy(cx) != "dwelling") {
    cx.not_applicable("not a dwelling; other places where children are have the rule too", cx.cite(rule));
    return;
  }
  std::optional<Current> rating;
  if (c.receptacle.rating || c.breaker.rating) rating = c.receptacle.rating ? *c.receptacle.rating : *c.breaker.rating;
  if (own) judge(cx, c.receptacle, rating, "receptacle", "receptacle");
  if (!service) return;
  const Receptacle& r = c.service_receptacle.outlet;
  judge(cx, r, r.rating ? *r.rating : cx.parameter("service-receptacle", "ratings", units::ampere), "service receptacle", "service_receptacle");
}

}  // namespace

extern const Check check_receptacle_tamper{
    .id = "receptacle-tamper",
    .title = "Tamper-resistant receptacles",
    .family = Family::circuits,
    .about = "Children put things into receptacles. In dwellings those of 15 and 20 A have shutters, except high up and behind appliances "
             "that are not easily moved.",
    .formula = "",
    .reads = "supply.dwelling, receptacle.tamper_resistant, receptacle.height, receptacle.dedicated_space, receptacle.rating, breaker.rating, "
             "service_receptacle.tamper_resistant, service_receptacle.height, load.connection",
    .rules = "receptacle-tamper, service-receptacle",
    .run = run};

}  // namespace pullproof
