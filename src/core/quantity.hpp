#pragma once
// Dimensioned quantities, from Boost.Units, under the names this program uses. Everything is SI inside;
// the units that people read and write are `Unit` values. What the type system cannot tell apart (line to
// line and line to neutral, one-way and loop length, column temperatures) gets a named field instead.
#include <boost/units/quantity.hpp>
#include <boost/units/systems/si/area.hpp>
#include <boost/units/systems/si/base.hpp>
#include <boost/units/systems/si/current.hpp>
#include <boost/units/systems/si/electric_potential.hpp>
#include <boost/units/systems/si/length.hpp>
#include <boost/units/systems/si/power.hpp>
#include <boost/units/systems/si/resistance.hpp>
#include <boost/units/systems/si/volume.hpp>
#include <cmath>
#include <string_view>

namespace pullproof {

namespace si = boost::units::si;
template <class U>
using Quantity = boost::units::quantity<U, double>;

using Length = Quantity<si::length>;
using Area = Quantity<si::area>;
using Volume = Quantity<si::volume>;
using Current = Quantity<si::current>;
using Voltage = Quantity<si::electric_potential>;
using Resistance = Quantity<si::resistance>;  ///< also reactance and the magnitude of an impedance
using Power = Quantity<si::power>;            ///< watts and volt-amperes; which of the two, the field's name says
using ResistancePerLength =
    Quantity<boost::units::divide_typeof_helper<si::resistance, si::length>::type>;

/// A temperature as a point on the scale, in °C. Differences are plain numbers of kelvin.
struct Temperature {
  double celsius = 0;
  friend constexpr bool operator==(Temperature, Temperature) = default;
};

/// An angle in degrees, as bends are counted.
struct Angle {
  double degrees = 0;
  friend constexpr bool operator==(Angle, Angle) = default;
};

/// The output of a motor as its nameplate names it: a label for tables, not the power that it draws.
struct Horsepower {
  double value = 0;
  friend constexpr bool operator==(Horsepower, Horsepower) = default;
};

/// A tightening torque, in newton metres.
struct Torque {
  double newton_metres = 0;
  friend constexpr bool operator==(Torque, Torque) = default;
};

/// How fast a bus sends, in bits in a second.
struct BitRate {
  double bits_per_second = 0;
  friend constexpr bool operator==(BitRate, BitRate) = default;
};

template <class U>
constexpr double raw(Quantity<U> q) { return q.value(); }
constexpr double raw(double x) { return x; }
constexpr double raw(Temperature t) { return t.celsius; }
constexpr double raw(Horsepower h) { return h.value; }
constexpr double raw(Torque t) { return t.newton_metres; }
constexpr double raw(Angle a) { return a.degrees; }
constexpr double raw(BitRate b) { return b.bits_per_second; }

template <class Q>
constexpr Q from_raw(double si) {
  if constexpr (std::is_same_v<Q, double>) return si;
  else if constexpr (std::is_same_v<Q, Temperature>) return Temperature{si};
  else if constexpr (std::is_same_v<Q, Angle>) return Angle{si};
  else if constexpr (std::is_same_v<Q, Horsepower>) return Horsepower{si};
  else if constexpr (std::is_same_v<Q, Torque>) return Torque{si};
  else if constexpr (std::is_same_v<Q, BitRate>) return BitRate{si};
  else return Q::from_value(si);
}

/// How a quantity is shown: its unit's name, the size of that unit in SI, and the decimals kept at most
/// (trailing zeros are dropped). Decimals are chosen so that a reader can redo the sums from what is printed.
template <class Q>
struct Unit {
  std::string_view name;
  double in_si;
  int decimals;
  constexpr double show(Q q) const { return raw(q) / in_si; }
  constexpr Q of(double shown) const { return from_raw<Q>(shown * in_si); }
};

namespace units {
inline constexpr Unit<Current> ampere{"A", 1, 3};
inline constexpr Unit<Current> milliampere{"mA", 1e-3, 2};
inline constexpr Unit<Current> kiloampere{"kA", 1e3, 3};
inline constexpr Unit<Voltage> volt{"V", 1, 3};
inline constexpr Unit<Power> watt{"W", 1, 2};
inline constexpr Unit<Power> kilowatt{"kW", 1e3, 4};
inline constexpr Unit<Power> volt_ampere{"VA", 1, 2};
inline constexpr Unit<Resistance> ohm{"ohm", 1, 5};
inline constexpr Unit<ResistancePerLength> ohm_per_kft{"ohm/kft", 1 / 304.8, 5};
inline constexpr Unit<ResistancePerLength> ohm_per_km{"ohm/km", 1e-3, 5};
inline constexpr Unit<Length> foot{"ft", 0.3048, 3};
inline constexpr Unit<Length> inch{"in", 0.0254, 4};
inline constexpr Unit<Length> metre{"m", 1, 3};
inline constexpr Unit<Area> square_inch{"in²", 0.0254 * 0.0254, 4};
inline constexpr Unit<Area> square_foot{"ft²", 0.3048 * 0.3048, 1};
inline constexpr Unit<Volume> cubic_inch{"in³", 0.0254 * 0.0254 * 0.0254, 3};
inline constexpr Unit<Temperature> celsius{"°C", 1, 2};
inline constexpr Unit<Angle> degree{"°", 1, 1};
inline constexpr Unit<Torque> inch_pound{"in-lb", 0.1129848290276167, 2};
inline constexpr Unit<BitRate> kilobit{"kbit/s", 1e3, 3};
inline constexpr Unit<Resistance> megohm{"Mohm", 1e6, 3};
inline constexpr Unit<Horsepower> horsepower{"hp", 1, 4};
inline constexpr Unit<double> percent{"%", 0.01, 3};  ///< the value is a ratio, shown times 100
inline constexpr Unit<double> ratio{"", 1, 5};
inline constexpr Unit<double> factor{"", 1, 4};
inline constexpr Unit<double> count{"", 1, 3};
inline constexpr Unit<double> circular_mil{"cmil", 1, 0};
}  // namespace units

/// Limits are compared through these two alone: equality at a printed limit must not hang on the last bit.
inline constexpr double slack = 1e-9;
template <class Q>
constexpr bool at_most(Q value, Q limit) {
  const double l = raw(limit);
  return raw(value) <= l + (l < 0 ? -l : l) * slack;
}
template <class Q>
constexpr bool at_least(Q value, Q limit) {
  const double l = raw(limit);
  return raw(value) >= l - (l < 0 ? -l : l) * slack;
}

}  // namespace pullproof
