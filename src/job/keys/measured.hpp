#pragma once
// Keys of what was measured. Limits in SI units.
#include "job/measured.hpp"

namespace pullproof {

template <class V>
void describe(V& v, CircuitMeasured& m) {
  v.field("start_voltage", m.start_voltage, "volts where the circuit starts, with the load on", 1, 1100);
  v.field("load_voltage", m.load_voltage, "volts at the appliance, with the load on", 1, 1100);
  v.field("current", m.current, "amperes at that moment", 0.001, 6000);
  v.field("insulation", m.insulation, "lowest insulation resistance, load disconnected, \"200 Mohm\"", 0, 1e15);
  v.field("insulation_test", m.insulation_test, "dc test voltage of the insulation tester", 50, 5000);
  v.field("torque", m.torque, "torque at the device's terminals, \"35 in-lb\"", 0.01, 500);
  v.field("torque_marked", m.torque_marked, "torque marked on the device", 0.01, 500);
}

template <class V>
void describe(V& v, ControlMeasured& m) {
  v.field("source_voltage", m.source_voltage, "volts at the source, with the load on", 0.1, 1000);
  v.field("load_voltage", m.load_voltage, "volts at the device, at the same time", 0.1, 1000);
  v.field("loop", m.loop, "loop resistance with the far end shorted, \"0.62 ohm\"", 0, 1e6);
  v.field("temperature", m.temperature, "temperature of the cable while it was read", -40, 90);
}

}  // namespace pullproof
