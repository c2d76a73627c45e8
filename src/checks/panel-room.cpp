#include <cmath>

#include "derive/line.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Whether it takes room: it starts here, and its device was not there before the equipment was replaced.
bool is_new(const Circuit& c) { return !c.fed_by && !c.load.replacement.value_or(false); }

double poles_of(const Context& cx, const Circuit& c) {
  if (c.breaker.poles) return *c.breaker.poles;
  Context quiet = cx.scratch();
  return derive::line_of(quiet, c).hots;
}

/// The poles that the panel is made for: a tandem breaker takes less room and no fewer of those.
void poles(Context& cx, const Supply& supply) {
  const Panel& p = supply.panel;
  cx.need(p.used_poles, "supply.panel.used_poles", "those of the new circuits come on top");
  double added = 0;
  for (const Circuit& c : cx.job().circuits)
    if (is_new(c)) added += poles_of(cx, c);
  const auto all = cx.working().choice("poles in it with this job", "n", *p.used_poles + added, units::count, "those in it before, and one for each line of the circuits", {});
  const auto most = cx.given("poles that its label allows", "nmax", p.most_poles, units::count);
  Finding& f = cx.require(all, Must::at_most, most, cx.cite("panel-breaker"), p.most_poles.where);
  if (f.verdict == Verdict::fail) f.change = "add a panel and feed it from this one";
}

void room(Context& cx, const Supply& supply) {
  double spaces = 0;
  bool tandem = false;
  for (const Circuit& c : cx.job().circuits) {
    if (!is_new(c)) continue;
    if (c.breaker.tandem.value_or(false)) tandem = true;
    spaces += poles_of(cx, c) * (c.breaker.tandem.value_or(false) ? 0.5 : 1);
  }
  const auto need = cx.working().choice("pole spaces that the circuits take", "p", std::ceil(spaces), units::count,
                                        tandem ? "one for each pole, half of one for each pole of a tandem breaker" : "one for each pole", {});
  const auto room = cx.given("free pole spaces", "s", supply.panel.free_spaces, units::count);
  Finding& f = cx.require(need, Must::at_most, room, cx.cite("panel-breaker"), supply.panel.free_spaces.where);
  if (f.verdict == Verdict::fail)
    f.change = tandem ? "count tandem breakers as their label allows, or add a panel" : "add a panel, or free spaces; tandem breakers only where the label allows them";
}

void run(Context& cx, const Supply& supply) {
  const Panel& p = supply.panel;
  bool any = false;
  if (p.main && p.bus) {
    any = true;
    const auto main = cx.given("main device", "Im", p.main, units::ampere);
    const auto bus = cx.given("busbars", "Ib", p.bus, units::ampere);
    Finding& f = cx.require(main, Must::at_most, bus, cx.cite("panel-main"), p.main.where);
    if (f.verdict == Verdict::fail) f.change = "use a smaller main device or a larger panel";
  }
  for (const Circuit& c : cx.job().circuits) {
    if (c.breaker.tandem.value_or(false)) {
      any = true;
      cx.need(p.tandem_allowed, "supply.panel.tandem_allowed", "a tandem breaker needs a panel that is made for it");
      if (*p.tandem_allowed) cx.pass("the panel's label allows tandem breakers", cx.cite("panel-breaker"), c.breaker.tandem.where);
      else cx.fail(cx.text("circuit {} has a tandem breaker and the panel's label allows none", *c.name), "use a full-size breaker", cx.cite("panel-breaker"), c.breaker.tandem.where);
    }
    if (c.breaker.listed_for_panel && !*c.breaker.listed_for_panel) {
      any = true;
      cx.fail(cx.text("the breaker of circuit {} is not listed for the panel", *c.name), "use a breaker that the panel's label names", cx.cite("panel-breaker"),
              c.breaker.listed_for_panel.where);
    }
  }
  if (p.free_spaces) {
    any = true;
    room(cx, supply);
  }
  if (p.most_poles) {
    any = true;
    poles(cx, supply);
  }
  if (any) return;
  if (p.where) cx.needs_input("supply.panel.free_spaces", "the panel is described, but not whether it has room");
  cx.not_applicable("no panel is described, so room and type of the breaker were not looked at", cx.cite("panel-breaker"));
}

}  // namespace

extern const Check check_panel_room{
    .id = "panel-room",
    .title = "Room and rating of the panel",
    .family = Family::load,
    .about = "A breaker needs a space that is made for it: as many pole spaces as it has poles, of a type that the panel's label "
             "names, tandem only where the label allows it, and no more poles in all than the label allows. The main device is no larger than the busbars; the sum of the branch devices is no measure of them.",
    .formula = "p <= s; n <= nmax; Im <= Ib",
    .reads = "supply.panel.bus, supply.panel.main, supply.panel.free_spaces, supply.panel.tandem_allowed, supply.panel.most_poles, supply.panel.used_poles, breaker.poles, "
             "breaker.tandem, breaker.listed_for_panel, load.replacement",
    .rules = "panel-main, panel-breaker",
    .run = run};

}  // namespace pullproof
