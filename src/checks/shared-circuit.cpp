#include <algorithm>

#include "calc/disconnect.hpp"
#include "calc/motor.hpp"
#include "derive/load.hpp"
#include "derive/sharing.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

using Sum = std::optional<Traced<Current>>;

void add(Context& cx, Sum& sum, const Traced<Current>& i) {
  sum = sum ? cx.apply(calc::currents_added, units::ampere, {}, *sum, i) : i;
}

bool of(const Share& s, ShareKind kind) { return s.kind && *s.kind == kind; }

void hold(Context& cx, const Traced<Current>& have, std::string_view name, std::string_view rule, std::string_view key, const Traced<Current>& rating,
          std::string_view change, Where where) {
  cx.working().rename(have.step, name, "Is");
  const auto k = cx.parameter(rule, key, "share of the circuit", "k", units::percent);
  const auto most = cx.apply(calc::share_of_rating, units::ampere, cx.cite(rule), k, rating);
  Finding& f = cx.require(have, Must::at_most, most, cx.cite(rule), where);
  if (f.verdict == Verdict::fail) f.change = change;
}

/// Several outlets of fixed electric heat: only some ratings.
void heating_outlets(Context& cx, const Circuit& c, const Traced<Current>& rating) {
  constexpr std::string_view rule = "space-heating-circuits";
  if (std::none_of(c.also_feeds.begin(), c.also_feeds.end(), [](const Share& s) { return of(s, ShareKind::fixed); })) return;
  const std::string_view amperes = cx.text("{} A", number_text(raw(rating.value), 1));
  if (derive::rating_listed(cx, rule, "ratings", rating.value))
    return void(cx.pass(cx.text("several outlets of electric heat may be on a circuit of {}", amperes), cx.cite(rule), c.breaker.rating.where, rating.step));
  cx.fail(cx.text("a circuit of {} may not feed several outlets of electric heat", amperes), "give each heater a circuit of its own", cx.cite(rule),
          c.breaker.rating.where, rating.step);
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c) || !derive::shared(cx, c)) {
    cx.not_applicable(derive::is_feeder(c) ? "a feeder: its branch circuits are looked at" : "nothing else is said to be on the circuit");
    return;
  }
  if (c.also_feeds.empty()) cx.needs_input("circuit.also_feeds", "the circuit is shared: say what else is on it, its kind and its current");
  cx.need(c.breaker.rating, "breaker.rating", "what shares a circuit is held against its rating");
  const auto rating = cx.given("rating of the circuit", "In", c.breaker.rating, units::ampere);
  const derive::Line line = derive::line_of(cx, c);
  const auto own = derive::load_current(cx, c, line);
  const bool fixed = derive::fastened(cx, c);
  const bool room_unit = derive::appliance_word(cx, c, "disconnect") == "room-air-conditioner-plug";
  Sum fastened;
  if (fixed && !room_unit) add(cx, fastened, own);
  bool portable = !fixed;
  for (const Share& s : c.also_feeds) {
    cx.need(s.kind, "circuit.also_feeds.kind", "fixed, portable and lighting loads have different shares");
    const auto i = derive::share_current(cx, s);
    if (of(s, ShareKind::lighting) || of(s, ShareKind::portable)) portable = true;
    else add(cx, fastened, i);
    if (of(s, ShareKind::portable) && derive::rating_listed(cx, "cord-load-share", "ratings", rating.value))
      hold(cx, i, cx.text("plugged-in load of {}", s.name ? *s.name : "another load"), "cord-load-share", "percent", rating,
           "put it on a larger circuit or one of its own", s.where);
  }
  if (room_unit) {
    hold(cx, own, "current of the room unit", "room-air-conditioner", "shared-percent", rating, "give the room unit a circuit of its own", c.load.where);
  } else if (!fixed && derive::rating_listed(cx, "cord-load-share", "ratings", rating.value)) {
    hold(cx, own, "plugged-in load", "cord-load-share", "percent", rating, "give it a circuit of its own", c.load.where);
  }
  if (fastened && portable && derive::rating_listed(cx, "fixed-load-share", "ratings", rating.value))
    hold(cx, *fastened, "loads fastened in place", "fixed-load-share", "percent", rating,
         "give the fastened equipment a circuit of its own, or take the lighting and portable loads off", c.load.where);
  if (derive::rating_listed(cx, "circuit-40-50a", "ratings", rating.value) && derive::needed_occupancy(cx) == "dwelling" &&
      !cx.listed("circuit-40-50a", "appliances", c.load.appliance.value_or("")))
    cx.fail(cx.text("a circuit of {} A in a dwelling with several outlets feeds only fixed cooking equipment", number_text(raw(rating.value), 0)),
            "give it a circuit of its own", cx.cite("circuit-40-50a"), c.load.where);
  if (c.load.appliance && cx.listed("space-heating-circuits", "appliances", *c.load.appliance)) heating_outlets(cx, c, rating);
  const auto all = derive::load_for_device(cx, c, line).current;
  cx.working().rename(all.step, "all loads of the circuit", "Is");
  if (!at_most(all.value, rating.value))
    cx.fails_in("device-load", "all loads of the circuit together are more than its rating", "move loads to another circuit", cx.cite("appliance-shared"), c.where);
  cx.require(all, Must::at_most, rating, cx.cite("appliance-shared"), c.where);
}

}  // namespace

extern const Check check_shared_circuit{
    .id = "shared-circuit",
    .title = "What may share a circuit",
    .family = Family::circuits,
    .about = "When an appliance shares its circuit, all loads together stay within the rating. On small circuits one plugged-in load "
             "takes at most a share, and what is fastened in place at most half when lighting or portable loads are on it too. A "
             "room air conditioner takes at most half of a shared circuit, and several electric heaters are on circuits of some ratings alone.",
    .formula = "sum of I <= In; plugged in: I <= 80 % of In; fastened beside lighting or portable loads: sum of I <= 50 % of In",
    .reads = "circuit.individual, circuit.also_feeds.kind, circuit.also_feeds.current, circuit.also_feeds.name, circuit.also_feeds.continuous, circuit.also_feeds.motor, breaker.rating, load.current, "
             "load.connection, load.fastened, load.appliance, supply.dwelling",
    .rules = "appliance-shared, cord-load-share, fixed-load-share, room-air-conditioner, circuit-40-50a, space-heating-circuits, motor-among-loads, continuous-load-device, appliances",
    .run = run};

}  // namespace pullproof
