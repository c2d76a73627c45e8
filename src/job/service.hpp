#pragma once
// The service and the panel, for adding a load to them.
#include <vector>

#include "core/quantity.hpp"
#include "job/disconnect.hpp"
#include "job/given.hpp"
#include "job/ways.hpp"

namespace pullproof {

enum class LoadMethod : std::uint8_t { standard, optional, existing, measured };
enum class ServiceLoadKind : std::uint8_t {
  appliance, range, dryer, charger, motor, cooling, heat_pump, heat_pump_supplement, electric_heat
};

/// A load on the service that is no circuit of the case.
struct ServiceLoad {
  Given<std::string_view> name;
  Given<ServiceLoadKind> kind;
  Given<Power> power;
  Given<double> units;  ///< alike: ranges, dryers, separately controlled heaters; `power` is of each
  Given<bool> added;    ///< new with this job
  Where where;
};

/// The service of a dwelling, by one of the methods of the load calculation.
struct Service {
  Given<LoadMethod> method;
  Given<Current> rating;
  Given<ConductorSize> conductor;  ///< of its ungrounded conductors
  Given<Material> material;
  Given<Area> floor_area;
  Given<double> small_appliance_circuits, laundry_circuits;
  std::vector<ServiceLoad> loads;
  Given<Current> measured_demand;  ///< highest, on the more loaded line
  Given<double> measured_days, measured_interval;  ///< recording: days, and minutes averaged
  Where where;
};

struct Panel {
  Given<std::string_view> location, model;
  Given<Current> bus, main;
  Given<double> free_spaces;
  Given<bool> tandem_allowed;
  Given<double> most_poles, used_poles;    ///< poles of overcurrent devices: by its label, and in it before this job
  Given<double> neutrals_per_terminal;     ///< the most under one terminal of its neutral bar
  Given<bool> fault_marked;                ///< service equipment: the available fault current is marked on it
  Given<bool> source_marked;   ///< it says where it is fed from
  Given<bool> durable_labels;  ///< labels put on in the field last, and none is written by hand
  WorkingSpace working_space;
  Where where;
};

}  // namespace pullproof
