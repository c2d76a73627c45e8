#pragma once
// Currents of motors and compressors, and what their conductors and devices go by.
#include <vector>

#include "derive/line.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// Whether the circuit feeds motors that the case describes, so that their articles set the conductors and the device.
bool has_motors(const Circuit& c);

/// One motor's current for conductors and short-circuit devices: the table's by its horsepower, a compressor's
/// greater marked current, else the nameplate's.
struct MotorCurrent {
  const Motor* motor = nullptr;
  Traced<Current> current;
  bool compressor = false;
};
/// All of them, the largest first.
std::vector<MotorCurrent> motor_currents(Context& cx, const Circuit& c, const Line& line);

/// The sum of all but the first, with `load.other_current`; nothing when there is none.
std::optional<Traced<Current>> rest_of(Context& cx, const Circuit& c, const std::vector<MotorCurrent>& motors);

/// What the conductors must carry: the largest motor raised, the rest whole.
struct MotorConductor {
  Traced<Current> current;
  Citation cite;
};
MotorConductor motor_conductor(Context& cx, const Circuit& c, const Line& line);

/// All motor currents added: what runs, for voltage drop.
Traced<Current> running_current(Context& cx, const Circuit& c, const Line& line);

/// The largest short-circuit device.
struct MotorDevice {
  Traced<Current> most;     ///< the share of the table, with the rest, before any rounding
  Traced<Current> allowed;  ///< rounded to a standard rating, up or down as the rule says
  Citation cite;
};
MotorDevice motor_device(Context& cx, const Circuit& c, const Line& line);

}  // namespace pullproof::derive
