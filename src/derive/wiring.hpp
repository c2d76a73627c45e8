#pragma once
// What a stretch of a circuit's path is made of.
#include "derive/line.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// The circuit conductors on one stretch, with what the stretch says over what the circuit says.
struct Conductors {
  Given<ConductorSize> size;
  Material material = Material::copper;
  std::string_view type;  ///< insulation type, a row of the insulation table; empty when not known
  bool fixture = false;   ///< the type is a fixture wire
  Where type_where;
  bool compact = false, coated = false, solid = false;
  std::optional<bool> covering;
  double sets = 1;  ///< in parallel
  Given<Length> diameter;
  Given<Temperature> temperature;
  const Cable* cable = nullptr;
  const Raceway* raceway = nullptr;
};

/// Copper where no metal is given, aloud. Needs `wire.size`.
Conductors conductors_on(Context& cx, const Circuit& c, const Stretch& s);

/// The equipment grounding conductor on one stretch.
struct GroundOn {
  bool wire = false;     ///< a wire is run; else the raceway or nothing
  bool raceway = false;  ///< the case says that the raceway is the grounding conductor
  const Circuit* shared = nullptr;  ///< the wire is that of another circuit; no wire if that one does not run here
  Given<ConductorSize> size;
  Material material = Material::copper;
  std::string_view type;
  bool bare = false, compact = false;
  Given<Length> diameter;
  Where where;
};
GroundOn ground_on(Context& cx, const Circuit& c, const Stretch& s);

/// Name of a stretch for messages.
std::string_view name_of(const Stretch& s);
/// Length of a stretch; needs it.
const Given<Length>& length_of(Context& cx, const Stretch& s);
/// The place of a stretch, if it is given.
const Given<Place>& place_of(const Stretch& s);

/// Sets in parallel that run in one raceway of a stretch: all of them, or their share where raceways alike run side by
/// side. Needs sets that divide evenly.
double sets_in_one(const Context& cx, const Circuit& c, const Stretch& s);

/// The raceway that a stretch runs in: its own, or the one that its cable is pulled into; null for a cable alone.
const Raceway* raceway_around(const Context& cx, const Stretch& s);

/// The moisture that conductors meet in a raceway or cable: raceways outdoors and underground are wet inside, and a
/// cable in a raceway meets the worse of both. A place that says nothing about moisture indoors is taken as dry, aloud.
struct MoistureFound {
  Moisture moisture = Moisture::dry;
  StepId why = no_step;
  std::string_view rule;  ///< the rule that says so; empty where it was assumed
};
MoistureFound moisture_in(Context& cx, const Stretch& s);
std::string_view moisture_word(Moisture m);

/// Whether the circuit runs through this raceway, also inside a cable that is pulled into it.
bool runs_in(const Circuit& c, const Raceway& r);
/// The circuit's stretch in this raceway, or null.
const Stretch* stretch_in(const Circuit& c, const Raceway& r);

}  // namespace pullproof::derive
