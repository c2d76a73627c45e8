#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool outside(const Way& w) { return derive::buried(w) || w.has(Place::outdoors) || w.has(Place::rooftop); }

/// Whether a circuit goes on from this raceway, which is outside, straight to one that is indoors.
bool meets_indoors(const Context& cx, const Raceway& r) {
  if (!outside(Way(r))) return false;
  const auto indoors = [](const Stretch& s) {
    const Given<Place>& p = derive::place_of(s);
    return p && p->has(Place::indoors);
  };
  for (const Circuit& c : cx.job().circuits)
    for (std::size_t i = 0; i < c.path.size(); ++i)
      if (c.path[i].raceway == &r && ((i > 0 && indoors(c.path[i - 1])) || (i + 1 < c.path.size() && indoors(c.path[i + 1])))) return true;
  return false;
}

void run(Context& cx, const Raceway& r) {
  const RacewayLaying& m = r.more;
  const bool enters = m.enters_building.value_or(false), cold = m.known_condensation.value_or(false);
  const bool inferred = !enters && !m.enters_building && meets_indoors(cx, r), ground = derive::buried(Way(r));
  if (!enters && !cold && !inferred && !ground) return void(cx.not_applicable("it joins no spaces that would have to be sealed from each other"));
  const Citation cite = cx.cite(enters || inferred ? "building-seal" : cold ? "temperature-seal" : "burial-seal");
  const std::string_view why = enters || inferred ? "it comes into the building from outside"
                               : cold             ? "it joins warm and cold spaces where condensation is a problem"
                                                  : "water in it may reach live parts where it ends";
  if (m.sealed) {
    if (*m.sealed) cx.pass("its inside is sealed", cite, m.sealed.where);
    else cx.fail(cx.text("{}, and it is not sealed", why), "fill its end with duct seal or another sealant that suits the insulation", cite, m.sealed.where);
    return;
  }
  if (enters || cold) cx.needs_input("raceway.sealed", why);
  cx.advise(cx.text("{}: it is to be sealed inside (raceway.sealed)", why), "fill its end with duct seal or another sealant that suits the insulation", cite, r.where);
}

}  // namespace

extern const Check check_raceway_seal{
    .id = "raceway-seal",
    .title = "Raceway sealed inside",
    .family = Family::raceways,
    .about = "Warm air that streams through a raceway into the cold leaves its water there, and water in the ground follows a raceway into "
             "the panel. A raceway that comes into a building from outside is sealed; so is one between warm and cold spaces where condensation is a "
             "problem, and one in the ground whose water may reach live parts. Where the path goes from indoors straight to outdoors, that is "
             "taken as coming in from outside, as advice.",
    .formula = "",
    .reads = "raceway.sealed, raceway.enters_building, raceway.known_condensation, raceway.place, circuit.path",
    .rules = "building-seal, temperature-seal, burial-seal",
    .run = run};

}  // namespace pullproof
