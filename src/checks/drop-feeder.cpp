#include "derive/drop_limit.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("feeder-drop");
  if (c.role.value_or(CircuitRole::branch) != CircuitRole::feeder) {
    cx.not_applicable("a branch circuit; its drop has a limit of its own", cite);
    return;
  }
  derive::hold_share(cx, c, {}, "feeder-drop", "voltage drop of the feeder");
}

}  // namespace

extern const Check check_drop_feeder{
    .id = "drop-feeder",
    .title = "Voltage drop of the feeder",
    .family = Family::drop,
    .about = "What a feeder loses, every circuit behind it lacks. The drop is worked out as for a branch circuit, with the feeder's "
             "own load at its own power factor, shared evenly by its lines. Where the case gives the feeder no load it carries the "
             "loads of the circuits that it feeds, added as phasors and taken as all on the same line, because the case does not say "
             "on which line each is; a load to neutral then counts in the line and in the neutral. Each feeder is held against the "
             "limit alone; feeders and branch circuit together have a limit of their own.",
    .formula = "A = sum of c * I * (R * pf + X * q); B = sum of c * I * (X * pf - R * q); Vr = sqrt(Vs^2 - B^2) - A; "
               "(Vs - Vr) / Vs <= p",
    .reads = "circuit.role, circuit.fed_by, circuit.voltage, circuit.phases, circuit.path, circuit.wire, load.current, load.power, "
             "load.apparent_power, load.power_factor, raceway.type, raceway.length, cable.type, cable.length, supply.system, "
             "supply.voltage",
    .rules = "feeder-drop, conductor-properties, ac-impedance, dc-resistance-for-ac, resistance-temperature, cable-impedance, "
             "raceway-types, parallel",
    .run = run};

}  // namespace pullproof
