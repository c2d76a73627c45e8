#pragma once
// The job, and the supply that its circuits start from.
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "core/size.hpp"
#include "job/given.hpp"
#include "job/service.hpp"
#include "job/sharing.hpp"

namespace pullproof {

/// A supply system: "120/240 V 1-phase 3-wire", "208Y/120 V 3-phase 4-wire", "24 V dc".
struct System {
  Voltage line_to_line{};     ///< the only voltage of a two-wire system
  Voltage line_to_neutral{};  ///< 0 without a neutral; the mid-tap to line voltage of a high-leg delta
  int phases = 1, wires = 2;
  bool dc = false, wye = false;
};

/// A voltage that says what it is: "24 V ac", "12 V dc".
struct SourceVoltage {
  Voltage volts{};
  bool dc = false;
};

struct Job {
  Given<std::string_view> title, site, address, parcel, owner, authority, permit, revision, description;
  Given<std::string_view> contractor, license, prepared_by, checked_by;
};

/// The panel or other equipment that the circuits start from.
struct Supply {
  Where where;
  Given<System> system;
  Given<std::string_view> name;
  Given<bool> dwelling;
  Given<Occupancy> occupancy;
  Given<Current> available_fault;
  Given<Voltage> voltage;  ///< measured or held at the panel; the system's nominal when absent
  Given<bool> openings_closed;  ///< unused holes of the panel
  Given<Temperature> terminals;
  Panel panel;
  Service service;
};

}  // namespace pullproof
