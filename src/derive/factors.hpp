#pragma once
// What the surroundings of a conductor do to its ampacity: the heat of the air and the company it keeps.
#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// The factor for the ambient of a stretch on a column, 60, 75 or 90. Close above a sunny roof the edition's addition
/// comes first, in the unit of the case: the bands of °C and °F and the two additions are not conversions of one
/// another. Throws Stop (fails) where no current is permitted. An ambient that is not given is taken, aloud, as the
/// table's own, but in attics and on roofs it has to be given.
Traced<double> ambient_factor(Context& cx, const Stretch& s, std::string_view insulation, int column);

/// The factor for the number of conductors that carry current together: of everything in a raceway, or of cables in
/// a bundle. 1 in a short raceway between enclosures.
Traced<double> count_factor(Context& cx, const Line& line, const Stretch& s, const Conductors& k);

/// Conductors that count in a raceway, over everything in it.
double counted_in(Context& cx, const Raceway& r);

/// Whether so many cables of this type lie together in thermal insulation that their article counts them together
/// over any length.
bool crowded_in_insulation(const Context& cx, const Cable& k);

}  // namespace pullproof::derive
