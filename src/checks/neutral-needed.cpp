#include "derive/line.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const auto appliances = cx.table("appliances");
  std::string_view says;
  Citation cite = cx.cite("instructions");
  if (c.load.appliance)
    if (const auto row = appliances.find(*c.load.appliance)) {
      says = appliances.cell(*row, "neutral").text();
      if (!says.empty()) cite = cx.edition().cite(appliances, *row, appliances.column("neutral"));
    }
  if (!c.load.needs_neutral && says.empty()) {
    cx.not_applicable("nothing says that the load needs a neutral", cite);
    return;
  }
  if (!c.load.needs_neutral && says != "usual")
    cx.needs_input("load.needs_neutral", cx.text("its maker says whether it needs a neutral: {}", *c.load.appliance));
  if (!c.load.needs_neutral)
    cx.assume("neutral", cx.text("load.needs_neutral is not given: {} is taken to need one, as is usual", *c.load.appliance), cite);
  if (!c.load.needs_neutral.value_or(true)) {
    cx.pass("the load needs no neutral", cite, c.load.needs_neutral.where);
    return;
  }
  const derive::Line line = derive::line_of(cx, c);
  if (line.neutral) {
    cx.pass("the circuit has the neutral that the load needs", cite, c.wire.neutral.where);
    return;
  }
  cx.fail("the load needs a neutral and the circuit has none", "run a neutral with the circuit (wire.neutral = \"white\"); the ground never takes its place", cx.cite("neutral-not-ground"),
          c.wire.where);
}

}  // namespace

extern const Check check_neutral_needed{
    .id = "neutral-needed",
    .title = "A neutral where the load needs one",
    .family = Family::conductors,
    .about = "Ranges, dryers and some other appliances use 120 V beside 240 V. Without a neutral that current would run over the "
             "ground, which then is live. Whether the load needs one follows from its kind or from what its maker says.",
    .formula = "",
    .reads = "load.appliance, load.needs_neutral, wire.neutral, circuit.voltage",
    .rules = "appliances, instructions, count-neutral, neutral-not-ground",
    .run = run};

}  // namespace pullproof
