#include "derive/disconnect.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Disconnect& d = c.disconnect;
  if (derive::is_feeder(c) || !d.kind || *d.kind == DisconnectKind::none || *d.kind == DisconnectKind::plug) {
    cx.not_applicable(derive::is_feeder(c) ? "a feeder: its branch circuits are looked at" : "no disconnect that is mounted is described");
    return;
  }
  if (derive::feeds_unknown(c)) return void(cx.not_applicable("what it feeds is asked for once, by the check of the disconnect"));
  if (derive::disconnect_rule(cx, c) != "cooling-disconnect") {
    cx.not_applicable("not the disconnect of cooling equipment");
    return;
  }
  const Citation cite = cx.cite("cooling-disconnect");
  derive::wait_for_sight(cx, d, cite);
  bool good = true;
  const auto fault = [&](const Given<bool>& g, std::string_view message, std::string_view change) {
    if (!g.value_or(false)) return;
    good = false;
    cx.fail(message, change, cite, g.where);
  };
  fault(d.on_removable_panel, "the disconnect is on a panel that is taken off for service", "mount it beside the unit or on a part of it that stays");
  fault(d.over_nameplate, "the disconnect covers the nameplate", "mount it where the nameplate can be read");
  if (!d.on_removable_panel) cx.assume("mounting", "disconnect.on_removable_panel is not given: it is taken not to be on a panel that is taken off", cite);
  if (!d.over_nameplate) cx.assume("nameplate", "disconnect.over_nameplate is not given: it is taken not to cover the nameplate", cite);
  if (good) cx.pass("neither on a removable panel nor over the nameplate", cite, d.where);
  if (!cx.flag("cooling-enclosure", "required")) return;
  const Citation cover = cx.cite("cooling-enclosure");
  if (cx.need(d.locked_cover, "disconnect.locked_cover", "where unqualified people can reach it, opening it to live parts has to take a tool or a key"))
    cx.pass("opening the disconnect takes a tool or a key", cover, d.locked_cover.where);
  else
    cx.fail("the disconnect opens to live parts without a tool or key", "lock it, or use one whose cover takes a tool", cover, d.locked_cover.where);
}

}  // namespace

extern const Check check_disconnect_mounting{
    .id = "disconnect-mounting",
    .title = "Mounting of the disconnect of cooling equipment",
    .family = Family::disconnects,
    .about = "A disconnect on a panel that comes off goes with it, and one over the nameplate hides what the inspector and the next "
             "technician have to read. In newer editions its cover takes a tool or a key where anybody can walk up to it, because "
             "children have been killed by open ones.",
    .formula = "",
    .reads = "load.appliance, disconnect.kind, disconnect.on_removable_panel, disconnect.over_nameplate, disconnect.locked_cover",
    .rules = "cooling-disconnect, cooling-enclosure, appliances",
    .run = run};

}  // namespace pullproof
