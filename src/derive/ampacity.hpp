#pragma once
// Ampacity of a circuit's conductors, stretch by stretch.
#include <vector>

#include "derive/factors.hpp"
#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// The temperature column that the terminals at both ends allow, and the panel's where its marking is given: 60 or
/// 75, since equipment for 90 °C is never taken for granted.
struct Terminals {
  int column = 60;
  int device_column = 60;  ///< of the end where the device is, which is what 125 % of a continuous load is about
  bool low = true;  ///< the circuit is in the band where unmarked terminals take the lower column
  StepId why = no_step;
};
/// Unmarked terminals take the edition's default by the rating of the device (or the load where it is not given).
Terminals terminals_of(Context& cx, const Circuit& c, Current rating);

/// The ampacity of one stretch.
struct StretchAmpacity {
  const Stretch* stretch = nullptr;
  Conductors conductors;
  Traced<Current> before_factors;  ///< of the insulation's column, uncorrected; all sets
  Traced<Current> corrected;       ///< insulation column times ambient and count
  Traced<Current> terminal;        ///< the plain terminal column; no factor is applied to it
  std::optional<Traced<Current>> cable;  ///< the plain column that the cable's article ends with
  Traced<Current> usable;          ///< the lowest of corrected, terminal and cable
  Traced<Current> plain;           ///< the lowest of before_factors, terminal and cable, for the continuous-load test
  Traced<Current> plain_at_device; ///< the same with the column of the device's end alone
  int column = 0;                  ///< of the insulation in this place
  bool cord = false;               ///< a flexible cord, which has a table and protection rules of its own
  bool borrows = true;             ///< may keep the ampacity of the rest where it is a short weaker part
};

/// Which of the factors of a place to leave out: 250.122(B) asks for the size without them.
enum class Factors : std::uint8_t { all, none };

/// Throws Stop where something is missing, where the insulation may not be in the place or the ambient leaves no
/// ampacity (fails), and where the tables have no cell for the size (not covered).
StretchAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, const Stretch& s, const Terminals& t,
                            Factors factors = Factors::all);

/// The ampacity of the circuit, its taps left out: its weakest stretch, but for a short part that may keep its neighbours' ampacity.
struct CircuitAmpacity {
  std::vector<StretchAmpacity> stretches;
  std::size_t governing = 0;
  Traced<Current> usable;
  Traced<Current> plain, plain_at_device;  ///< the lowest of the stretches', before any factor
};
CircuitAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, Factors factors = Factors::all);

/// The rating by which terminals are judged: the device's, else the load's current.
Current rating_of(Context& cx, const Circuit& c, const Line& line);

/// The column name of the ampacity table for a metal and a temperature: "cu-75".
std::string ampacity_column(Material m, int column);

}  // namespace pullproof::derive
