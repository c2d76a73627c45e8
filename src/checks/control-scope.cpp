#include "derive/scope.hpp"
#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Control& c) {
  const auto look = [&](const Given<std::string_view>& name) {
    if (name) derive::stop_outside_scope(cx, *name);
  };
  look(c.load.name);
  for (const ControlLoad& l : c.also) look(l.name);
  if (c.place) derive::stop_outside_scope(cx, c.place.text);
  for (const Stretch& s : c.path)
    if (const auto& p = derive::place_of(s)) derive::stop_outside_scope(cx, p.text);
  cx.pass("nothing here is known to lie outside what is checked", cx.edition().cite(cx.table("outside-scope")));
}

}  // namespace

extern const Check check_control_scope{
    .id = "control-scope",
    .title = "Control run inside what is checked here",
    .family = Family::scope,
    .about = "Fire alarms, elevators, pools and hazardous locations have rules of their own for their control wiring, which are not in "
             "the rule data. When the run, its devices or a place names one, the answer is not covered, with the article to read, "
             "because the other checks would pass it without looking at what matters.",
    .formula = "",
    .reads = "control.load, control.also, control.place, raceway.place",
    .rules = "outside-scope",
    .run = run};

}  // namespace pullproof
