#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool silent(const Raceway& r) {
  const Way w(r);
  return (w.has(Place::outdoors) || w.has(Place::rooftop)) && !derive::buried(w) && !r.more.drains;
}

void run(Context& cx, const Raceway& r) {
  const Way w(r);
  if ((!w.has(Place::outdoors) && !w.has(Place::rooftop)) || derive::buried(w)) return void(cx.not_applicable("it is not on the outside of a building"));
  derive::type_of(cx, w);
  const Citation cite = cx.cite("outdoor-raceway-drain");
  const Given<bool>& g = r.more.drains;
  const std::string_view change = "slope it to a box or fitting with a drain or weep hole, away from the enclosures";
  if (g) {
    if (*g) cx.pass("water that gets in runs out", cite, g.where);
    else cx.fail("water that gets in does not run out", change, cite, g.where);
    return;
  }
  const auto& all = cx.job().raceways;
  if (!derive::asks_for_all(all, r, silent)) return void(cx.not_applicable("said once, at the first raceway outdoors"));
  cx.advise(cx.text("outdoors it is to be laid so that water that gets in runs out (raceway.drains){}", derive::others_that_lack(all, r, silent)), change, cite, r.where);
}

}  // namespace

extern const Check check_raceway_drain{
    .id = "raceway-drain",
    .title = "Raceway outdoors drains",
    .family = Family::raceways,
    .about = "Water gets into every raceway outdoors, from rain and from the air. On the outside of buildings raceways are laid so that it runs "
             "out before it reaches the equipment: no low pockets, and a weep hole at the low end.",
    .formula = "",
    .reads = "raceway.type, raceway.place, raceway.drains",
    .rules = "outdoor-raceway-drain",
    .run = run};

}  // namespace pullproof
