#include "derive/disconnect.hpp"
#include "derive/feeding.hpp"
#include "derive/load.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// What is needed of a disconnect, as a change says it.
std::string_view in_sight(Context& cx) {
  return cx.text("put a switch or breaker in sight of it, within {} ft",
                 number_text(units::foot.show(cx.parameter("in-sight", "distance", units::foot)), 1));
}

/// The rule to cite for an ordinary appliance: small ones have one of their own.
std::string_view sized_rule(Context& cx, const Circuit& c, std::string_view rule) {
  if (rule != "disconnect-appliance" || !derive::has_load(c)) return rule;
  Context quiet = cx.scratch();
  const derive::Line line = derive::line_of(quiet, c);
  const double va = raw(derive::load_current(quiet, c, line).value) * raw(line.volts);
  return at_most(va, raw(cx.parameter("disconnect-small", "power", units::volt_ampere))) ? "disconnect-small" : rule;
}

void plugged_in(Context& cx, const Circuit& c, std::string_view rule) {
  const bool room = rule == "room-air-conditioner-plug", cooling = rule == "cooling-disconnect", motor = rule == "motor-disconnect";
  const std::string_view name = room ? rule : cooling ? "cooling-plug" : motor ? "motor-disconnect-type" : "disconnect-plug";
  const Citation cite = cx.cite(name);
  const Given<bool>& reach = c.receptacle.readily_accessible;
  const std::string_view appliance = c.load.appliance.value_or("");
  const bool drawer = cx.listed("disconnect-plug", "drawer", appliance);
  const bool moved = !c.load.fastened.value_or(!cx.listed("disconnect-plug", "moved", appliance));
  if (reach && !*reach && !drawer && moved) {
    cx.pass("the plug is reached by moving the appliance, and is the disconnect", cite, c.disconnect.kind.where);
    return;
  }
  if (reach && !*reach && !drawer) {
    cx.fail("the plug cannot be reached, so it is no disconnect", "put the receptacle where the plug can be reached, or give it a breaker that can be locked open", cite, reach.where);
    return;
  }
  if (room && c.load.controls_within_reach && !*c.load.controls_within_reach) {
    cx.fail("the controls of the room unit are out of reach, so its plug is no disconnect", "put a switch in sight of it that is readily accessible", cite,
            c.load.controls_within_reach.where);
    return;
  }
  if (room && !c.load.controls_within_reach)
    cx.assume("controls", "load.controls_within_reach is not given: the controls are taken to be low enough and reachable", cite);
  if (!reach) cx.assume("plug", "receptacle.readily_accessible is not given: the plug is taken to be accessible", cite);
  cx.pass("the plug is the disconnect", cite, c.disconnect.kind.where);
}

/// Locking that does: in place with and without the lock. Fails and returns false where it does not stay.
bool lock_does(Context& cx, const Disconnect& d) {
  if (!d.lockable.value_or(false)) return false;
  if (!d.lock_stays) {
    cx.assume("lock", "disconnect.lock_stays is not given: what takes the lock is taken to stay in place without it", cx.cite("lockable"));
    return true;
  }
  return *d.lock_stays;
}

/// What a unit switch comes to: true where it serves.
bool unit_switch(Context& cx, const Circuit& c) {
  const Disconnect& d = c.disconnect;
  const Citation cite = cx.cite("disconnect-unit-switch");
  if (!cx.need(d.marked_off, "disconnect.marked_off", "a unit switch counts only with a marked off position that opens all ungrounded conductors")) {
    cx.fail("the unit switch has no marked off position that opens all ungrounded conductors", in_sight(cx), cite, d.marked_off.where);
    return false;
  }
  const auto families = derive::families_of(cx);
  std::string_view kind = families ? word(*families) : "other";
  std::string key(kind);
  std::replace(key.begin(), key.end(), ' ', '-');
  // In a one-family house the service disconnect always is the other means.
  const auto other = d.other_means;
  if (!other && families != Occupancy::one_family) cx.needs_input("disconnect.other_means", "a unit switch counts only beside another disconnect");
  const std::string_view means = other ? word(*other) : word(OtherMeans::service);
  if (cx.listed("disconnect-unit-switch", key, means)) {
    cx.pass(cx.text("the unit switch serves, with the other means '{}'", means), cite, d.kind.where);
    return true;
  }
  cx.fail(cx.text("a unit switch with the other means '{}' does not do ({})", means, kind), in_sight(cx), cite, d.kind.where);
  return false;
}

