#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("panel-main");
  if (!derive::is_feeder(c)) return void(cx.not_applicable("it feeds no panel"));
  if (!c.panel_bus) return void(cx.not_applicable("the panel that it feeds is not described", cite));
  const auto bus = cx.given("busbars of the panel that it feeds", "Ib", c.panel_bus, units::ampere);
  if (!c.panel_main) cx.need(c.breaker.rating, "breaker.rating", "it protects the panel that it feeds");
  // Either device does: one ahead of the panel or the main in it.
  const bool by_main = c.panel_main && (!c.breaker.rating || *c.panel_main < *c.breaker.rating);
  const Given<Current>& device = by_main ? c.panel_main : c.breaker.rating;
  const auto protects = cx.given(by_main ? "main device of the panel that it feeds" : "device of the feeder", "In", device, units::ampere);
  Finding& f = cx.require(protects, Must::at_most, bus, cite, device.where);
  if (f.verdict == Verdict::fail) f.change = "use a panel with larger busbars, or a main device of at most their rating in it";
}

}  // namespace

extern const Check check_fed_panel{
    .id = "fed-panel",
    .title = "Panel at the end of a feeder",
    .family = Family::protection,
    .about = "The busbars of a panel are protected at no more than their rating, by a main device in it or by the device of its feeder. The sum of "
             "its branch devices is no measure: not all of them carry their rating at once.",
    .formula = "In <= Ib",
    .reads = "circuit.role, circuit.panel_bus, circuit.panel_main, breaker.rating",
    .rules = "panel-main",
    .run = run};

}  // namespace pullproof
