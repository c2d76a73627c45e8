#pragma once
// The largest overcurrent device that conductors may have.
#include <optional>

#include "derive/ampacity.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

struct DeviceLimit {
  Traced<Current> most;
  Citation cite;  ///< what sets it
};

/// The largest device for conductors of this usable ampacity (after every factor and the terminals): the next standard
/// rating where that is permitted, else the ampacity itself, and never above the fixed limit for a small conductor.
/// Nothing where the article of the circuit's kind sets the device (motors, cooling). A device of unknown kind is
/// taken as a breaker. A cord has its own ampacity as the limit.
std::optional<DeviceLimit> largest_device(Context& cx, const Circuit& c, const Conductors& k, const Traced<Current>& usable);

/// The largest device for the conductors of all stretches of a circuit. Nothing as above.
std::optional<DeviceLimit> largest_device(Context& cx, const Circuit& c, const CircuitAmpacity& found);

/// Whether a feeder carries the whole load of a dwelling unit, so that its conductors may be below its rating.
bool carries_dwelling(Context& cx, const Circuit& c);

/// What the device is: a breaker where the case does not say.
DeviceKind device_kind(const Circuit& c);

/// Whether cooking equipment of a household asks for conductors of the whole circuit rating.
bool is_household_cooking(const Context& cx, const Circuit& c);

/// The largest standard rating that is not above `current`; nothing below the first.
std::optional<Current> largest_standard(const Context& cx, DeviceKind kind, Current current);

/// The first standard rating that is not below `current`; nothing above the last.
std::optional<Traced<Current>> standard_rating_from(Context& cx, DeviceKind kind, Current current, std::string_view name,
                                                    std::string_view symbol);

/// The last standard rating that is not above `current`. Stops (not covered) below the first.
Traced<Current> standard_rating_to(Context& cx, DeviceKind kind, Current current, std::string_view name, std::string_view symbol);

}  // namespace pullproof::derive
