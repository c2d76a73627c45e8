#include "derive/ampacity.hpp"
#include "derive/load.hpp"
#include "derive/motor.hpp"
#include "derive/resized.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// What is held against the ampacity after all factors: the load itself, or what its nameplate or article raised.
Traced<Current> load_after_factors(Context& cx, const Circuit& c, const derive::Line& line, const derive::DesignLoad& raised) {
  return raised.after_factors ? raised.current : derive::whole_load(cx, c, line);
}

bool carries(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  const derive::DesignLoad raised = derive::load_for_conductor(cx, c, line);
  const auto found = derive::ampacity_of(cx, c, line);
  return at_least(found.usable.value, load_after_factors(cx, c, line, raised).value) &&
         (raised.after_factors || at_least(found.plain_at_device.value, raised.current.value));
}

void advise_size(Context& cx, const Circuit& c, Finding& f) {
  if (f.verdict != Verdict::fail) return;
  const std::string_view size = derive::smallest_size(cx, c, carries);
  f.change = size.empty() ? "use conductors in parallel, fewer in the raceway, or a cooler place"
                          : cx.text("use {} conductors, fewer of them in the raceway, or a cooler place", size);
}

/// A motor's conductors go by a current that the case does not say: what certainly fails is said all the same.
void unknown_motor(Context& cx, const Circuit& c, const derive::Line& line) {
  const auto usable = derive::ampacity_of(cx, c, line).usable;
  const auto load = derive::load_current(cx, c, line);
  if (!at_least(usable.value, load.value))
    cx.require(usable, Must::at_least, load, cx.cite("motor-conductor"), c.wire.size.where).change = "use larger conductors";
  derive::load_for_conductor(cx, c, line);  // leaves with the reason
}

void run(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  if (derive::circuit_kind(cx, c) == "motor" && !c.load.minimum_circuit_ampacity && !derive::has_motors(c)) return unknown_motor(cx, c, line);
  const derive::DesignLoad raised = derive::load_for_conductor(cx, c, line);
  const auto found = derive::ampacity_of(cx, c, line);
  const Citation cite = raised.after_factors ? raised.cite
                        : cx.cite(c.role.value_or(CircuitRole::branch) == CircuitRole::feeder ? "feeder-load" : "conductor-load");
  advise_size(cx, c, cx.require(found.usable, Must::at_least, load_after_factors(cx, c, line, raised), cite, c.wire.size.where));
  if (!raised.continuous) return;
  // The raised load is held against the ampacity before any factor, never against the factored one. It is raised for
  // the device's sake: lower terminals at the load have the load itself to carry, though a strict reader holds the
  // raised one against them as well.
  if (!at_least(found.plain.value, raised.current.value) && at_least(found.plain_at_device.value, raised.current.value)) {
    cx.require(found.plain_at_device, Must::at_least, raised.current, raised.cite, c.wire.size.where);
    cx.recommend(found.plain, Must::at_least, raised.current, raised.cite, c.wire.size.where).change =
        "ask the inspector: read strictly, the lower terminals at the load cap the raised load too";
    return;
  }
  advise_size(cx, c, cx.require(found.plain, Must::at_least, raised.current, raised.cite, c.wire.size.where));
}

}  // namespace

extern const Check check_ampacity{
    .id = "ampacity",
    .title = "Conductor ampacity",
    .family = Family::conductors,
    .about = "A conductor that carries more than its ampacity cooks its insulation. Each stretch of the path gets the column of "
             "its insulation for the place, times the factor for the ambient and the factor for the number of conductors that "
             "carry current; the plain column of the terminals caps it, and so does the column that a cable's article ends with. "
             "The weakest stretch counts, but a short weaker part may keep the ampacity of the rest. The load is held against "
             "that; the load with its continuous part raised is held against the plain columns of every stretch, before any "
             "factor. A marked minimum circuit ampacity is held against the ampacity after all factors, with nothing added.",
    .formula = "Iz = min(It * fa * fn, terminal column); Iz >= I; plain columns >= (I - C) + C * k",
    .reads = "circuit.voltage, circuit.path, circuit.wire, circuit.load, circuit.also_feeds, breaker.terminals, load.terminals, supply.terminals, "
             "raceway.place, raceway.ambient, raceway.above_roof, raceway.length, raceway.nipple, raceway.also, cable.type, cable.place, "
             "cable.conductors, cable.bundled, cable.inside",
    .rules = "ampacity, ambient-correction, count-adjustment, count-neutral, count-nipple, count-bundled, count-spares, count-ac-mc, "
             "count-ac-mc-over, insulation, cable-types, nm-bundled, se-interior, ac-insulated, cord-ampacity, cord-three, rooftop, "
             "terminals, terminals-motor, adjacent-portions, continuous-load-conductor, continuous-load-conductor-feeder, conductor-load, feeder-load, "
             "raised-appliances, storage-water-heater, space-heating, vehicle-charger, range-load, ranges, marked-minimum, "
             "cooling-conductor, motor-conductor, motor-group-conductor, motor-among-loads, motor-single-phase, motor-three-phase, motor-synchronous, parallel",
    .run = run};

}  // namespace pullproof
