#include <algorithm>

#include "calc/disconnect.hpp"
#include "calc/load.hpp"
#include "derive/disconnect.hpp"
#include "derive/feeding.hpp"
#include "derive/load.hpp"
#include "derive/motor.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

struct Rating {
  Traced<Current> value;
  Where where;
};

/// The rating of what disconnects: its own, that of the circuit's breaker, or that of the receptacle of a plug.
Rating rating_of(Context& cx, const Circuit& c, DisconnectKind kind) {
  const bool breaker = kind == DisconnectKind::breaker && !c.disconnect.rating, plug = kind == DisconnectKind::plug && !c.disconnect.rating;
  const Given<Current>& given = breaker ? c.breaker.rating : plug ? c.receptacle.rating : c.disconnect.rating;
  cx.need(given, breaker ? "breaker.rating" : plug ? "receptacle.rating" : "disconnect.rating", "it is held against the load");
  return {cx.given(cx.text("rating of the {}", plug ? "receptacle" : word(kind)), "Id", given, units::ampere), given.where};
}

/// The smallest rating that one is made with and that does; of a kind made in many ratings, what is needed.
std::string rating_made(const Context& cx, std::optional<DisconnectKind> kind, Current need) {
  const bool plug = kind == DisconnectKind::plug;
  const auto rule = cx.edition().rule(plug ? "receptacle-ratings" : "switch-ratings");
  const bool made_so = kind && *kind != DisconnectKind::breaker && *kind != DisconnectKind::molded_case_switch;
  if (rule && made_so)
    for (const code::CellRef& item : rule->list(kind == DisconnectKind::snap_switch ? "snap" : "ratings"))
      if (const Measured m = read_quantity(item.text(), Dimension::current); m.ok && at_least(Current::from_value(m.si), need)) return std::string(item.text());
  return fmt::format("{} A", number_text(raw(need), 2));
}

void hold(Context& cx, const Circuit& c, const Rating& rating, const Traced<Current>& need, const Citation& cite, std::string_view what) {
  Finding& f = cx.require(rating.value, Must::at_least, need, cite, rating.where);
  const std::optional<DisconnectKind> kind = c.disconnect.kind ? std::optional(*c.disconnect.kind) : std::optional(DisconnectKind::plug);
  if (f.verdict == Verdict::fail) f.change = cx.text("use {} of at least {}", what, rating_made(cx, kind, need.value));
}

/// The share of the load by the rule that has one.
Traced<Current> share(Context& cx, std::string_view rule, const Traced<Current>& load) {
  const auto k = cx.parameter(rule, "percent", "share that the disconnect needs", "k", units::percent);
  return cx.apply(calc::disconnect_share, units::ampere, cx.cite(rule), k, load);
}

/// Only the marked minimum is known: it raises the largest motor alone, so the running current is somewhere below.
void by_marked_minimum(Context& cx, const Circuit& c, std::string_view rule, const Rating& rating) {
  const auto k = cx.parameter(rule, "percent", "share that the disconnect needs", "k", units::percent);
  const auto marked = cx.given("marked minimum circuit ampacity", "MCA", c.load.minimum_circuit_ampacity, units::ampere);
  const auto raised = cx.parameter("cooling-conductor", "percent", "share by which the minimum raises the largest motor", "r", units::percent);
  const auto enough = cx.apply(calc::most_disconnect_share, units::ampere, cx.cite(rule), k, marked);
  const auto running = cx.apply(calc::least_running, units::ampere, cx.cite("marked-minimum"), marked, raised);
  const auto least = cx.apply(calc::disconnect_share, units::ampere, cx.cite(rule), k, running);
  if (at_least(rating.value.value, enough.value)) return hold(cx, c, rating, enough, cx.cite(rule), "a disconnect");
  if (!at_least(rating.value.value, least.value)) return hold(cx, c, rating, least, cx.cite(rule), "a disconnect");
  cx.needs_input("load.motors", cx.text("behind a minimum of {} A the disconnect needs {} to {} A, by the rated-load currents of the motors",
                                        number_text(raw(marked.value), 2), number_text(raw(least.value), 2), number_text(raw(enough.value), 2)));
}

/// Types of switch for a motor.
void motor_type(Context& cx, const Circuit& c, DisconnectKind kind, const derive::Line& line, const Traced<Current>& running, const Rating& rating) {
  constexpr std::string_view rule = "motor-disconnect-type";
  const Citation cite = cx.cite(rule);
  double hp = 0;
  for (const Motor& m : c.load.motors) hp += m.horsepower ? raw(*m.horsepower) : 0;
  if (kind == DisconnectKind::snap_switch) {
    const auto k = cx.parameter(rule, "snap-percent", "share of a snap switch's rating", "k", units::percent);
    const auto most = cx.apply(calc::share_of_rating, units::ampere, cite, k, rating.value);
    Finding& f = cx.require(running, Must::at_most, most, cite, rating.where);
    if (f.verdict == Verdict::fail) f.change = "use a larger snap switch, or a switch rated in horsepower";
    return;
  }
  if (c.disconnect.horsepower) {
    if (hp <= 0) return;
    const auto rated = cx.given("horsepower rating of the disconnect", "Pd", c.disconnect.horsepower, units::horsepower);
    const auto together = c.load.motors.size() > 1 ? derive::combined_horsepower(cx, c, line) : std::nullopt;
    const auto driven = together ? *together : cx.working().choice("horsepower of the motors", "P", Horsepower{hp}, units::horsepower, "as marked", {});
    Finding& f = cx.require(rated, Must::at_least, driven, together ? cx.cite("motor-disconnect-combination") : cite, c.disconnect.horsepower.where);
    if (f.verdict == Verdict::fail) f.change = cx.text("use a disconnect of at least {} hp", number_text(raw(driven.value), 2));
    return;
  }
  if (kind != DisconnectKind::switch_ && kind != DisconnectKind::fusible_switch) return;
  const bool small = hp > 0 && at_most(hp, raw(cx.parameter(rule, "small", units::horsepower))) &&
                     at_most(line.volts, cx.parameter(rule, "small-voltage", units::volt));
  if (!small) cx.needs_input("disconnect.horsepower", "the switch of a motor is rated in horsepower, except for small motors");
  const auto m = cx.parameter(rule, "switch-ratio", "times the motor's current", "m", units::count);
  hold(cx, c, rating, cx.apply(calc::switch_ratio, units::ampere, cite, m, running), cite, "a switch rated in horsepower, or one");
}

