#pragma once
// The largest overcurrent device that conductors may have.
#include <optional>

#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

struct DeviceLimit {
  Traced<Current> most;
  Citation cite;  ///< what sets it
};

/// The largest device for conductors of this usable ampacity (after every factor and the terminals): the next standard
/// rating where that is permitted, else the ampacity itself, and never above the fixed limit for a small conductor.
/// Nothing where the article of the circuit's kind sets the device (motors, cooling). A device of unknown kind is
/// taken as a breaker.
std::optional<DeviceLimit> largest_device(Context& cx, const Circuit& c, const Conductors& k, const Traced<Current>& usable);

/// The first standard rating that is not below `current`; nothing above the last.
std::optional<Traced<Current>> standard_rating_from(Context& cx, DeviceKind kind, Current current, std::string_view name,
                                                    std::string_view symbol);

/// The last standard rating that is not above `current`. Stops (not covered) below the first.
Traced<Current> standard_rating_to(Context& cx, DeviceKind kind, Current current, std::string_view name, std::string_view symbol);

}  // namespace pullproof::derive
