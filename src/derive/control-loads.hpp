#pragma once
// The loads of a control run: what they draw, and the voltage that reaches them.
#include <vector>

#include "calc/control.hpp"
#include "derive/control.hpp"

namespace pullproof::derive {

/// One load, with what it draws while it runs and as it pulls in.
struct ControlDevice {
  const ControlLoad* load = nullptr;
  std::string_view name;                  ///< for messages: "the device", "'damper'"
  std::optional<Traced<Current>> current; ///< while it runs; of a load of constant power, nothing
  std::optional<Traced<Power>> power;     ///< of a load of constant power
  std::optional<Traced<Current>> inrush;
  std::optional<Traced<Voltage>> usual_lowest;  ///< of its sort, where its maker's is not given and the source has the rated voltage
  bool runs() const { return current || power; }
};

/// Whether the case says anything about what a load draws.
bool says_what_it_draws(const ControlLoad& load);

/// The nominal voltage of the source. Needs `control.source.voltage`.
Traced<Voltage> source_voltage(Context& cx, const Control& c);

/// The device at the end and the others on its common, in the order of the case. A load in volt-amperes is taken as a
/// constant current unless it says otherwise, aloud. Needs what each of them draws.
std::vector<ControlDevice> devices_of(Context& cx, const Control& c, const Traced<Voltage>& source);

/// All loads of a run on their line.
struct Network {
  Loop loop;
  Traced<Voltage> source;
  std::vector<ControlDevice> devices;
  /// Side by side on two conductors; else each load has a conductor of its own besides the common one.
  bool together = false;
};
/// Too few conductors for one each and a common put several loads side by side, aloud.
Network network_of(Context& cx, const Control& c, const Traced<Voltage>& source, const std::vector<ControlDevice>& devices);
/// Which moment of a device is looked at; the others run meanwhile.
enum class Moment : std::uint8_t { running, pulling_in };

/// Whether the current of this device does not depend on its voltage at that moment.
bool draws_constant_current(const ControlDevice& d, Moment moment);

/// The voltage at device `k`, as a plain number, were the run of this length and these conductors; nothing when no
/// voltage is stable.
std::optional<Voltage> voltage_with(const Network& n, std::size_t k, Moment moment, Length l, ResistancePerLength own, ResistancePerLength common);

/// What arrives at a device.
struct Arrival {
  std::optional<Traced<Voltage>> voltage;    ///< nothing when no voltage is stable
  std::optional<Traced<Current>> others;     ///< what the others draw meanwhile
  std::optional<Traced<Power>> asked, most;  ///< of an unstable one: the power asked for and the most there is
};
Arrival arrival_at(Context& cx, const Network& n, std::size_t k, Moment moment);

/// What all devices draw while they run: the current in the common conductor.
Traced<Current> total_current(Context& cx, const Control& c, const Traced<Voltage>& source, const std::vector<ControlDevice>& devices);

}  // namespace pullproof::derive
