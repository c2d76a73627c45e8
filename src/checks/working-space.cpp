#include "derive/disconnect.hpp"
#include "derive/working_space.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Disconnect& d = c.disconnect;
  const bool mounted = d.kind && *d.kind != DisconnectKind::none && *d.kind != DisconnectKind::plug && *d.kind != DisconnectKind::unit_switch;
  if (derive::is_feeder(c) || !mounted) {
    cx.not_applicable(derive::is_feeder(c) ? "a feeder: its branch circuits are looked at" : "no disconnect that is worked on is described");
    return;
  }
  if (derive::feeds_unknown(c)) return void(cx.not_applicable("what it feeds is asked for once, by the check of the disconnect"));
  const bool cooling = derive::disconnect_rule(cx, c) == "cooling-disconnect";
  const bool asked = cooling && cx.flag("cooling-disconnect", "working-space");
  if (!d.working_space.where) {
    if (asked) derive::wait_for_sight(cx, d, cx.cite("cooling-disconnect"));
    if (asked) cx.needs_input("disconnect.working_space", "the disconnect of cooling equipment needs room to work in front of it (depth, width, height)");
    cx.not_applicable("no room in front of the disconnect is described, and its article does not ask for it");
    return;
  }
  const derive::Line line = derive::line_of(cx, c);
  derive::judge_working_space(cx, {&d.working_space, line.to_ground, "disconnect.working_space", asked, asked ? cx.cite("cooling-disconnect") : Citation{}});
}

}  // namespace

extern const Check check_working_space{
    .id = "working-space",
    .title = "Room to work in front of the disconnect",
    .family = Family::disconnects,
    .about = "Whoever tests a disconnect alive needs room to step back: a depth by the voltage to ground and by what faces it, a width "
             "and a height, a door that opens, and nothing stored there. Newer editions ask for it by name at the disconnect "
             "of cooling equipment; elsewhere too little room is advice, since the general rule binds equipment that is likely "
             "to be worked on alive.",
    .formula = "D >= Dn; W >= max(Wn, equipment); H >= max(Hn, equipment)",
    .reads = "disconnect.kind, disconnect.working_space.depth, disconnect.working_space.width, disconnect.working_space.height, "
             "disconnect.working_space.opposite, disconnect.working_space.equipment_width, disconnect.working_space.equipment_height, "
             "disconnect.working_space.door_opens, disconnect.working_space.storage, load.appliance, circuit.voltage",
    .rules = "working-space, working-space-clear, cooling-disconnect, appliances",
    .run = run};

}  // namespace pullproof
