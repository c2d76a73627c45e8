#include "derive/drop_limit.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("instructions");
  if (!c.load.minimum_voltage) {
    cx.not_applicable("load.minimum_voltage is not given: the maker's instructions may name one", cite);
    return;
  }
  if (c.role.value_or(CircuitRole::branch) == CircuitRole::feeder && !derive::has_load(c)) {
    cx.not_applicable("a feeder without a load of its own", cite);
    return;
  }
  const auto lowest = cx.given("the lowest that its maker allows", "Vmin", c.load.minimum_voltage, units::volt);
  derive::hold_voltage(cx, c, {.reach = derive::Reach::supply}, lowest, cite);
}

}  // namespace

extern const Check check_drop_appliance{
    .id = "drop-appliance",
    .title = "Voltage at the appliance",
    .family = Family::drop,
    .about = "The maker of an appliance says at what voltage it still works, and the instructions of listed equipment bind. The voltage "
             "at its terminals is what the supply holds less what feeders and branch circuit lose while it draws its rated current. "
             "Give supply.voltage as measured, at a time when the supply is low: without it the nominal voltage is taken.",
    .formula = "Vr = sqrt(Vs^2 - B^2) - A; Vr >= Vmin; A = sum of c * I * (R * pf + X * q); B = sum of c * I * (X * pf - R * q)",
    .reads = "load.minimum_voltage, circuit.fed_by, circuit.voltage, circuit.phases, circuit.path, circuit.wire, load.current, circuit.also_feeds.current, load.power, "
             "load.apparent_power, load.power_factor, raceway.type, raceway.length, cable.type, cable.length, supply.system, "
             "supply.voltage",
    .rules = "instructions, conductor-properties, ac-impedance, dc-resistance-for-ac, resistance-temperature, cable-impedance, "
             "raceway-types, parallel",
    .run = run};

}  // namespace pullproof
