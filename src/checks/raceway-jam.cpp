#include "calc/fill.hpp"
#include "derive/fill.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Raceway& r) {
  const Citation cite = cx.cite("jam");
  if (r.sleeve.value_or(false) || (r.bends && r.bends->degrees == 0)) {
    cx.not_applicable(r.bends ? "no bend to jam in" : "a sleeve has no bend to jam in", cite);
    return;
  }
  const derive::Contents contents = derive::contents_of(cx, r);
  const double three = cx.parameter("jam", "count", units::count);
  if (contents.count != three || !contents.alike) {
    cx.not_applicable(cx.text("only {} alike can jam", number_text(three, 0)), cite);
    return;
  }
  const auto inside = derive::inside_of(cx, r);
  const auto& one = contents.parts.front();
  const auto d = cx.working().choice("outside diameter of one", "d", one.diameter, units::inch, "of the same row as its area", {});
  cx.working().because_of(one.area.step);
  const auto ratio = cx.apply(calc::jam_ratio, units::ratio, cite, inside, d);
  const auto low = cx.parameter("jam", "low", "lowest ratio that jams", "Jl", units::ratio);
  const auto high = cx.parameter("jam", "high", "highest ratio that jams", "Jh", units::ratio);
  const bool loose = at_least(ratio.value, high.value);
  const bool tight = at_most(ratio.value, low.value);
  // Below the range they cannot line up, above it they can pass one another.
  Finding& f = tight ? cx.recommend(ratio, Must::at_most, low, cite, r.size.where) : cx.recommend(ratio, Must::at_least, high, cite, r.size.where);
  const std::string j = number_text(ratio.value, 2), l = number_text(low.value, 2), h = number_text(high.value, 2);
  if (loose || tight) {
    f.message = cx.text("inside diameter over conductor diameter is {}: outside {} to {}, where three may jam", j, l, h);
    return;
  }
  if (cx.flag("jam", "binding")) f.verdict = Verdict::fail;
  f.message = cx.text("inside diameter over conductor diameter is {}: from {} to {} three conductors may wedge side by side in a bend", j, l, h);
  f.change = cx.text("{}use another trade size, or pull with lubricant and wide bends", r.bends ? "" : "say bends = \"0°\" if there is none; else ");
}

}  // namespace

extern const Check check_raceway_jam{
    .id = "raceway-jam",
    .title = "Jamming in bends",
    .family = Family::raceways,
    .about = "Three conductors of one size can line up side by side in a bend and wedge there, when together they are about as wide as "
             "the raceway. Pulling on then tears the insulation. The ratio of inside diameter to the diameter of one conductor says "
             "whether they can. It is advice, and it does not matter where nothing bends.",
    .formula = "J = D / d; J <= low or J >= high",
    .reads = "raceway.type, raceway.size, raceway.inside_diameter, raceway.bends, circuit.path, wire.size, wire.type, wire.diameter, ground.size",
    .rules = "jam, raceway-dimensions, conductor-dimensions",
    .run = run};

}  // namespace pullproof
