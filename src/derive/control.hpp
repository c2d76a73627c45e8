#pragma once
// What a control run is made of: its class, its length, its conductors.
#include <functional>

#include "engine/context.hpp"

namespace pullproof::derive {

/// 1, 2 or 3: the class whose wiring rules bind. A reclassified run is Class 1, whatever feeds it. Needs
/// `control.source.class`.
int wiring_class(Context& cx, const Control& c);
/// As `wiring_class`, nothing where the case does not say.
std::optional<int> known_class(const Control& c);

/// What a run is reckoned in: feet and AWG, or metres and mm².
struct ControlUnits {
  Unit<Length> length;
  Unit<ResistancePerLength> resistance;
};
ControlUnits units_of(const Control& c);
/// A length a person can keep to: whole feet or tenths of a metre, rounded down.
std::string_view length_text(Context& cx, const Control& c, Length l);

/// What a limit of the maker is called, with the manual where the case names it: "longest run that the maker allows
/// (installation manual, page 12)".
std::string_view by_the_manual(Context& cx, const Control& c, std::string_view what);

/// One way: as given, else the sum of the raceways on its path. Needs one of them.
Traced<Length> run_length(Context& cx, const Control& c);
/// The raceways on the path together, where all of them have a length.
std::optional<Length> path_length(const Control& c);

/// Whether all of the run is known to lie in the raceways on its path.
bool wholly_in_raceway(const Control& c);

/// The voltage that the cable is insulated for: as given, else that of its type. Needs one of them.
Traced<Voltage> cable_insulation(Context& cx, const Control& c);

/// Both conductors of the run at their temperature, and the loop they make.
struct Loop {
  Traced<Length> length;  ///< one way
  Traced<ResistancePerLength> own, common;  ///< of the device's conductor and of the one it returns through
  Traced<Resistance> resistance;            ///< out and back
  bool alike = true;                        ///< both are of one size
};
Loop loop_of(Context& cx, const Control& c);

/// The smallest size of the trade that would do for both conductors at this temperature, in the words of the trade
/// ("16 AWG"); empty when none does. Works on a sheet of its own.
std::string_view smallest_size(const Context& cx, const Control& c, const std::function<bool(ResistancePerLength)>& does);

}  // namespace pullproof::derive
