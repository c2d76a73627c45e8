#include <algorithm>

#include "derive/burial.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Whether a circuit goes from this raceway straight into the ground, or the other way.
bool comes_from_ground(const Context& cx, const Raceway& r) {
  const auto in_ground = [](const Stretch& s) {
    return s.raceway != nullptr ? derive::buried(Way(*s.raceway)) : s.cable != nullptr && derive::buried(Way(*s.cable));
  };
  for (const Circuit& c : cx.job().circuits)
    for (std::size_t i = 0; i < c.path.size(); ++i)
      if (c.path[i].raceway == &r && ((i > 0 && in_ground(c.path[i - 1])) || (i + 1 < c.path.size() && in_ground(c.path[i + 1])))) return true;
  return false;
}

std::string_view kinds(Context& cx) {
  std::string all;
  for (const auto& c : cx.rule("burial-damage").list("raceways")) all += fmt::format("{}{}", all.empty() ? "" : ", ", c.text());
  return cx.texts().keep(all);
}

/// The raceway that wiring comes out of the ground in.
void raceway(Context& cx, const Raceway& r) {
  const Way w(r);
  if (derive::buried(w)) return void(cx.not_applicable("it lies in the ground; the piece that comes up is looked at"));
  if (w.has(Place::indoors) || !comes_from_ground(cx, r)) return void(cx.not_applicable("no wiring comes out of the ground in it"));
  if (derive::type_of(cx, w); cx.listed("burial-damage", "raceways", *r.type))
    return void(cx.pass(cx.text("{} stands up to damage where it comes out of the ground", *r.type), cx.cite("burial-damage"), r.type.where));
  const std::string_view change = cx.text("use {} where it comes out of the ground", kinds(cx));
  if (w.has(Place::damage) || w.has(Place::severe_damage))
    cx.fail(cx.text("{} comes out of the ground where it can be damaged", *r.type), change, cx.cite("burial-damage"), r.type.where);
  else
    cx.advise(cx.text("{} comes out of the ground; many inspectors hold that it can be damaged there", *r.type), change, cx.cite("burial-damage"), r.type.where);
}

/// The raceway around a direct-buried cable.
void cable(Context& cx, const Cable& k) {
  const Way w(k);
  const GroundRiser& g = k.more.riser;
  if (!derive::buried(w)) return void(cx.not_applicable("it is not in the ground"));
  if (derive::raceway_around(cx, w) != nullptr) return void(cx.not_applicable("it lies in a raceway"));
  const Citation cite = cx.cite("burial-emerging");
  const std::string_view wants = cx.text("where it comes out of the ground a raceway protects it from {} below grade, or its cover if that is less, to {} above",
                                         cx.parameter_text("burial-emerging", "below"), cx.parameter_text("burial-emerging", "above"));
  if (!g.where) cx.needs_input("cable.riser", wants);
  cx.need(g.type, "cable.riser.type", wants);
  const auto t = cx.table("raceway-types");
  if (!t.find(*g.type)) cx.needs_input("cable.riser.type", cx.text("'{}' is no kind of raceway: {}", *g.type, wants));
  const bool damage = w.has(Place::damage) || w.has(Place::severe_damage), tough = cx.listed("burial-damage", "raceways", *g.type);
  if (!tough && damage)
    cx.fail(cx.text("{} protects it where it can be damaged", *g.type), cx.text("use {}", kinds(cx)), cx.cite("burial-damage"), g.type.where);
  else if (!tough)
    cx.advise(cx.text("{} protects it; many inspectors hold that it can be damaged there", *g.type), cx.text("use {}", kinds(cx)), cx.cite("burial-damage"), g.type.where);
  // Down to the cover, but no more than the rule's depth.
  auto below = cx.parameter("burial-emerging", "below", "depth to which it is protected", "Dmin", units::inch);
  if (const auto cover = derive::cover_for(cx, w); cover && cover->least.value < below.value) below = cover->least;
  cx.need(g.below, "cable.riser.below", wants);
  const auto down = cx.given("protected below grade", "D", g.below, units::inch);
  Finding& f = cx.require(down, Must::at_least, below, cite, g.below.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("let the raceway reach {} below grade", shown(cx.working().steps()[below.step]));
  // Up to the rule's height, or to where the cable ends.
  auto above = cx.parameter("burial-emerging", "above", "height to which it is protected", "Hmin", units::foot);
  Citation up_cite = cite;
  if (g.ends_at && *g.ends_at < above.value) {
    above = cx.given("height where it enters", "Hmin", g.ends_at, units::foot);
    up_cite = cx.cite("burial-entrance");
  }
  cx.need(g.above, "cable.riser.above", wants);
  const auto up = cx.given("protected above grade", "H", g.above, units::foot);
  Finding& h = cx.require(up, Must::at_least, above, up_cite, g.above.where);
  if (h.verdict == Verdict::fail) h.change = cx.text("let the raceway reach {} above grade, or up to the enclosure (ends_at)", shown(cx.working().steps()[above.step]));
}

void run(Context& cx, const Way& w) { w.raceway != nullptr ? raceway(cx, *w.raceway) : cable(cx, *w.cable); }

}  // namespace

extern const Check check_burial_riser{
    .id = "burial-riser",
    .title = "Where wiring comes out of the ground",
    .family = Family::places,
    .about = "Mowers, string trimmers and cars hit wiring where it comes up. A direct-buried cable is in a raceway from 18 in below "
             "grade, or from its depth if that is less, to 8 ft above, or up to the enclosure or building that it enters. Where it can be damaged "
             "that raceway, like the riser of any buried raceway, is one of a few kinds: RMC, IMC, Schedule 80 PVC, EMT. Where the "
             "place does not say so, plain Schedule 40 is advised against, since many inspectors hold that it can be damaged there.",
    .formula = "D >= Dmin; H >= Hmin",
    .reads = "cable.riser, cable.type, cable.place, cable.cover, raceway.type, raceway.place, circuit.path",
    .rules = "burial-emerging, burial-damage, burial-entrance, burial, burial-column",
    .run = run};

}  // namespace pullproof
