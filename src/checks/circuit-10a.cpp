#include "derive/sharing.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c) || !c.breaker.rating) {
    cx.not_applicable(derive::is_feeder(c) ? "a feeder: its branch circuits are looked at" : "the rating of the circuit is not given");
    return;
  }
  const Current small = cx.parameter("circuit-10a", "rating", units::ampere);
  if (!at_least(*c.breaker.rating, small) || !at_most(*c.breaker.rating, small)) {
    cx.not_applicable(cx.text("not a circuit of {} A", number_text(raw(small), 0)));
    return;
  }
  const Citation cite = cx.cite("circuit-10a");
  if (!cx.flag("circuit-10a", "permitted")) {
    cx.not_applicable("this edition knows such a circuit only as that of one load", cite);
    return;
  }
  cx.need(c.load.appliance, "load.appliance", "few loads may be on such a circuit");
  if (!cx.listed("circuit-10a", "appliances", *c.load.appliance)) {
    cx.fail(cx.text("a {} may not be on a circuit of {} A", *c.load.appliance, number_text(raw(small), 0)), "use a device and wire for 15 A", cite,
            c.load.appliance.where);
    return;
  }
  if (cx.listed("circuit-10a", "alone", *c.load.appliance) && derive::shared(cx, c)) {
    cx.fail(cx.text("a {} on a circuit of {} A has it alone", *c.load.appliance, number_text(raw(small), 0)), "use a device and wire for 15 A, or take the other loads off", cite,
            c.load.appliance.where);
    return;
  }
  cx.pass(cx.text("a {} may be on a circuit of {} A", *c.load.appliance, number_text(raw(small), 0)), cite, c.load.appliance.where);
}

}  // namespace

extern const Check check_circuit_10a{
    .id = "circuit-10a",
    .title = "Loads of a 10 A circuit",
    .family = Family::circuits,
    .about = "Newer editions have branch circuits of 10 A for lighting, some fans and a gas fireplace. Receptacles, other fixed appliances, "
             "garage door openers and laundry equipment may not be on them.",
    .formula = "",
    .reads = "breaker.rating, load.appliance, circuit.individual, circuit.also_feeds",
    .rules = "circuit-10a",
    .run = run};

}  // namespace pullproof
