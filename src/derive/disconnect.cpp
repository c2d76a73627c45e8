#include "derive/disconnect.hpp"

#include "derive/load.hpp"
#include "derive/motor.hpp"

namespace pullproof::derive {

std::string_view disconnect_rule(Context& cx, const Circuit& c) {
  if (const std::string_view rule = appliance_word(cx, c, "disconnect"); !rule.empty()) return rule;
  if (has_motors(c)) return circuit_kind(cx, c) == "cooling" ? "cooling-disconnect" : "motor-disconnect";
  if (c.load.receptacles.value_or(false)) return {};
  cx.needs_input("load.appliance", "what it feeds decides which disconnect it needs");
}

bool feeds_unknown(const Circuit& c) { return !c.load.appliance && !has_motors(c) && !c.load.receptacles.value_or(false); }

bool small_charger(Context& cx, const Circuit& c) {
  const Line line = line_of(cx, c);
  const auto volts = cx.parameter("vehicle-charger-disconnect", "voltage", units::volt);
  return at_most(line.to_ground, volts) &&
         at_most(load_current(cx, c, line).value, cx.parameter("vehicle-charger-disconnect", "current", units::ampere));
}

bool described(const Disconnect& d) { return static_cast<bool>(d.where); }

std::optional<Sight> sight_of(Context& cx, const Disconnect& d) {
  Sight out;
  if (d.distance) {
    out.distance = cx.given("distance to the disconnect", "L", d.distance, units::foot);
    out.limit = cx.parameter("in-sight", "distance", "distance that is in sight", "Ls", units::foot);
    if (!at_most(out.distance->value, out.limit->value)) return out;
  }
  if (!d.within_sight) return std::nullopt;
  out.within = *d.within_sight;
  return out;
}

void wait_for_sight(Context& cx, const Disconnect& d, const Citation& cite) {
  Context quiet = cx.scratch();
  if (const auto sight = sight_of(quiet, d); sight && !sight->within)
    cx.fails_in("disconnect", "the disconnect is not in sight of the equipment", "put one in sight of it first", cite, d.where);
}

const Given<Place>* disconnect_place(const Circuit& c) {
  if (c.disconnect.place) return &c.disconnect.place;
  if (!c.disconnect.kind || *c.disconnect.kind == DisconnectKind::breaker || *c.disconnect.kind == DisconnectKind::plug) return nullptr;
  return &c.load.place;
}

}  // namespace pullproof::derive
