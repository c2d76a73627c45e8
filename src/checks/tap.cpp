#include "derive/ampacity.hpp"
#include "derive/device.hpp"
#include "derive/load.hpp"
#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The least ampacity of a tap by the circuit and what it feeds.
std::string_view least_key(Context& cx, const Circuit& c, bool cooking) {
  if (cooking) return "range-ampacity";
  return *c.breaker.rating < cx.parameter("range-tap", "small-circuit-below", units::ampere) ? "small-ampacity" : "large-ampacity";
}

void judge(Context& cx, const Circuit& c, const Stretch& s) {
  const Citation cite = cx.cite("range-tap");
  const derive::Line line = derive::line_of(cx, c);
  const bool cooking = derive::is_household_cooking(cx, c);
  const auto circuit = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  const auto largest = cx.parameter("range-tap", "range-circuit", "largest circuit with such a tap", "In,max", units::ampere);
  Finding& f = cx.require(circuit, Must::at_most, largest, cite, c.breaker.rating.where);
  if (f.verdict == Verdict::fail) return void(f.change = "run conductors of the circuit's size to the appliance");
  const auto usable = derive::ampacity_of(cx, c, line, s, derive::terminals_of(cx, c, *c.breaker.rating)).usable;
  const auto least = cx.parameter("range-tap", least_key(cx, c, cooking), "least ampacity of a tap", "Imin", units::ampere);
  if (cx.require(usable, Must::at_least, least, cite, s.where).verdict == Verdict::fail) return;
  const auto load = derive::load_current(cx, c, line);
  Finding& g = cx.require(usable, Must::at_least, load, cite, s.where);
  if (g.verdict == Verdict::fail) g.change = "use larger conductors for the tap";
  if (cooking) return void(cx.advise("a tap to cooking equipment is no longer than servicing it takes", "keep the leads short", cite, s.where));
  const auto have = cx.given("length of the tap", "L", derive::length_of(cx, s), units::inch);
  const auto most = cx.parameter("range-tap", "lead-length", "longest tap", "Lmax", units::inch);
  Finding& h = cx.require(have, Must::at_most, most, cite, s.where);
  if (h.verdict == Verdict::fail) h.change = "run conductors of the circuit's size up to the appliance";
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) return void(cx.not_applicable("a feeder: its taps are looked at by 'feeder-tap'"));
  bool any = false;
  for (const Stretch& s : c.path) {
    if (!s.tap.value_or(false)) continue;
    any = true;
    cx.need(c.breaker.rating, "breaker.rating", "a tap is protected by the device of its circuit");
    judge(cx, c, s);
  }
  if (!any) cx.not_applicable("no part of its path is a tap", cx.cite("range-tap"));
}

}  // namespace

extern const Check check_tap{
    .id = "tap",
    .title = "Taps of a branch circuit",
    .family = Family::protection,
    .about = "The leads of a wall oven or cooktop are smaller than the 50 A circuit that feeds them and a second appliance. Such a tap is permitted "
             "from a circuit of up to 50 A: it has at least a least ampacity, carries its own appliance, and is short. Taps of feeders have rules of "
             "their own.",
    .formula = "In <= In,max; Iz >= Imin; Iz >= I; L <= Lmax",
    .reads = "circuit.path, circuit.path.tap, circuit.path.wire.size, breaker.rating, load.appliance, load.current, load.power, raceway.length, cable.length, supply.dwelling",
    .rules = "range-tap, range-conductor, ampacity, terminals",
    .run = run};

}  // namespace pullproof
