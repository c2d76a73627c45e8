#include "derive/gfci.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

using State = derive::GfciDemand::State;

void judge(Context& cx, const Receptacle& r, std::string_view reason, const Citation& cite) {
  constexpr std::string_view change = "use a ground-fault receptacle or breaker for it (service_receptacle.gfci = true)";
  const StepId why = cx.choose("ground-fault rule", reason, cite);
  if (!r.gfci)
    throw Stop{Verdict::needs_input, cx.text("service_receptacle.gfci is not given, and ground-fault protection is required: {}", reason), "service_receptacle.gfci", change, {}, cite, {}};
  if (*r.gfci) cx.pass(cx.text("the service receptacle is protected, as it has to be: {}", reason), cite, r.gfci.where, why);
  else cx.fail(cx.text("the service receptacle has no ground-fault protection: {}", reason), change, cite, r.gfci.where, why);
}

void run(Context& cx, const Circuit& c) {
  const ServiceReceptacle& s = c.service_receptacle;
  if (derive::is_feeder(c) || !s.where || s.none.value_or(false)) {
    cx.not_applicable("no service receptacle is described");
    return;
  }
  const Receptacle& r = s.outlet;
  if (cx.flag("gfci-service-receptacle", "required") && !derive::appliance_word(cx, c, "service").empty())
    return judge(cx, r, "a receptacle for servicing equipment", cx.cite("gfci-service-receptacle"));
  derive::ReceptacleAt at{&r, r.place ? &r.place : &c.load.place, "service_receptacle.place", {}, {}, 1, {}, "service_receptacle.rating"};
  // It is one of 125 V on a circuit of 120 V to ground.
  at.volts = at.to_ground = cx.parameter("afci", "voltage", units::volt);
  at.rating = r.rating ? *r.rating : cx.parameter("service-receptacle", "ratings", units::ampere);
  const derive::GfciDemand d = derive::gfci_by_place(cx, at);
  switch (d.state) {
    case State::asked: return judge(cx, r, d.reason, d.cite);
    case State::open: throw Stop{Verdict::needs_input, d.reason, d.key, {}, {}, d.cite, {}};
    case State::not_covered: cx.not_covered(d.reason, d.cite);
    case State::free: break;
  }
  cx.not_applicable(cx.text("no rule asks for it: {}", d.reason), d.cite);
}

}  // namespace

extern const Check check_service_receptacle_gfci{
    .id = "service-receptacle-gfci",
    .title = "Ground-fault protection of the service receptacle",
    .family = Family::people,
    .about = "The receptacle beside a condenser or a furnace is used with tools in hand, often on wet ground. In newer editions it is protected "
             "wherever it is; in older ones when it is outdoors or in another of the listed places.",
    .formula = "",
    .reads = "service_receptacle.gfci, service_receptacle.place, service_receptacle.rating, load.appliance, load.place, supply.dwelling",
    .rules = "gfci-service-receptacle, gfci-places, gfci-limits, service-receptacle, appliances",
    .run = run};

}  // namespace pullproof
