#pragma once
// Low-voltage control runs.
#include <vector>
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "core/size.hpp"
#include "job/given.hpp"
#include "job/circuit.hpp"
#include "job/signal.hpp"
#include "job/supply.hpp"

namespace pullproof {

enum class ControlLoadKind : std::uint8_t { constant_current, constant_power };
enum class ControlUse : std::uint8_t { general, irrigation, landscape_lighting };

struct ControlSource {
  Given<std::string_view> name;  ///< runs that give the same name start from one source
  Given<double> control_class;
  Given<SourceVoltage> voltage;
  Given<Voltage> maximum_voltage;  ///< no load
  Given<Power> rating;
  Given<Current> current, overcurrent;
  Given<bool> listed, inherently_limited;
  Given<Power> inrush_rating;  ///< what it gives for a moment, by its maker
  Given<bool> joined, listed_for_joining;  ///< its output is joined with another source's
  Given<std::string_view> fed_by;          ///< the circuit that its input is on
  Given<bool> in_equipment;                ///< it is part of listed equipment
  Given<Current> primary_device;           ///< of its own in front of its input
  Given<ConductorSize> lead_size;          ///< of its input leads
  Given<Length> lead_length;
  Where where;
  const Circuit* feeder = nullptr;  ///< set when names are linked
};

struct ControlCable {
  Given<ConductorSize> size;
  Given<ConductorSize> common_size;       ///< of the common conductor, where it is another one
  Given<ResistancePerLength> resistance;  ///< the maker's, of one conductor at 20 °C, instead of the tables'
  Given<double> conductors;
  Given<std::string_view> type;
  Given<Material> material;
  Given<Stranding> stranding;
  Given<Length> diameter;
  Given<Temperature> temperature;
  Given<Voltage> insulation;
  Given<bool> wet, sunlight;  ///< marked for wet places, for sunlight
  Given<bool> direct_burial;
  Given<bool> twisted, shielded;
  Given<double> bundled;             ///< such cables in one bundle, this one among them
  Given<Temperature> temperature_rating;
  Given<Current> power_mark;         ///< the current of an -LP mark, per conductor
  Where where;
};

struct ControlLoad {
  Given<std::string_view> name;
  Given<std::string_view> device;  ///< as in the table of control devices
  Given<ControlLoadKind> kind;
  Given<Current> current, inrush;
  Given<Power> apparent_power, inrush_power;
  Given<Voltage> minimum_voltage;
  Where where;
};

/// What holds a run outside of raceways.
struct ControlSupports {
  Given<Holder> by;
  Given<std::string_view> raceway;  ///< the one that it is tied to
  Where where;
  const Raceway* held_by = nullptr;  ///< set when names are linked
};

/// A box, cabinet or compartment that the run shares with power.
struct ControlEnclosure {
  Given<std::string_view> name;
  Given<std::string_view> power;  ///< the circuit in it
  Given<bool> same_equipment;     ///< the power is there only for equipment that the run connects to as well
  Given<bool> barrier, own_raceway, single_opening, sleeve;
  Given<Length> gap;
  Where where;
  const Circuit* circuit = nullptr;  ///< set when names are linked
};

struct Control {
  Given<std::string_view> name, serves;
  ControlSource source;
  ControlCable cable;
  Given<Length> length;
  std::vector<Stretch> path;
  Given<Place> place;  ///< where it runs outside of raceways
  ControlLoad load;
  std::vector<ControlLoad> also;  ///< loads whose current returns through the same common conductor
  ControlMeasured measured;
  Given<std::string_view> manual;  ///< where the maker's limits were read
  Given<Length> maximum_length;
  Given<Resistance> maximum_loop_resistance;
  Given<double> allowed_drop;  ///< the maker's, as a ratio
  Given<ConductorSize> smallest_size;  ///< that the device's maker permits
  Given<bool> copper_only;             ///< its maker asks for copper
  Given<bool> reclassified;
  Bus bus;
  Poe poe;
  ControlSupports supports;
  std::vector<ControlEnclosure> enclosures;
  Given<ControlUse> use;
  Given<Temperature> ambient;  ///< outside of raceways
  Given<Length> cover;         ///< buried: from grade to its top
  Given<Under> under;
  Given<bool> safety;            ///< its failure brings a direct hazard
  Given<bool> other_building;    ///< it leaves the building
  Given<bool> protector;         ///< a listed primary protector at each end
  Given<bool> moves;             ///< it joins something that moves or is often interchanged
  Given<Length> separation;  ///< from power conductors, outside raceways
  Given<bool> barrier;
  Where where;
  const Circuit* served = nullptr;
};

}  // namespace pullproof
