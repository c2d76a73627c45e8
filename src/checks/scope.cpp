#include "derive/scope.hpp"
#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (c.load.appliance) derive::stop_outside_scope(cx, *c.load.appliance);
  if (c.load.place) derive::stop_outside_scope(cx, c.load.place.text);
  for (const Stretch& s : c.path)
    if (const auto& p = derive::place_of(s)) derive::stop_outside_scope(cx, p.text);
  cx.pass("nothing here is known to lie outside what is checked", cx.edition().cite(cx.table("outside-scope")));
}

}  // namespace

extern const Check check_scope{
    .id = "scope",
    .title = "Inside what is checked here",
    .family = Family::scope,
    .about = "Some installations have articles of their own that are not in the rule data: pools, hazardous locations, solar, "
             "generators and more. When the appliance or a place names one, the answer is not covered, with the article to "
             "read, because the other checks would pass it without looking at what matters.",
    .formula = "",
    .reads = "load.appliance, load.place, raceway.place, cable.place",
    .rules = "outside-scope",
    .run = run};

}  // namespace pullproof
