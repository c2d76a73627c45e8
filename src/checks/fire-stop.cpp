#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Way& w) {
  const Laying& l = w.laid();
  if (!l.rated_wall.value_or(false) && !l.fire_stopped) return void(cx.not_applicable("the case names no fire-rated wall, floor or ceiling that it goes through"));
  cx.need(l.fire_stopped, derive::key(cx, w, "fire_stopped"), "openings around wiring in rated walls, floors and ceilings are fire-stopped");
  if (*l.fire_stopped) cx.pass("the opening around it is fire-stopped", cx.cite("fire-stop"), l.fire_stopped.where);
  else cx.fail("the opening around it is not fire-stopped", "close it with a fire-stop system that is listed for that wall", cx.cite("fire-stop"), l.fire_stopped.where);
}

}  // namespace

extern const Check check_fire_stop{
    .id = "fire-stop",
    .title = "Fire-rated walls and floors",
    .family = Family::places,
    .about = "A hole for a cable is a hole for fire. Where a raceway or cable goes through a wall, floor or ceiling that is rated for "
             "fire, such as between a garage and a dwelling or between units, the opening around it is closed again with a listed fire-stop.",
    .formula = "",
    .reads = "raceway.rated_wall, raceway.fire_stopped, cable.rated_wall, cable.fire_stopped",
    .rules = "fire-stop",
    .run = run};

}  // namespace pullproof
