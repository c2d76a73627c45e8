#include "derive/ampacity.hpp"
#include "derive/load.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  const derive::DesignLoad raised = derive::load_for_conductor(cx, c, line);
  const auto found = derive::ampacity_of(cx, c, line);
  const Traced<Current> load = raised.marked ? raised.current : derive::load_current(cx, c, line);
  const Citation cite = raised.marked ? raised.cite
                        : cx.cite(c.role.value_or(CircuitRole::branch) == CircuitRole::feeder ? "feeder-load" : "conductor-load");
  Finding& f = cx.require(found.usable, Must::at_least, load, cite, c.wire.size.where);
  if (f.verdict == Verdict::fail) f.change = "use larger conductors, fewer of them in the raceway, or a cooler place";
  if (!raised.continuous) return;
  // The raised load is held against the ampacity before any factor, never against the factored one.
  const auto& weakest = found.stretches[found.governing];
  const Traced<Current> plain = weakest.terminal.value < weakest.before_factors.value ? weakest.terminal : weakest.before_factors;
  Finding& g = cx.require(plain, Must::at_least, raised.current, raised.cite, c.wire.size.where);
  if (g.verdict == Verdict::fail) g.change = "use larger conductors";
}

}  // namespace

extern const Check check_ampacity{
    .id = "ampacity",
    .title = "Conductor ampacity",
    .about = "A conductor that carries more than its ampacity cooks its insulation. Each stretch of the path gets the column of "
             "its insulation for the place, times the factor for the ambient and the factor for the number of conductors that "
             "carry current; the plain column of the terminals caps it. The weakest stretch counts, but a short weaker part may "
             "keep the ampacity of the rest. The load is held against that; the load with its continuous part raised is held "
             "against the plain columns, before any factor.",
    .formula = "Iz = min(It * fa * fn, terminal column); Iz >= I; plain columns >= (I - C) + C * k",
    .reads = "circuit.voltage, circuit.path, circuit.wire, circuit.load, breaker.terminals, load.terminals, raceway.place, "
             "raceway.ambient, raceway.above_roof, raceway.length, raceway.nipple, cable.type, cable.bundled",
    .rules = "ampacity, ambient-correction, count-adjustment, count-neutral, count-nipple, count-bundled, insulation, cable-types, "
             "cord-ampacity, rooftop, terminals, adjacent-portions, continuous-load-conductor, conductor-load, marked-minimum, parallel",
    .run = run};

}  // namespace pullproof
