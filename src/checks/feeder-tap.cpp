#include <algorithm>

#include "calc/device.hpp"
#include "derive/ampacity.hpp"
#include "derive/load.hpp"
#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

struct Tap {
  Length length{};
  bool outdoors = true;
  Traced<Current> usable;
  Where where;
};

/// The tap that ends the path, or nothing.
std::optional<Tap> tap_of(Context& cx, const Circuit& c, const derive::Line& line) {
  std::optional<Tap> out;
  for (const Stretch& s : c.path) {
    if (!s.tap.value_or(false)) continue;
    const auto usable = derive::ampacity_of(cx, c, line, s, derive::terminals_of(cx, c, *c.breaker.rating)).usable;
    if (!out) out = Tap{{}, true, usable, s.where};
    if (usable.value < out->usable.value) out->usable = usable;
    out->length += *derive::length_of(cx, s);
    const Given<Place>& place = derive::place_of(s);
    out->outdoors = out->outdoors && place && (place->has(Place::outdoors) || place->has(Place::underground));
  }
  return out;
}

/// What it ends in is no larger than its ampacity.
void ends_in(Context& cx, const Circuit& c, const Tap& tap, const Citation& cite) {
  const auto end = cx.given("device that the tap ends in", "Ie", c.panel_main, units::ampere);
  Finding& f = cx.require(tap.usable, Must::at_least, end, cite, tap.where);
  if (f.verdict == Verdict::fail) f.change = "use larger conductors for the tap, or a smaller device at its end";
}

/// The ampacity is at least a part of the feeder's device.
void part_of_feeder(Context& cx, const Circuit& c, const Tap& tap, std::string_view rule) {
  const auto rating = cx.given("device of the feeder", "In", c.breaker.rating, units::ampere);
  const auto ratio = cx.parameter(rule, "feeder-ratio", "times that the feeder's device may be the tap's ampacity", "m", units::count);
  const auto most = cx.apply(calc::tap_multiple, units::ampere, cx.cite(rule), ratio, tap.usable);
  Finding& f = cx.require(rating, Must::at_most, most, cx.cite(rule), tap.where);
  if (f.verdict == Verdict::fail) f.change = "use larger conductors for the tap";
}

void run(Context& cx, const Circuit& c) {
  const bool any = std::any_of(c.path.begin(), c.path.end(), [](const Stretch& s) { return s.tap.value_or(false); });
  if (!derive::is_feeder(c) || !any) return void(cx.not_applicable("it is no feeder with a tap", cx.cite("feeder-tap-10")));
  cx.need(c.breaker.rating, "breaker.rating", "a tap goes by the device ahead of it");
  cx.need(c.panel_main, "circuit.panel_main", "a tap ends in an overcurrent device");
  const derive::Line line = derive::line_of(cx, c);
  const Tap tap = *tap_of(cx, c, line);
  const auto length = cx.working().choice("length of the tap", "L", tap.length, units::foot, "added up", {});
  const auto short_tap = cx.parameter("feeder-tap-10", "length", "longest tap of the first kind", "L1", units::foot);
  const auto long_tap = cx.parameter("feeder-tap-25", "length", "longest tap of the second kind", "L2", units::foot);
  const bool is_short = at_most(length.value, short_tap.value), is_long = !is_short && at_most(length.value, long_tap.value);
  if (!is_short && !is_long && !tap.outdoors) {
    Finding& f = cx.require(length, Must::at_most, long_tap, cx.cite("feeder-tap-25"), tap.where);
    f.change = cx.text("put an overcurrent device where the wire gets smaller, or a tap of at most {}", shown(cx.working().steps()[long_tap.step]));
    return;
  }
  const std::string_view rule = is_short ? "feeder-tap-10" : is_long ? "feeder-tap-25" : "feeder-tap-outside";
  ends_in(cx, c, tap, cx.cite(rule));
  if (is_short || is_long) part_of_feeder(cx, c, tap, rule);
  const auto load = derive::whole_load(cx, c, line);
  Finding& f = cx.require(tap.usable, Must::at_least, load, cx.cite(rule), tap.where);
  if (f.verdict == Verdict::fail) f.change = "use larger conductors for the tap";
}

}  // namespace

extern const Check check_feeder_tap{
    .id = "feeder-tap",
    .title = "Taps of a feeder",
    .family = Family::protection,
    .about = "A tap is smaller than its feeder, whose device does not protect it from overload. Its own end does: it ends in a device no larger than "
             "its ampacity, and it is short. To 10 ft the feeder's device may be ten times its ampacity, to 25 ft three times; outdoors it may have "
             "any length. That it is protected from damage, in a raceway to its end, is for whoever looks at it.",
    .formula = "L <= L1: In <= 10 * Iz; L <= L2: In <= 3 * Iz; Iz >= Ie; Iz >= I",
    .reads = "circuit.role, circuit.path, circuit.path.tap, circuit.path.wire.size, circuit.panel_main, breaker.rating, load.current, raceway.length, cable.length, "
             "raceway.place, cable.place",
    .rules = "feeder-tap-10, feeder-tap-25, feeder-tap-outside, ampacity, terminals",
    .run = run};

}  // namespace pullproof
