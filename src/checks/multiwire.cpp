#include "derive/line.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (!c.multiwire.value_or(false)) {
    cx.not_applicable("it is no multiwire circuit", cx.cite("multiwire"));
    return;
  }
  const derive::Line line = derive::line_of(cx, c);
  const Citation cite = cx.cite("multiwire");
  if (c.neutral_pigtailed) {
    const Citation neutral = cx.cite("multiwire-neutral");
    if (*c.neutral_pigtailed) cx.pass("its neutral does not depend on a device", neutral, c.neutral_pigtailed.where);
    else cx.fail("its neutral passes through the terminals of a device: with that device off the loads get the wrong voltage",
                 "splice the neutrals and run a tail to the device", neutral, c.neutral_pigtailed.where);
  }
  if (!line.neutral || line.hots < 2) {
    cx.fail("a multiwire circuit has two lines or more and a neutral", "give wire.neutral its colour and circuit.voltage the voltage between lines", cite,
            c.multiwire.where);
    return;
  }
  if (c.breaker.handle_ties.value_or(false)) {
    cx.pass("identified handle ties open all its lines together", cite, c.breaker.handle_ties.where);
    return;
  }
  const auto poles = cx.given("poles of the device", "p", (cx.need(c.breaker.poles, "breaker.poles", "all lines of a multiwire circuit open together"), c.breaker.poles), units::count);
  const auto hots = cx.working().choice("lines", "h", static_cast<double>(line.hots), units::count, "ungrounded conductors of the circuit", {});
  Finding& f = cx.require(poles, Must::at_least, hots, cite, c.breaker.poles.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use a device with {} poles, or identified handle ties", line.hots);
}

}  // namespace

extern const Check check_multiwire{
    .id = "multiwire",
    .title = "Multiwire circuits open together",
    .family = Family::circuits,
    .about = "Two circuits on one neutral: with one of them off the neutral still carries current, and opening it puts the wrong "
             "voltage on the loads. All lines of a multiwire circuit open together, by a device with as many poles or by identified "
             "handle ties. Nor does its neutral pass through the terminals of a receptacle or another device.",
    .formula = "p >= h",
    .reads = "circuit.multiwire, circuit.neutral_pigtailed, breaker.poles, breaker.handle_ties, circuit.voltage, wire.neutral",
    .rules = "multiwire, multiwire-neutral, count-neutral",
    .run = run};

}  // namespace pullproof
