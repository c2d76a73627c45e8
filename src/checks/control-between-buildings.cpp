#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Control& c) {
  if (!c.other_building) return void(cx.not_applicable("whether it leaves the building is not given (control.other_building)"));
  if (!*c.other_building) return void(cx.not_applicable("it stays in the building"));
  const Citation cite = cx.cite("control-between-buildings");
  if (c.protector.value_or(false)) return void(cx.pass("a listed primary protector is at each end that enters a building", cite, c.protector.where));
  cx.advise(cx.text("the run leaves the building{}: where lightning or power of over {} V to ground can reach it, it takes the protectors and clearances of communications wiring",
                    c.protector ? " without a primary protector" : "", number_text(raw(cx.parameter("control-between-buildings", "voltage", units::volt)), 0)),
            "put a listed primary protector, bonded to the building's ground, at each end (control.protector), or ask the authority", cite, c.other_building.where);
}

}  // namespace

extern const Check check_control_between_buildings{
    .id = "control-between-buildings",
    .title = "Control run that leaves the building",
    .family = Family::control,
    .about = "A wire between two buildings brings lightning and the difference of their grounds into both. Where that or power of a high "
             "voltage can reach it, it is protected like a telephone line. Whether it can is for the authority to say, so this is advice. "
             "Clearances and the grounding of protectors are not looked at.",
    .formula = "",
    .reads = "control.other_building, control.protector",
    .rules = "control-between-buildings",
    .run = run};

}  // namespace pullproof
