#pragma once
// Which rules ask for ground-fault protection of an outlet, and why the others do not.
#include <vector>

#include "derive/outlet.hpp"

namespace pullproof::derive {

/// What one rule says to one outlet.
struct GfciDemand {
  enum class State : std::uint8_t {
    asked,        ///< it asks for protection
    free,         ///< it does not; `reason` says why
    open,         ///< it depends on `key`, which the case does not give
    not_covered,  ///< nobody has seen it in this edition
  };
  State state = State::free;
  std::string_view reason, key;
  Citation cite;
  bool of_supply = true;         ///< the protection is part of the circuit, not of the appliance
  bool class_c = false;          ///< a Class C device does as well
  bool special_purpose = false;  ///< a special-purpose device (C, D or E) does as well
  bool equipment = false;        ///< protection of equipment does as well
};

/// A receptacle, as the rules of places look at it.
struct ReceptacleAt {
  const Receptacle* receptacle = nullptr;
  const Given<Place>* place = nullptr;
  std::string_view key;  ///< of the place
  Voltage volts{}, to_ground{};
  int phases = 1;
  std::optional<Current> rating;
  std::string_view rating_key;
};

/// Receptacles by occupancy and place.
GfciDemand gfci_by_place(Context& cx, const ReceptacleAt& r);

/// Every rule that might meet the outlet of a branch circuit, in the order in which they are named.
std::vector<GfciDemand> gfci_demands(Context& cx, const Circuit& c);

/// Whether the day of the permit is before `day` ("2026-09-01"). Needs the day of the permit.
bool permit_before(Context& cx, std::string_view day);

}  // namespace pullproof::derive
