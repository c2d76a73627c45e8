#pragma once
// What kind of circuit a circuit is: its voltage, phases and conductors.
#include "engine/context.hpp"

namespace pullproof::derive {

/// The electrical shape of a circuit.
struct Line {
  bool dc = false;
  int phases = 1;
  bool to_neutral = false;  ///< single phase between a line and the neutral
  Voltage volts{};          ///< between its conductors: line to line for three phases, as given
  Voltage nominal{};        ///< the voltage of the supply that `volts` stands for
  Voltage to_ground{};      ///< highest voltage of a conductor to ground; 0 when the system does not say
  int hots = 1;             ///< ungrounded conductors of one set
  bool neutral = false;     ///< a grounded circuit conductor runs along
  int counted = 2;          ///< current-carrying conductors of one set that count
  StepId why_counted = no_step;
  /// Circuit conductors of one set, whether they count for heat or not.
  int conductors() const { return dc ? 2 : hots + (neutral ? 1 : 0); }
};

/// Reads the line from the circuit and the supply. Needs `circuit.voltage`; without a supply system a 120 V or
/// 240 V circuit is taken, aloud, as one of a 120/240 V single-phase supply.
Line line_of(Context& cx, const Circuit& c);

/// Counted conductors of a circuit without any step or assumption, for counting what shares a raceway.
Line quiet_line(const Context& cx, const Circuit& c);

}  // namespace pullproof::derive
