#include "derive/control.hpp"
#include "derive/wiring.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// Whether a part of the run lies outside of raceways and above ground, where something has to hold it.
bool hangs(const Control& c) {
  if (derive::wholly_in_raceway(c)) return false;
  if (c.cover || (c.place && c.place->has(Place::underground))) return false;
  return true;
}

/// Tied to a raceway: only to the one that feeds the equipment that it controls, and as Class 2 or 3.
void judge_raceway(Context& cx, const Control& c, const Citation& cite) {
  const ControlSupports& s = c.supports;
  const Where where = s.raceway ? s.raceway.where : s.by.where;
  constexpr std::string_view change = "fasten it to the structure by straps, staples or ties of its own";
  if (const auto klass = derive::known_class(c); klass && *klass == 1) {
    cx.fail("a Class 1 run is tied to a raceway, which holds only Class 2 cable of its own equipment", change, cite, where);
    return;
  }
  cx.need(s.raceway, "control.supports.raceway", "only the raceway that feeds the equipment that it controls may hold it");
  cx.need(c.serves, "control.serves", "only the raceway that feeds the equipment that it controls may hold it");
  if (s.held_by == nullptr || c.served == nullptr) return;
  if (derive::runs_in(*c.served, *s.held_by))
    cx.pass(cx.text("it is tied to '{}', which feeds the equipment that it controls", *s.raceway), cite, where);
  else
    cx.fail(cx.text("it is tied to '{}', which does not feed what it controls", *s.raceway), change, cite, where);
}

void run(Context& cx, const Control& c) {
  if (!hangs(c)) return void(cx.not_applicable("it lies in raceways or in the ground all the way: nothing to fasten"));
  const ControlSupports& s = c.supports;
  const Citation cite = cx.cite("control-support");
  if (!s.by && s.raceway) return judge_raceway(cx, c, cite);
  if (!s.by) {
    for (const Control& other : cx.job().controls) {
      if (&other == &c) break;
      if (hangs(other) && !other.supports.where) return void(cx.not_applicable("how it is held is asked for once, at the first run of this case"));
    }
    cx.assume("support", "how the run is held is not given (control.supports): taken as fastened to the structure, and to no conduit or pipe", cite);
    return void(cx.not_applicable("how the run is held is not given (control.supports.by)", cite));
  }
  switch (*s.by) {
    case Holder::structure: return void(cx.pass("it is fastened to the structure", cite, s.by.where));
    case Holder::raceway: return judge_raceway(cx, c, cite);
    case Holder::ceiling_grid:
    case Holder::pipe:
    case Holder::duct: break;
  }
  if (*s.by == Holder::pipe && !cx.flag("control-support", "pipe-binds")) {
    cx.advise("it is tied to a pipe: the electrical code names no gas pipe, but fuel gas codes and many inspectors object", "fasten it to the structure", cite, s.by.where);
    return;
  }
  cx.fail(cx.text("it is fastened to a {}", word(*s.by)), "fasten it to the structure, or hang it on wires of its own", cite, s.by.where);
}

}  // namespace

extern const Check check_control_support{
    .id = "control-support",
    .title = "What holds the control cable",
    .family = Family::control,
    .about = "Control cable is fastened to the structure. Conduit is no support for it: a raceway that carries other cables comes loose and "
             "runs hot. One case is excepted: the Class 2 cable of an appliance may be tied to the raceway that feeds that same appliance. "
             "Ceiling grids and ducts hold nothing; a pipe is advised against. How far apart the fastenings are the code does not say for "
             "these cables, and is not looked at.",
    .formula = "",
    .reads = "control.supports, control.serves, control.path, control.length, control.place, control.cover, control.source.class, circuit.path",
    .rules = "control-support",
    .run = run};

}  // namespace pullproof
