#include "derive/drop_limit.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

// Volts to neutral and volts between lines never meet in one sum. Everything is counted between the two conductors
// of the branch circuit: what a feeder loses counts with the conductors of the branch's own loop that its current
// passes (one line of a balanced feeder for a load to neutral, two for a load between lines, and so on; see
// derive/feeding.hpp). Its share of the branch's voltage is then its share of its own voltage, so shares add. The
// circuit starts from the voltage at the feeder's end, where the feeder's power factor counts.
void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("total-drop");
  if (c.role.value_or(CircuitRole::branch) != CircuitRole::branch) {
    cx.not_applicable("a feeder; the total is judged at the end of the branch circuits", cite);
    return;
  }
  if (c.feeder == nullptr) {
    cx.not_applicable("no feeder of this case leads to the circuit", cite);
    return;
  }
  derive::hold_share(cx, c, {.reach = derive::Reach::supply}, "total-drop", "voltage drop of feeder and branch circuit");
}

}  // namespace

extern const Check check_drop_total{
    .id = "drop-total",
    .title = "Voltage drop of feeder and branch circuit together",
    .family = Family::drop,
    .about = "The appliance meets what feeders and branch circuit lose together. All volts are counted between the branch circuit's "
             "own two conductors: what a feeder loses counts with the conductors of that loop which its current passes, one line of a "
             "balanced feeder for a load to neutral, two for a load between lines. In shares of the voltage that is the same as the "
             "feeder's own share, so shares add. Each circuit is worked out from the voltage at the end of the one before it.",
    .formula = "of each feeder and the branch, in turn: A = sum of c * I * (R * pf + X * q); B = sum of c * I * (X * pf - R * q); "
               "Vr = sqrt(Vs^2 - B^2) - A, the Vs of the next; (Vs - Vr) / Vs <= p from the first Vs to the last Vr",
    .reads = "circuit.role, circuit.fed_by, circuit.voltage, circuit.phases, circuit.path, circuit.wire, load.current, circuit.also_feeds.current, load.power, "
             "load.apparent_power, load.power_factor, raceway.type, raceway.length, cable.type, cable.length, supply.system, "
             "supply.voltage",
    .rules = "total-drop, conductor-properties, ac-impedance, dc-resistance-for-ac, resistance-temperature, cable-impedance, "
             "raceway-types, parallel",
    .run = run};

}  // namespace pullproof
