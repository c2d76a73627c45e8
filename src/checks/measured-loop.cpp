#include "calc/measured.hpp"
#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Control& c) {
  const ControlMeasured& m = c.measured;
  if (!m.loop) {
    if (m.temperature) cx.needs_input("measured.loop", "a temperature alone tells nothing");
    cx.not_applicable("the loop was not measured", cx.cite("measured-loop"));
    return;
  }
  Control then = c;  // the run at the temperature at which it was read
  if (m.temperature) then.cable.temperature = m.temperature;
  const derive::Loop loop = derive::loop_of(cx, then);
  const auto read = cx.given("measured loop resistance", "Rm", m.loop, units::ohm);
  const auto k = cx.parameter("measured-loop", "percent", "margin of the cable", "k", units::percent);
  const auto margin = cx.parameter("measured-loop", "margin", "margin of the leads", "m", units::ohm);
  const Citation cite = cx.cite("measured-loop");
  const auto most = cx.apply(calc::loop_most, units::ohm, cite, loop.resistance, k, margin);
  Finding& f = cx.recommend(read, Must::at_most, most, cite, m.loop.where);
  if (f.verdict == Verdict::advice) {
    f.change = cx.text("the cable accounts for {} ohm: look for a bad splice or terminal, then for a longer run or a smaller gauge than the case says",
                       number_text(units::ohm.show(loop.resistance.value), 3));
    return;
  }
  const auto least = cx.apply(calc::loop_least, units::ohm, cite, loop.resistance, k, margin);
  Finding& g = cx.recommend(read, Must::at_least, least, cite, m.loop.where);
  if (g.verdict == Verdict::advice)
    g.change = "is the far end the place where it is shorted? a short on the way, a shorter run or a larger gauge reads like this";
}

}  // namespace

extern const Check check_measured_loop{
    .id = "measured-loop",
    .title = "Measured loop resistance of the control run",
    .family = Family::measured,
    .about = "With the far end shorted and the source disconnected a meter reads the loop. More than the cable accounts for suggests a "
             "bad splice or a longer run; less, a short on the way. The cable's resistance is taken at its temperature at that moment.",
    .formula = "R * (1 - k) - m <= Rm <= R * (1 + k) + m",
    .reads = "control.measured.loop, control.measured.temperature, control.length, control.path, control.cable",
    .rules = "measured-loop, small-gauge, copper-temperature",
    .run = run};

}  // namespace pullproof
