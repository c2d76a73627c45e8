#pragma once
// Ampacity of a circuit's conductors, stretch by stretch.
#include <vector>

#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// The temperature column that the terminals at both ends allow, 60, 75 or 90.
struct Terminals {
  int column = 60;
  StepId why = no_step;
};
/// Unmarked terminals take the edition's default by the rating of the device (or the load where it is not given).
Terminals terminals_of(Context& cx, const Circuit& c, Current rating);

/// The ampacity of one stretch.
struct StretchAmpacity {
  const Stretch* stretch = nullptr;
  Conductors conductors;
  Traced<Current> before_factors;  ///< of the insulation's column, uncorrected, for the continuous-load test
  Traced<Current> corrected;       ///< insulation column times ambient and count
  Traced<Current> terminal;        ///< the plain terminal column; no factor is applied to it
  std::optional<Traced<Current>> cable;  ///< the plain column that the cable's article ends with
  Traced<Current> usable;          ///< the lowest of them
  int column = 0;                  ///< of the insulation in this place
};

/// Which of the factors of a place to leave out: 250.122(B) asks for the size without them.
enum class Factors : std::uint8_t { all, none };

/// Throws Stop where something is missing, where the insulation may not be in the place (not covered: there is no
/// column), or where the ambient leaves no ampacity.
StretchAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, const Stretch& s, const Terminals& t,
                            Factors factors = Factors::all);

/// The ampacity of the circuit: its weakest stretch, but for a short part that may keep its neighbours' ampacity.
struct CircuitAmpacity {
  std::vector<StretchAmpacity> stretches;
  std::size_t governing = 0;
  Traced<Current> usable;
};
CircuitAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, Factors factors = Factors::all);

/// Conductors that count in a raceway, over everything in it.
double counted_in(Context& cx, const Raceway& r);

/// The rating by which terminals are judged: the device's, else the load's current.
Current rating_of(Context& cx, const Circuit& c, const Line& line);

/// The column name of the ampacity table for a metal and a temperature: "cu-75".
std::string ampacity_column(Material m, int column);

}  // namespace pullproof::derive
