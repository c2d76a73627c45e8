#include "derive/fault.hpp"

#include <cmath>

#include "calc/fault.hpp"
#include "derive/impedance.hpp"

namespace pullproof::derive {

Traced<Current> fault_at_start(Context& cx, const Circuit& c) {
  if (c.feeder != nullptr) {
    const auto at_end = fault_at_end(cx, *c.feeder);
    cx.working().rename(at_end.step, cx.text("fault current at the end of '{}'", *c.feeder->name), "Is");
    return at_end;
  }
  cx.need(cx.job().supply.available_fault, "supply.available_fault", "everything that can arrive further on comes from it");
  return cx.given("fault current at the panel", "Is", cx.job().supply.available_fault, units::ampere);
}

Traced<Current> fault_at_end(Context& cx, const Circuit& c) {
  const auto available = fault_at_start(cx, c);
  const Line line = line_of(cx, c);
  if (c.path.empty()) cx.needs_input("circuit.path", cx.text("the run of '{}' limits the fault current", *c.name));
  const Temperature cold = cx.parameter("fault-current-withstand", "cold", units::celsius);
  Resistance r{}, x{};
  for (const Stretch& s : c.path) {
    Conductors k = conductors_on(cx, c, s);
    k.temperature.value = cold;
    k.temperature.present = true;
    k.temperature.text = cx.text("{} °C, cold", number_text(cold.celsius, 1));
    const Impedance z = impedance_of(cx, line, s, k);
    r += z.resistance.value;
    x += z.reactance.value;
  }
  // Between two conductors both ways count; of three phases, one way and the voltage to the neutral point.
  const bool three = line.phases == 3;
  const double ways = three ? 1 : 2;
  const auto v = cx.given("circuit voltage", "V", c.voltage, units::volt);
  const auto f = cx.working().choice("factor for the phases", "c", three ? std::sqrt(3.0) : 1.0, units::ratio, three ? "three phases" : "single phase", {});
  const auto xs = cx.apply(calc::source_reactance, units::ohm, {}, v, f, available);
  const auto rr = cx.working().choice("resistance of the run", "R", ways * r, units::ohm, three ? "one way, cold" : "out and back, cold", {});
  const auto xx = cx.working().choice("reactance of the run", "X", ways * x, units::ohm, three ? "one way" : "out and back", {});
  return cx.apply(calc::fault_current, units::ampere, cx.cite("fault-current-withstand"), v, f, rr, xx, xs);
}

}  // namespace pullproof::derive
