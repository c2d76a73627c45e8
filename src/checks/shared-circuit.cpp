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

Traced<Current> current_of(Context& cx, const Share& s) {
  cx.need(s.current, "circuit.also_feeds.current", "all loads of the circuit are added");
  return cx.given(cx.text("current of {}", s.name ? *s.name : "another load"), "I", s.current, units::ampere);
}

void hold(Context& cx, const Traced<Current>& have, std::string_view name, std::string_view rule, std::string_view key, const Traced<Current>& rating,
          std::string_view change, Where where) {
  cx.working().rename(have.step, name, "Is");
  const auto k = cx.parameter(rule, key, "share of the circuit", "k", units::percent);
  const auto most = cx.apply(calc::share_of_rating, units::ampere, cx.cite(rule), k, rating);
  Finding& f = cx.require(have, Must::at_most, most, cx.cite(rule), where);
  if (f.verdict == Verdict::fail) f.change = change;
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
  Sum all, fastened;
  add(cx, all, derive::load_for_device(cx, c, line).current);
  if (fixed && !room_unit) add(cx, fastened, own);
  bool portable = !fixed;
  for (const Share& s : c.also_feeds) {
    cx.need(s.kind, "circuit.also_feeds.kind", "fixed, portable and lighting loads have different shares");
    const auto i = current_of(cx, s);
    add(cx, all, i);
    if (of(s, ShareKind::lighting) || of(s, ShareKind::portable)) portable = true;
    else add(cx, fastened, i);
    if (of(s, ShareKind::portable) && derive::rating_listed(cx, "cord-load-share", "ratings", rating.value))
      hold(cx, i, cx.text("plugged-in load of {}", s.name ? *s.name : "another load"), "cord-load-share", "percent", rating,
           "put it on a larger circuit or one of its own", s.where);
  }
  cx.working().rename(all->step, "all loads of the circuit", "Is");
  Finding& f = cx.require(*all, Must::at_most, rating, cx.cite("appliance-shared"), c.where);
  if (f.verdict == Verdict::fail) f.change = "move loads to another circuit";
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
}

}  // namespace

extern const Check check_shared_circuit{
    .id = "shared-circuit",
    .title = "What may share a circuit",
    .about = "When an appliance shares its circuit, all loads together stay within the rating. On small circuits one plugged-in load "
             "takes at most a share, and what is fastened in place at most half when lighting or portable loads are on it too. A "
             "room air conditioner takes at most half of a shared circuit.",
    .formula = "sum of I <= In; plugged in: I <= 80 % of In; fastened beside lighting or portable loads: sum of I <= 50 % of In",
    .reads = "circuit.individual, circuit.also_feeds.kind, circuit.also_feeds.current, circuit.also_feeds.name, breaker.rating, load.current, "
             "load.connection, load.fastened, load.appliance, supply.dwelling",
    .rules = "appliance-shared, cord-load-share, fixed-load-share, room-air-conditioner, circuit-40-50a, appliances",
    .run = run};

}  // namespace pullproof