void judge(Context& cx, const Circuit& c, std::string_view rule) {
  const Disconnect& d = c.disconnect;
  const Citation cite = cx.cite(rule);
  const std::string_view kind = word(*d.kind);
  const auto sight = derive::sight_of(cx, d);
  const bool within = sight && sight->within;
  const bool must_see = rule == "cooling-disconnect" || rule == "room-air-conditioner-plug" || rule == "motor-disconnect";
  const auto far = [&](std::string_view change) {
    const std::string_view lock = d.lockable.value_or(false) ? ", and a lock does not take the place of that here" : "";
    if (sight && sight->distance && !at_most(sight->distance->value, sight->limit->value)) {
      Finding& f = cx.require(*sight->distance, Must::at_most, *sight->limit, cite, d.distance.where);
      f.change = change;
      return;
    }
    cx.fail(cx.text("the {} is not in sight{}", kind, must_see ? lock : " and cannot be locked open"), change, cite,
            d.within_sight ? d.within_sight.where : d.where);
  };
  const auto seen = [&] {
    if (sight->distance) cx.require(*sight->distance, Must::at_most, *sight->limit, cite, d.distance.where);
    else cx.pass(cx.text("the {} is in sight", kind), cite, d.within_sight.where);
  };
  if (rule == "cooling-disconnect" || rule == "room-air-conditioner-plug") {
    if (!sight) cx.needs_input("disconnect.within_sight", "it has to be visible from the equipment and near");
    if (!within) return far(in_sight(cx));
    if (d.readily_accessible && !*d.readily_accessible) {
      cx.fail(cx.text("the {} is not readily accessible", kind), "put it where it is reached without a ladder and past nothing", cite, d.readily_accessible.where);
      return;
    }
    if (!d.readily_accessible) cx.assume("access", "disconnect.readily_accessible is not given: it is taken to be", cite);
    return seen();
  }
  if (rule == "motor-disconnect") {
    if (!sight) cx.needs_input("disconnect.within_sight", "it has to be visible from the motor and what it drives, and near");
    if (within) return seen();
    if (d.impracticable.value_or(false) && lock_does(cx, d)) {
      cx.pass(cx.text("one in sight would be impracticable or add a hazard, and the {} can be locked open", kind), cite, d.impracticable.where);
      return;
    }
    return far(in_sight(cx));
  }
  if (within) return seen();
  if (lock_does(cx, d)) {
    cx.pass(cx.text("the {} can be locked open, so it may be out of sight", kind), cx.cite("lockable"), d.lockable.where);
    return;
  }
  if (d.lockable.value_or(false)) {
    cx.fail("what takes the lock does not stay in place without it", "use a lock-off device that stays on the breaker or switch", cx.cite("lockable"), d.lock_stays.where);
    return;
  }
  if (!sight) cx.needs_input("disconnect.within_sight", "it has to be in sight of the appliance, or lockable open");
  if (!d.lockable) cx.needs_input("disconnect.lockable", "out of sight it has to be lockable open");
  far("make it lockable open with a device that stays in place, or put a disconnect in sight of it");
}

