#include "derive/ground.hpp"
#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Whether raceways and armor along the way ground the boxes without a second wire.
bool metal_all_along(Context& cx, const Circuit& c) {
  if (c.path.empty()) return false;
  for (const Stretch& s : c.path) {
    if (s.cable != nullptr && !derive::armor_grounds(cx, *s.cable)) return false;
    if (s.raceway == nullptr) continue;
    if (!s.raceway->type || !s.raceway->size) return false;
    const auto t = cx.table("egc-raceways");
    const auto row = t.find(*s.raceway->type, s.raceway->size->label());
    if (!row || !t.cell(*row, "allowed").yes() || derive::flexible(cx, *s.raceway)) return false;
  }
  return true;
}

void run(Context& cx, const Circuit& c) {
  const CircuitGround& g = c.ground;
  if (!g.isolated.value_or(false)) return void(cx.not_applicable("its ground is not isolated"));
  const Citation cite = cx.cite("isolated-ground");
  if (g.kind && *g.kind == GroundKind::raceway)
    cx.fail("a raceway is no isolated ground: it touches every box and strap", "run an insulated grounding wire", cite, g.kind.where);
  else if (g.bare.value_or(false))
    cx.fail("a bare wire is no isolated ground", "use an insulated wire, green with a yellow stripe by custom", cite, g.bare.where);
  else
    cx.pass("an insulated wire of its own is the isolated ground", cite, g.isolated.where);
  if (g.second.value_or(false)) cx.pass("another grounding conductor bonds boxes and raceways", cite, g.second.where);
  else if (metal_all_along(cx, c)) cx.pass("metal raceway or armor all along bonds the boxes", cite, g.isolated.where);
  else if (g.second) cx.fail("nothing bonds the boxes and raceways along an isolated ground", "run a second grounding wire for them", cite, g.second.where);
  else cx.needs_input("ground.second", "boxes and raceways along an isolated ground are bonded by another conductor");
  if (!c.receptacle.where) return;
  const Citation mark = cx.cite("isolated-mark");
  cx.need(c.receptacle.isolated_mark, "receptacle.isolated_mark", "a receptacle with an isolated ground shows an orange triangle");
  if (*c.receptacle.isolated_mark) cx.pass("the receptacle shows the orange triangle", mark, c.receptacle.isolated_mark.where);
  else cx.fail("the receptacle with an isolated ground does not show it", "use an isolated-ground receptacle with an orange triangle", mark, c.receptacle.isolated_mark.where);
}

}  // namespace

extern const Check check_isolated_ground{
    .id = "isolated-ground",
    .title = "Isolated ground",
    .family = Family::grounding,
    .about = "An isolated ground keeps electrical noise off electronics: its wire runs insulated and touches no box on its way to the panel. Boxes and "
             "raceways still need a grounding conductor of their own, a second wire or metal raceway; and the receptacle shows an orange triangle.",
    .formula = "",
    .reads = "ground.isolated, ground.second, ground.kind, ground.bare, receptacle.isolated_mark, circuit.path, raceway.type, raceway.size, cable.type",
    .rules = "isolated-ground, isolated-mark, egc-raceways, raceway-types, cable-types",
    .run = run};

}  // namespace pullproof
