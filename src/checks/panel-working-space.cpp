#include <cmath>

#include "derive/working_space.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The highest voltage to ground in the panel.
Voltage highest_to_ground(Context& cx, const Supply& supply) {
  const System& s = cx.need(supply.system, "supply.system", "the depth goes by the voltage to ground");
  if (s.line_to_neutral <= Voltage{}) return s.line_to_line;
  const bool high_leg = s.phases == 3 && s.wires == 4 && !s.wye;
  return high_leg ? Voltage::from_value(raw(s.line_to_neutral) * std::sqrt(3.0)) : s.line_to_neutral;
}

void run(Context& cx, const Supply& supply) {
  if (!supply.panel.working_space.where) {
    if (supply.panel.where) cx.needs_input("supply.panel.working_space", "the panel is described, but not the room in front of it (depth, width, height)");
    cx.not_applicable("no panel is described, so the room in front of it was not looked at");
    return;
  }
  derive::judge_working_space(cx, {&supply.panel.working_space, highest_to_ground(cx, supply), "supply.panel.working_space", true, {}});
}

}  // namespace

extern const Check check_panel_working_space{
    .id = "panel-working-space",
    .title = "Room to work in front of the panel",
    .family = Family::disconnects,
    .about = "A panel is worked on alive sooner or later. In front of it the code wants a depth by the voltage to ground and by what "
             "faces it, a width, a height, a door that opens a right angle, and nothing stored there.",
    .formula = "D >= Dn; W >= max(Wn, equipment); H >= max(Hn, equipment)",
    .reads = "supply.system, supply.panel.working_space.depth, supply.panel.working_space.width, supply.panel.working_space.height, "
             "supply.panel.working_space.opposite, supply.panel.working_space.equipment_width, supply.panel.working_space.equipment_height, "
             "supply.panel.working_space.door_opens, supply.panel.working_space.storage",
    .rules = "working-space, working-space-clear",
    .run = run};

}  // namespace pullproof
