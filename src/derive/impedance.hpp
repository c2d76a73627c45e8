#pragma once
// Resistance and reactance of the circuit conductors on a stretch.
#include "derive/line.hpp"
#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// Of one conductor, one way; of all sets together where there are several in parallel.
struct Impedance {
  Traced<Resistance> resistance, reactance;
  Traced<Length> length;
  Citation cite;  ///< where the resistance comes from
};

/// Direct current, and 10 AWG and smaller: resistance of the dc table, solid or stranded, bare or tinned. Larger
/// ones with alternating current: resistance of the ac table, by what is around them. Reactance of the ac table in
/// either case, none with direct current. At the tables' temperature unless the case gives the conductor's.
///
/// Copper-clad aluminum counts as aluminum, and a size that the ac table does not list as the next smaller one that
/// it does, both on the safe side and aloud. Needs the length of the stretch and the type of its raceway or cable.
Impedance impedance_of(Context& cx, const Line& line, const Stretch& s, const Conductors& k);

/// What the ac table's columns are named after: "steel", "aluminum", "pvc".
std::string_view surroundings_of(Context& cx, const Stretch& s);

}  // namespace pullproof::derive
