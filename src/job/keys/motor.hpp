#pragma once
// Keys of a load's motors. Limits in SI units.
#include "job/motor.hpp"

namespace pullproof {

template <class V>
void describe(V& v, Motor& m) {
  v.field("name", m.name, "what it drives");
  v.field("horsepower", m.horsepower, "as marked, \"1/2 hp\"", 0.01, 2000);
  v.field("kind", m.kind, "single-phase, polyphase, polyphase design B, synchronous, wound rotor or direct current");
  v.field("nameplate_current", m.nameplate_current, "full-load amperes as marked", 0.01, 6000);
  v.field("rated_load_current", m.rated_load_current, "of a compressor: rated-load amperes", 0.01, 6000);
  v.field("branch_selection_current", m.branch_selection_current, "of a compressor: branch-circuit selection current", 0.01, 6000);
  v.field("service_factor", m.service_factor, "as marked", 0.5, 3);
  v.field("temperature_rise", m.temperature_rise, "as marked, \"40 °C\"", 1, 200);
  v.field("overload", m.overload, "setting or rating of its overload device", 0.01, 6000);
  v.field("thermally_protected", m.thermally_protected, "true when it is marked thermally protected (T.P.) or impedance protected (Z.P.)");
}

}  // namespace pullproof
