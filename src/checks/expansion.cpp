#include "calc/expansion.hpp"
#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

constexpr Unit<double> per_fahrenheit{"in/in/°F", 1, 7};
constexpr Unit<double> fahrenheit{"°F", 1, 2};

Traced<Length> straight_run(Context& cx, const Raceway& r) {
  if (r.more.straight) return cx.given("straight run", "L", r.more.straight, units::foot);
  cx.need(r.length, "raceway.length", "how far it grows depends on it");
  const auto whole = cx.given("length", "L", r.length, units::foot);
  if (r.bends && r.bends->degrees == 0) return whole;
  cx.assume("straight run", cx.text("raceway.straight of '{}' is not given: taken as its whole length", *r.name));
  return whole;
}

/// The working of one swing: what it comes to, against the travel of the fitting or the change that asks for one.
struct Change {
  Traced<double> per_f;
  Traced<Length> run, limit;
  bool travel = false;  ///< the limit is the travel of a fitting, which may be used up; else it must not be reached
  Citation cite;
};

bool reaches(const Change& c, Length change) { return c.travel ? !at_most(change, c.limit.value) : at_least(change, c.limit.value); }

std::string_view remedy(Context& cx, const Change& c, Length change) {
  return cx.text("{} with at least {} in of travel", c.travel ? "use an expansion fitting" : "put in an expansion fitting",
                 number_text(round_half_up(units::inch.show(change) + 0.005, 2), 2));
}

void judge(Context& cx, const Raceway& r, const Change& c, const Traced<double>& swing) {
  const auto change = cx.apply(calc::length_change, units::inch, c.cite, c.per_f, c.run, swing);
  Finding& f = cx.require(change, Must::at_most, c.limit, c.cite, r.more.straight ? r.more.straight.where : r.where);
  if (!reaches(c, change.value)) return;
  f.verdict = Verdict::fail;
  if (!c.travel)  // the change that asks for a fitting must not even be reached
    f.message = cx.text("it changes its length by {}: from {} on it needs an expansion fitting", shown(cx.working().steps()[change.step]),
                        shown(cx.working().steps()[c.limit.step]));
  f.change = remedy(cx, c, change.value);
}

/// Makers say how much warmer than the air the conduit gets in the sun: advice.
void in_the_sun(Context& cx, const Raceway& r, const Change& c, const Traced<double>& swing) {
  const Way w(r);
  if (!cx.has_rule("expansion-sun") || !(w.has(Place::sunlight) || w.has(Place::outdoors) || w.has(Place::rooftop))) return;
  const auto sun = cx.parameter("expansion-sun", "added-f", "warmer in the sun, °F", "s", units::count);
  const auto more = cx.apply(calc::swing_in_sun_f, fahrenheit, cx.cite("expansion-sun"), swing, sun);
  const auto change = cx.apply(calc::length_change, units::inch, c.cite, c.per_f, c.run, more);
  if (!reaches(c, change.value)) return;
  cx.advise(cx.text("in the sun it gets about {} °F warmer than the air and changes by {} in", number_text(sun.value, 0),
                    number_text(units::inch.show(change.value), 2)),
            remedy(cx, c, change.value), cx.cite("expansion-sun"), r.where, change.step);
}

void run(Context& cx, const Raceway& r) {
  const Way w(r);
  derive::type_of(cx, w);
  if (!cx.listed("expansion", "raceways", *r.type)) return void(cx.not_applicable("it hardly changes its length", cx.cite("expansion")));
  if (derive::buried(w) || r.more.encased.value_or(false)) return void(cx.not_applicable("in the ground or in concrete its temperature hardly changes"));
  const bool outside = w.has(Place::outdoors) || w.has(Place::rooftop) || w.has(Place::attic) || w.has(Place::sunlight);
  if (!outside && !r.more.coldest) return void(cx.not_applicable("indoors its temperature hardly changes"));
  Change c;
  c.cite = cx.cite("expansion");
  c.run = straight_run(cx, r);
  c.per_f = cx.parameter("expansion", "expansion-ratio-per-f", "expansion of PVC", "a", per_fahrenheit);
  c.limit = cx.parameter("expansion", "length", "change that asks for an expansion fitting", "dLmax", units::inch);
  const bool fitted = r.more.expansion_fitting.value_or(false) || r.more.expansion_travel;
  if (!fitted) {  // too short for any place on earth
    const auto greatest = cx.parameter("expansion", "greatest-f", "largest swing of the table", "dTt", fahrenheit);
    const auto most = cx.apply(calc::length_change, units::inch, c.cite, c.per_f, c.run, greatest);
    if (!reaches(c, most.value)) return void(cx.require(most, Must::at_most, c.limit, c.cite, r.where));
  } else if (!r.more.expansion_travel) {
    return void(cx.pass("it has an expansion fitting; whether its travel is enough is not checked (expansion_travel)", c.cite, r.more.expansion_fitting.where));
  } else {
    c.limit = cx.given("travel of the fitting", "dLmax", r.more.expansion_travel, units::inch);
    c.travel = true;
  }
  cx.need(r.more.coldest, "raceway.coldest", "how far it shrinks depends on it");
  cx.need(r.ambient, "raceway.ambient", "how far it grows depends on it");
  if (r.more.coldest->celsius > r.ambient->celsius) cx.needs_input("raceway.coldest", "it is given as warmer than the hottest");
  const auto hot = cx.given("hottest air", "Th", r.ambient, units::celsius);
  const auto cold = cx.given("coldest air", "Tc", r.more.coldest, units::celsius);
  const auto swing = cx.apply(calc::swing_f, fahrenheit, c.cite, hot, cold);
  judge(cx, r, c, swing);
  in_the_sun(cx, r, c, swing);
}

}  // namespace

extern const Check check_expansion{
    .id = "expansion",
    .title = "Expansion of PVC conduit",
    .family = Family::raceways,
    .about = "PVC conduit grows and shrinks with the weather, about five times as much as steel, and tears itself from its boxes. "
             "Where a straight run between things that hold it fast changes by 1/4 in or more from the coldest to the hottest day, it "
             "needs an expansion fitting, whose travel has to cover the change. Makers advise to count 30 °F more in the sun.",
    .formula = "dL = a * L * 12 * dT; dL < dLmax, or dL <= travel of the fitting",
    .reads = "raceway.type, raceway.straight, raceway.length, raceway.bends, raceway.coldest, raceway.ambient, "
             "raceway.expansion_fitting, raceway.expansion_travel, raceway.place",
    .rules = "expansion, expansion-sun",
    .run = run};

}  // namespace pullproof
