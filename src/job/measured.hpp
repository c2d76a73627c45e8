#pragma once
// What a meter read after the pull.
#include "core/quantity.hpp"
#include "job/given.hpp"

namespace pullproof {

/// Readings on a circuit, all at the same time with the load on but for the insulation's.
struct CircuitMeasured {
  Given<Voltage> start_voltage;  ///< where the circuit starts
  Given<Voltage> load_voltage;   ///< at the appliance
  Given<Current> current;
  Given<Resistance> insulation;  ///< lowest of all conductors to one another and to ground, load disconnected
  Given<Voltage> insulation_test;
  Given<Torque> torque, torque_marked;  ///< at the device's terminals
  Where where;
};

/// Readings on a control run: the loop with the far end shorted, the voltages with the load on.
struct ControlMeasured {
  Given<Voltage> source_voltage, load_voltage;
  Given<Resistance> loop;
  Given<Temperature> temperature;  ///< of the cable while it was read
  Where where;
};

}  // namespace pullproof
