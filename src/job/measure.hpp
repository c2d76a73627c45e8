#pragma once
// Quantities in text: "62 ft", "5 ft 6 in", "104 °F", "9.2 kA", "270°".
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "core/quantity.hpp"
#include "job/case.hpp"

namespace pullproof {

enum class Dimension : std::uint8_t {
  length, area, volume, current, voltage, power, resistance, resistance_per_length, temperature, angle, horsepower, torque, bit_rate, ratio
};
std::string_view name(Dimension d);
/// How a quantity of this dimension is written, for messages: `"62 ft"`.
std::string_view example(Dimension d);

/// The units that a quantity of this dimension may be written with.
std::vector<std::string_view> units_of(Dimension d);

/// "from 1 A through 6000 A": limits in SI units, in the units that people write.
std::string range_text(Dimension d, double low, double high);

/// What came of reading a text. On an error, `at` and `size` are the bytes of the text that are to blame.
struct Measured {
  double si = 0;  ///< SI; °C for temperatures, degrees for angles, a plain ratio for ratios
  bool ok = false;
  std::string error, note;
  std::size_t at = 0, size = 0;
  bool fahrenheit = false, volt_amperes = false;
};

/// Reads one quantity of dimension `want`. Numbers have a decimal point, no thousands separators and no
/// exponent; a length may mix feet and inches; a ratio may be a plain number or a percentage.
Measured read_quantity(std::string_view text, Dimension want);

/// As read_quantity for the quantities that carry more than a number.
struct MeasuredSystem {
  System system;
  bool ok = false;
};
MeasuredSystem read_system(std::string_view text);
struct MeasuredVoltage {
  SourceVoltage voltage;
  bool kind_given = false;
  Measured measured;
};
MeasuredVoltage read_source_voltage(std::string_view text);

template <class Q>
constexpr Dimension dimension_of() {
  if constexpr (std::is_same_v<Q, Length>) return Dimension::length;
  else if constexpr (std::is_same_v<Q, Area>) return Dimension::area;
  else if constexpr (std::is_same_v<Q, Volume>) return Dimension::volume;
  else if constexpr (std::is_same_v<Q, Current>) return Dimension::current;
  else if constexpr (std::is_same_v<Q, Voltage>) return Dimension::voltage;
  else if constexpr (std::is_same_v<Q, Power>) return Dimension::power;
  else if constexpr (std::is_same_v<Q, Resistance>) return Dimension::resistance;
  else if constexpr (std::is_same_v<Q, ResistancePerLength>) return Dimension::resistance_per_length;
  else if constexpr (std::is_same_v<Q, Temperature>) return Dimension::temperature;
  else if constexpr (std::is_same_v<Q, Angle>) return Dimension::angle;
  else if constexpr (std::is_same_v<Q, Horsepower>) return Dimension::horsepower;
  else if constexpr (std::is_same_v<Q, Torque>) return Dimension::torque;
  else if constexpr (std::is_same_v<Q, BitRate>) return Dimension::bit_rate;
  else return Dimension::ratio;
}

}  // namespace pullproof
