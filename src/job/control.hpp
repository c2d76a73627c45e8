#pragma once
// Low-voltage control runs.
#include <vector>
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "core/size.hpp"
#include "job/given.hpp"
#include "job/circuit.hpp"
#include "job/supply.hpp"

namespace pullproof {

enum class ControlLoadKind : std::uint8_t { constant_current, constant_power };

struct ControlSource {
  Given<double> control_class;
  Given<SourceVoltage> voltage;
  Given<Voltage> maximum_voltage;  ///< no load
  Given<Power> rating;
  Given<Current> current, overcurrent;
  Given<bool> listed, inherently_limited;
  Where where;
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
  Where where;
};

struct ControlLoad {
  Given<std::string_view> name;
  Given<ControlLoadKind> kind;
  Given<Current> current, inrush;
  Given<Power> apparent_power, inrush_power;
  Given<Voltage> minimum_voltage;
  Where where;
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
  Given<Length> maximum_length;
  Given<Resistance> maximum_loop_resistance;
  Given<double> allowed_drop;  ///< the maker's, as a ratio
  Given<bool> reclassified;
  Given<Length> separation;  ///< from power conductors, outside raceways
  Given<bool> barrier;
  Where where;
  const Circuit* served = nullptr;
};

}  // namespace pullproof
