#pragma once
// Currents of motors and compressors, and what their conductors and devices go by.
#include <vector>

#include "derive/line.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// Whether the circuit feeds motors that the case describes, so that their articles set the conductors and the device.
bool has_motors(const Circuit& c);

/// Whether several motors are on the circuit, or one beside other loads.
bool several_motors(const Circuit& c);

/// One motor's current for conductors and short-circuit devices: the table's by its horsepower, a compressor's
/// greater marked current, else the nameplate's.
struct MotorCurrent {
  const Motor* motor = nullptr;  ///< null where the circuit feeds it beside its own load
  Traced<Current> current;
  bool compressor = false;
};
/// Those of the load, the largest first.
std::vector<MotorCurrent> motor_currents(Context& cx, const Circuit& c, const Line& line);
/// Those of the whole circuit, the largest first.
std::vector<MotorCurrent> circuit_motors(Context& cx, const Circuit& c, const Line& line);

/// Whose other loads count: those beside the motors of the load, or those on the whole circuit too.
enum class Beside : std::uint8_t { load, circuit };
/// The sum of all motors but the first, with what runs beside them; nothing when there is none. What runs three hours
/// or more beside them is raised by the percentage of `raised_by`, where that names a rule.
std::optional<Traced<Current>> rest_of(Context& cx, const Circuit& c, const std::vector<MotorCurrent>& motors, Beside beside,
                                       std::string_view raised_by = {});

/// What the conductors must carry: the largest motor raised, the rest whole.
struct MotorConductor {
  Traced<Current> current;
  Citation cite;
};
MotorConductor motor_conductor(Context& cx, const Circuit& c, const Line& line);

/// All motor currents of the load added: what runs.
Traced<Current> running_current(Context& cx, const Circuit& c, const Line& line);

/// The largest short-circuit device.
struct MotorDevice {
  Traced<Current> most;     ///< the share of the table, with the rest, before any rounding
  Traced<Current> allowed;  ///< rounded to a standard rating, up or down as the rule says
  Citation cite;
};
MotorDevice motor_device(Context& cx, const Circuit& c, const Line& line);
/// That of one motor of the circuit that is no compressor, as if it were alone.
MotorDevice motor_device(Context& cx, const Circuit& c, const Line& line, const MotorCurrent& motor);

/// The horsepower of a disconnect for several motors: of the least motor whose table current and locked-rotor current are
/// not below the sums of theirs (430.110(C)). Nothing for direct current, or where the horsepower of one is not given.
std::optional<Traced<Horsepower>> combined_horsepower(Context& cx, const Circuit& c, const Line& line);

/// Whether a feeder supplies motors or compressors, so that its device may stand above its conductors (430.62).
bool feeds_motors(const Context& cx, const Circuit& feeder);

}  // namespace pullproof::derive
