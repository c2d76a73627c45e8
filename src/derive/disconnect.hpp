#pragma once
// Disconnecting means: the rule that they follow, and whether they are in sight.
#include "derive/outlet.hpp"

namespace pullproof::derive {

/// The rule of the disconnect, by the appliance, else by the motors that are described: "cooling-disconnect" ... Empty
/// for a circuit that feeds receptacles and no appliance. Needs the appliance.
std::string_view disconnect_rule(Context& cx, const Circuit& c);

/// Whether the case does not say what the circuit feeds, which the check of the disconnect itself asks for.
bool feeds_unknown(const Circuit& c);

/// Whether a charger is small enough in amperes and volts that its article asks for no disconnect.
bool small_charger(Context& cx, const Circuit& c);

/// Whether the case describes a disconnect.
bool described(const Disconnect& d);

/// In sight is both visible and near.
struct Sight {
  bool within = false;
  std::optional<Traced<Length>> distance, limit;  ///< where the case gives a distance
};
/// Nothing where the case does not tell.
std::optional<Sight> sight_of(Context& cx, const Disconnect& d);

/// Leaves the check where the disconnect of cooling equipment is not in sight and has to be another one anyhow.
void wait_for_sight(Context& cx, const Disconnect& d, const Citation& cite);

/// Where the disconnect is: its own place, else the load's; nothing for the breaker at the panel without one.
const Given<Place>* disconnect_place(const Circuit& c);

}  // namespace pullproof::derive
