#include "derive/burial.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// What else would do where the cover is too small.
std::string_view remedy(Context& cx, const Way& w, const derive::Cover& c, Length have) {
  const auto t = cx.table("burial");
  Context quiet = cx.scratch();
  const std::size_t row = derive::burial_location(quiet, w, t);
  std::string out = fmt::format("bury it so that {} in of earth lie over its top", number_text(units::inch.show(c.least.value), 1));
  const auto rigid = t.cell(row, "rigid-metal").number();
  if (rigid && derive::burial_column(cx, w) != "rigid-metal" && at_least(have, units::inch.of(*rigid)))
    out += fmt::format(", or run it in RMC or IMC, which asks for {} in", number_text(*rigid, 1));
  const auto shallow = t.cell(row, "residential").number();
  if (shallow && !c.shallow && units::inch.of(*shallow) < c.least.value) {
    out += fmt::format("; the {} in for dwelling circuits of at most {} and {} with a GFCI do not hold here: {}", number_text(*shallow, 1),
                       cx.parameter_text("burial-residential", "voltage"), cx.parameter_text("burial-residential", "ocpd"), c.why_not);
  }
  return cx.texts().keep(out);
}

/// Solid rock: a raceway under concrete down to the rock.
void on_rock(Context& cx, const Way& w) {
  const Laying& l = w.laid();
  const Citation cite = cx.cite("burial-rock");
  if (w.cable != nullptr)
    return void(cx.fail("over solid rock a cable may not lie shallower by itself", "run it in a raceway under concrete", cite, l.rock.where));
  cx.need(l.concrete, derive::key(cx, w, "concrete"), "over solid rock a shallower raceway lies under concrete");
  const auto have = cx.given("concrete over it", "t", l.concrete, units::inch);
  const auto least = cx.parameter("burial-rock", "concrete", "concrete that it needs, down to the rock", "tmin", units::inch);
  Finding& f = cx.require(have, Must::at_least, least, cite, l.concrete.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("pour {} of concrete over it", cx.parameter_text("burial-rock", "concrete"));
}

void run(Context& cx, const Way& w) {
  const Laying& l = w.laid();
  if (!derive::buried(w)) return void(cx.not_applicable("it is not in the ground"));
  if (derive::raceway_around(cx, w) != nullptr) return void(cx.not_applicable("it lies in a raceway, whose cover counts"));
  if (w.raceway != nullptr && derive::circuits_in(cx, w).empty() && derive::controls_in(cx, *w.raceway))
    return void(cx.not_applicable("only control cables run in it, which have a check of their own"));
  const std::string_view type = derive::type_of(cx, w);
  const auto cover = derive::cover_for(cx, w);
  if (!cover) return void(cx.not_applicable(cx.text("{} is not for the ground at all, as the check of its place says", type)));
  if (l.under && *l.under == Under::building && w.cable != nullptr) {
    const auto t = cx.table("burial");
    if (t.cell(derive::burial_location(cx, w, t), "raceway-only").yes() && !cx.listed("burial-building", "types", type)) {
      cx.fail(cx.text("{} lies under a building without a raceway", type), "run it in a raceway that reaches past the outside walls", cx.cite("burial-building"), l.under.where);
      return;
    }
  }
  if (raw(cover->least.value) == 0) return void(cx.pass("under a building no cover is asked for", cover->cite, l.under.where, cover->least.step));
  if (l.rock.value_or(false) && !(l.cover && at_least(*l.cover, cover->least.value))) return on_rock(cx, w);
  cx.need(l.cover, derive::key(cx, w, "cover"),
          cx.text("{} here asks for {} in of earth over its top", type, number_text(units::inch.show(cover->least.value), 1)));
  if (cover->dwelling_decides && !at_least(*l.cover, cover->least.value))
    cx.needs_input("supply.dwelling", "a dwelling's circuit like this one may lie shallower");
  const auto have = cx.given("cover", "C", l.cover, units::inch);
  Finding& f = cx.require(have, Must::at_least, cover->least, cover->cite, l.cover.where);
  if (f.verdict == Verdict::fail) f.change = remedy(cx, w, *cover, have.value);
}

}  // namespace

extern const Check check_burial_cover{
    .id = "burial-cover",
    .title = "Depth of buried wiring",
    .family = Family::places,
    .about = "What lies too shallow is cut by a spade. From the top of the raceway or cable to the surface there is a cover that depends on "
             "the method (cable 24 in, RMC and IMC 6 in, other raceways 18 in) and on what lies over it. A dwelling's branch circuit of at "
             "most 120 V and 20 A with GFCI protection may lie at 12 in; one of 240 V never. Under a building cable runs in a raceway. "
             "Over solid rock a raceway may lie under concrete. What the ground does, such as frost and settling, is not judged.",
    .formula = "C >= Cmin",
    .reads = "raceway.cover, raceway.under, raceway.type, raceway.place, raceway.rock, raceway.concrete, cable.cover, cable.under, "
             "cable.type, cable.place, cable.inside, supply.dwelling, circuit.voltage, breaker.rating, breaker.gfci",
    .rules = "burial, burial-column, burial-residential, burial-slab-raceway, burial-building, burial-rock",
    .run = run};

}  // namespace pullproof