void charger(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("vehicle-charger-disconnect");
  if (derive::small_charger(cx, c)) {
    cx.not_applicable("a charger of this current and voltage needs no disconnect of its own", cite);
    return;
  }
  const Disconnect& d = c.disconnect;
  if (!derive::described(d)) cx.needs_input("circuit.disconnect", "a charger of this current or voltage needs a readily accessible disconnect that locks open");
  if (d.kind && *d.kind == DisconnectKind::none) {
    cx.fail("the charger has no disconnect", "give it a readily accessible switch or breaker that locks open", cite, d.kind.where);
    return;
  }
  if (!cx.need(d.readily_accessible, "disconnect.readily_accessible", "that of a large charger has to be")) {
    cx.fail("the disconnect of the charger is not readily accessible", "put it where it is reached at once", cite, d.readily_accessible.where);
    return;
  }
  cx.need(d.lockable, "disconnect.lockable", "that of a large charger has to be");
  if (lock_does(cx, d)) cx.pass("the disconnect of the charger is readily accessible and locks open", cite, d.where);
  else cx.fail("the disconnect of the charger cannot be locked open with a device that stays", "use one that locks open", cite, d.lockable.where);
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  std::string_view rule = derive::disconnect_rule(cx, c);
  if (rule.empty()) {
    cx.not_applicable("receptacles need no disconnect of their own");
    return;
  }
  const Disconnect& d = c.disconnect;
  if (rule == "vehicle-charger-disconnect") return charger(cx, c);
  if (!d.kind || *d.kind == DisconnectKind::plug) {
    const auto connection = derive::connection_of(cx, c);
    if (connection == Connection::plug) return plugged_in(cx, c, rule);
    if (d.kind && *d.kind == DisconnectKind::plug) cx.unclear("disconnect.kind", "the load is hard-wired, and its disconnect is a plug", d.kind.where);
  }
  if (!derive::described(d)) cx.needs_input("circuit.disconnect", "every appliance and motor has a disconnect: say what it is, and whether it is in sight or lockable open");
  rule = sized_rule(cx, c, rule);
  cx.need(d.kind, "disconnect.kind", "what turns the load off");
  const Citation cite = cx.cite(rule);
  if (*d.kind == DisconnectKind::none) {
    cx.fail("there is no disconnect", in_sight(cx), cite, d.kind.where);
    return;
  }
  const Given<double>& poles = *d.kind == DisconnectKind::breaker && !d.poles ? c.breaker.poles : d.poles;
  if (poles) {
    const int hots = derive::line_of(cx, c).hots;
    const bool breaker = *d.kind == DisconnectKind::breaker;
    const bool tied = breaker && c.breaker.handle_ties.value_or(false);
    if (*poles < hots && breaker && !d.poles && !tied)
      cx.fails_in(c.multiwire.value_or(false) ? "multiwire" : "supply-voltage",
                  cx.text("it opens {} of {} ungrounded conductors", number_text(*poles, 0), hots), cx.text("use one with {} poles", hots),
                  cx.cite("breaker-poles"), poles.where);
    if (*poles < hots && !tied) {
      cx.fail(cx.text("it opens {} of {} ungrounded conductors", number_text(*poles, 0), hots), cx.text("use one with {} poles", hots),
              cx.cite(*d.kind == DisconnectKind::breaker ? "breaker-poles" : "appliance-disconnect"), poles.where);
      return;
    }
  }
  if (*d.kind == DisconnectKind::unit_switch) {
    if (cx.listed("disconnect-unit-switch", "rules", rule == "disconnect-small" ? "disconnect-appliance" : rule)) {
      unit_switch(cx, c);
      return;
    }
    cx.fail("a unit switch does not do for this equipment", in_sight(cx), cite, d.kind.where);
    return;
  }
  judge(cx, c, rule);
}

}  // namespace

extern const Check check_disconnect{
    .id = "disconnect",
    .title = "Disconnecting means",
    .family = Family::disconnects,
    .about = "Whoever works on an appliance has to be able to turn it off and know that it stays off. Most fixed appliances and "
             "heaters need a disconnect in sight, that is visible and within 50 ft, or one that locks open with a device that "
             "stays in place. Cooling equipment and motors need one in sight: a lockable breaker at the panel does not do. A plug "
             "that can be reached does for what is plugged in; an appliance's own switch only where another disconnect stands "
             "behind it; a charger needs one only above a current or voltage. Several supplies to one appliance are not looked at.",
    .formula = "distance <= what is in sight",
    .reads = "load.appliance, load.connection, load.motors, load.receptacles, load.controls_within_reach, disconnect.kind, disconnect.within_sight, "
             "disconnect.distance, disconnect.lockable, disconnect.lock_stays, disconnect.readily_accessible, disconnect.poles, "
             "disconnect.marked_off, disconnect.other_means, disconnect.impracticable, receptacle.readily_accessible, breaker.poles, supply.occupancy",
    .rules = "appliances, appliance-disconnect, disconnect-small, disconnect-appliance, disconnect-motor-appliance, disconnect-plug, "
             "disconnect-unit-switch, space-heating-disconnect, cooling-disconnect, cooling-plug, room-air-conditioner-plug, motor-disconnect, "
             "motor-disconnect-type, vehicle-charger-disconnect, in-sight, lockable, breaker-poles",
    .run = run};

}  // namespace pullproof