void run(Context& cx, const Circuit& c) {
  const Disconnect& d = c.disconnect;
  const bool receptacle = !d.kind && c.receptacle.rating;
  if (derive::is_feeder(c) || (!d.kind && !receptacle) || (d.kind && (*d.kind == DisconnectKind::none || *d.kind == DisconnectKind::unit_switch))) {
    cx.not_applicable(derive::is_feeder(c)                               ? "a feeder: its branch circuits are looked at"
                      : d.kind && *d.kind == DisconnectKind::unit_switch ? "the switch of an appliance is part of its listing"
                                                                         : "no disconnect is described");
    return;
  }
  if (derive::feeds_unknown(c)) return void(cx.not_applicable("what it feeds is asked for once, by the check of the disconnect"));
  const std::string_view rule = derive::disconnect_rule(cx, c);
  if (rule.empty()) {
    cx.not_applicable("receptacles need no disconnect of their own");
    return;
  }
  const DisconnectKind kind = d.kind ? *d.kind : DisconnectKind::plug;
  const bool charger = rule == "vehicle-charger-disconnect";
  if (charger && kind == DisconnectKind::plug) {
    cx.not_applicable("the receptacle of a charger is looked at by 'receptacle-rating'");
    return;
  }
  const derive::Line line = derive::line_of(cx, c);
  const Rating rating = rating_of(cx, c, kind);
  if (kind == DisconnectKind::plug && rule != "cooling-disconnect") {
    const auto load = derive::circuit_load(cx, c, line);
    const bool below_circuit = c.breaker.rating && c.receptacle.rating && *c.receptacle.rating < *c.breaker.rating;
    if (below_circuit && !at_least(rating.value.value, load.value))
      cx.fails_in("receptacle-rating", "the receptacle is rated below what the appliance draws", "use one that is rated for the circuit",
                  cx.cite("disconnect-plug-rating"), rating.where);
    hold(cx, c, rating, load, cx.cite("disconnect-plug-rating"), "a plug and receptacle");
    return;
  }
  const bool motors = derive::has_motors(c);
  const bool motor = rule == "motor-disconnect" || rule == "disconnect-motor-appliance";
  const std::string_view by = rule == "cooling-disconnect" ? "cooling-disconnect-rating" : motor ? "motor-disconnect-rating"
                              : rule == "space-heating-disconnect" ? rule : "";
  const bool only_marked = !motors && !c.load.current && !c.load.power && !c.load.apparent_power && c.load.minimum_circuit_ampacity;
  if (!by.empty() && by != rule && only_marked) return by_marked_minimum(cx, c, by, rating);
  const auto load = motors && !by.empty() && by != rule ? derive::running_current(cx, c, line) : derive::circuit_load(cx, c, line);
  if (by.empty()) return hold(cx, c, rating, load, cx.cite(charger ? rule : "appliance-disconnect"), "a disconnect");
  // A marked minimum of a heater has its continuous share in it.
  if (by == rule && only_marked) return hold(cx, c, rating, load, cx.cite(by), "a disconnect");
  hold(cx, c, rating, share(cx, by, load), cx.cite(by), "a disconnect");
  if (motor && motors) motor_type(cx, c, kind, line, load, rating);
}

}  // namespace

extern const Check check_disconnect_rating{
    .id = "disconnect-rating",
    .title = "Rating of the disconnecting means",
    .family = Family::disconnects,
    .about = "A disconnect has to break what flows. Motors and compressors need a share above their current, electric heat its "
             "continuous share, other appliances their rating, and a plug and its receptacle at least what the appliance draws. "
             "The switch of a motor is rated in horsepower unless the motor is small. Where only a marked minimum circuit "
             "ampacity is known, the answer is given when it holds for every mix of motors behind that minimum. Several motors on "
             "one disconnect count as one with their running and locked-rotor currents added up.",
    .formula = "Id >= k * I; Id >= I for appliances without motors; motor on a snap switch: I <= k * Id",
    .reads = "disconnect.kind, disconnect.rating, disconnect.horsepower, breaker.rating, receptacle.rating, load.appliance, load.motors, "
             "load.current, load.power, load.minimum_circuit_ampacity, circuit.voltage",
    .rules = "cooling-disconnect-rating, motor-disconnect-rating, motor-disconnect-type, space-heating-disconnect, appliance-disconnect, "
             "disconnect-plug-rating, cooling-conductor, marked-minimum, motor-disconnect-combination, locked-rotor-single-phase, locked-rotor-three-phase, motor-single-phase, "
             "motor-three-phase, motor-synchronous, switch-ratings, receptacle-ratings, appliances",
    .run = run};

}  // namespace pullproof
