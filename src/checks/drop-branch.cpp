#include "derive/drop_limit.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("branch-drop");
  if (c.role.value_or(CircuitRole::branch) != CircuitRole::branch) {
    cx.not_applicable("a feeder; its drop has a limit of its own", cite);
    return;
  }
  derive::hold_share(cx, c, {}, "branch-drop", "voltage drop of the branch circuit");
}

}  // namespace

extern const Check check_drop_branch{
    .id = "drop-branch",
    .title = "Voltage drop of the branch circuit",
    .family = Family::drop,
    .about = "Long thin conductors leave the appliance less voltage than it was made for: motors run hot, heaters heat less, "
             "electronics give up. The drop is the exact one for a constant current at the load's power factor, from where the "
             "circuit starts to its end: each stretch has the resistance and reactance of its conductors in what they run in, and "
             "the parts in phase and in quadrature add up over the stretches. The usual approximation, which leaves out the "
             "quadrature, stands beside it. The books advise a limit; a local amendment may make it binding.",
    .formula = "A = sum of c * I * (R * pf + X * q); B = sum of c * I * (X * pf - R * q); Vr = sqrt(Vs^2 - B^2) - A; "
               "(Vs - Vr) / Vs <= p; c = 2, or sqrt(3) for three phases; q = sqrt(1 - pf^2)",
    .reads = "circuit.voltage, circuit.phases, circuit.path, circuit.wire, load.current, circuit.also_feeds.current, load.power, load.apparent_power, "
             "load.power_factor, raceway.type, raceway.length, cable.type, cable.length, supply.system, supply.voltage",
    .rules = "branch-drop, conductor-properties, ac-impedance, dc-resistance-for-ac, resistance-temperature, cable-impedance, "
             "raceway-types, parallel",
    .run = run};

}  // namespace pullproof
