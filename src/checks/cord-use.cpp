#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Cable& k) {
  const Way w(k);
  derive::type_of(cx, w);
  if (!derive::is_cord(cx, k)) return void(cx.not_applicable("it is no flexible cord"));
  const auto t = cx.table("cord-uses");
  const auto not_for = [&](bool used, std::string_view use, Where where) {
    if (!used) return false;
    const std::size_t row = cx.row(t, use);
    Citation cite = cx.edition().cite(t, row, t.column("clause"));
    cite.clause = t.cell(row, "clause").text();
    cx.fail(cx.text("a cord may not be used {}", t.cell(row, "text").text()), "wire this part by a raceway or a cable for buildings", cite, where);
    return true;
  };
  const CableLaying& m = k.more;
  bool bad = not_for(derive::buried(w), "fixed wiring", k.where);
  bad = not_for(m.through_wall.value_or(false), "wall", m.through_wall.where) || bad;
  bad = not_for(m.fastened.value_or(false) || k.laid.supports.every, "fastened", m.fastened ? m.fastened.where : k.laid.supports.where) || bad;
  bad = not_for(w.has(Place::concealed) || w.has(Place::attic), "concealed", k.place.where) || bad;
  bad = not_for(k.inside.present, "raceway", k.inside.where) || bad;
  bad = not_for(w.has(Place::damage) || w.has(Place::severe_damage), "damage", k.place.where) || bad;
  if (bad) return;
  if (!m.through_wall) cx.assume("walls", cx.text("cable.through_wall of '{}' is not given: taken to go through no wall, floor, ceiling, door or window", *k.name));
  if (!m.fastened) cx.assume("fastening", cx.text("cable.fastened of '{}' is not given: taken to hang free", *k.name));
  cx.pass("nothing that a cord may not be used for", cx.edition().cite(t), k.where);
}

}  // namespace

extern const Check check_cord_use{
    .id = "cord-use",
    .title = "What a cord may not be used for",
    .family = Family::cables,
    .about = "A flexible cord replaces no fixed wiring: it does not go through walls, floors, ceilings, doors or windows, is not attached to the "
             "building, not concealed, not in a raceway, not in the ground and not where it can be damaged.",
    .formula = "",
    .reads = "cable.type, cable.place, cable.inside, cable.through_wall, cable.fastened, cable.supports",
    .rules = "cord-uses, cable-types",
    .run = run};

}  // namespace pullproof
