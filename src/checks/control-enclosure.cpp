#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

std::string_view name_of(const ControlEnclosure& e) { return e.name ? *e.name : std::string_view("the enclosure"); }

/// The relaxations one after another. Returns what settles it, or asks for what would.
class Judge {
 public:
  Judge(Context& cx, const Control& c, int klass, const ControlEnclosure& e) : cx_(cx), c_(c), klass_(klass), e_(e) {}

  void run() {
    if (e_.barrier.value_or(false)) return pass("a barrier parts it from power", "control-separation-barrier", e_.barrier.where);
    if (e_.own_raceway.value_or(false)) return pass("it is in a raceway of its own inside", "control-separation-raceway", e_.own_raceway.where);
    if (e_.single_opening.value_or(false) && e_.sleeve.value_or(false))
      return pass("both come in by its only opening, with a fixed nonconductor between them", "control-separation-opening", e_.sleeve.where);
    if (!e_.same_equipment) return ask("control.enclosure.same_equipment", "whether the power in it is there only for equipment that the run connects to decides what parts them");
    if (!*e_.same_equipment) return fail("the power in it does not serve equipment that the run connects to", e_.same_equipment.where);
    by_gap();
  }

 private:
  /// Power for the same equipment: a gap, or a jacket of the better sort at a low voltage to ground.
  void by_gap() {
    const Citation cite = cx_.cite("control-separation-equipment");
    if (e_.gap) {
      const auto needs = cx_.parameter("control-separation-equipment", "gap", "distance that parts the two in an enclosure", "dx", units::inch);
      const auto has = cx_.given(cx_.text("distance from power in '{}'", name_of(e_)), "d", e_.gap, units::inch);
      if (at_least(has.value, needs.value)) return void(cx_.require(has, Must::at_least, needs, cite, e_.gap.where));
      if (better_jacket()) return;
      Finding& f = cx_.require(has, Must::at_least, needs, cite, e_.gap.where);
      f.change = cx_.text("tie them apart by {} in, put a barrier or a sleeve between them, or use a CL3 cable where the power has at most {} to ground",
                          number_text(units::inch.show(needs.value), 2), low_enough());
      return;
    }
    if (better_jacket()) return;
    ask("control.enclosure.gap", "the distance from power conductors decides");
  }

  std::string_view low_enough() {
    return cx_.text("{} V", number_text(raw(cx_.parameter("control-separation-equipment", "alternative-voltage", units::volt)), 0));
  }

  /// CL3 or what stands for it, its jacket kept on or its ends sleeved, beside power of a low voltage to ground.
  bool better_jacket() {
    if (!c_.cable.type || !cx_.job().supply.system) return false;
    bool good = cx_.listed("control-separation-equipment", "alternative-types", *c_.cable.type);
    if (!good && cx_.has_table("cable-substitution"))
      good = cx_.table("cable-substitution").find(cx_.parameter_text("control-separation-equipment", "alternative-types"), *c_.cable.type).has_value();
    const System& s = *cx_.job().supply.system;
    const Voltage to_ground = s.line_to_neutral > Voltage{} ? s.line_to_neutral : s.line_to_line;
    if (!good || !at_most(to_ground, cx_.parameter("control-separation-equipment", "alternative-voltage", units::volt))) return false;
    cx_.assume("ends", cx_.text("in '{}' the ends of {} without their jacket are taken to be kept apart from power or sleeved", name_of(e_), *c_.cable.type),
               cx_.cite("control-separation-equipment"));
    pass(cx_.text("{} may lie beside power of at most {} to ground", *c_.cable.type, low_enough()), "control-separation-equipment", c_.cable.type.where);
    return true;
  }

  void pass(std::string_view why, std::string_view rule, Where where) { cx_.pass(cx_.text("in '{}': {}", name_of(e_), why), cx_.cite(rule), where); }
  void fail(std::string_view why, Where where) {
    cx_.fail(cx_.text("Class {} conductors share '{}' with power, and {}", klass_, name_of(e_), why),
             "part them by a barrier or a raceway of its own, or bring the run into another box", cx_.cite("control-separation"), where);
  }
  void ask(std::string_view key, std::string_view why) {
    Stop stop;
    stop.message = cx_.text("{} of '{}' is not given: {}", key, name_of(e_), why);
    stop.missing = key;
    stop.cite = cx_.cite("control-separation-equipment");
    stop.where = e_.where;
    cx_.stopped(stop);
  }

  Context& cx_;
  const Control& c_;
  int klass_;
  const ControlEnclosure& e_;
};

void run(Context& cx, const Control& c) {
  if (c.enclosures.empty()) return void(cx.not_applicable("no enclosure that it shares with power is described (control.enclosure)"));
  const int klass = derive::wiring_class(cx, c);
  for (const ControlEnclosure& e : c.enclosures) {
    if (klass != 1) {
      Judge(cx, c, klass, e).run();
      continue;
    }
    const Citation cite = cx.cite("class1-with-power");
    const bool its_own = (e.circuit != nullptr && e.circuit == c.served) || e.same_equipment.value_or(false);
    if (its_own) cx.pass(cx.text("as Class 1 it may share '{}' with the power that it controls", name_of(e)), cite, e.where);
    else if (!e.power && !e.same_equipment) cx.needs_input("control.enclosure.same_equipment", "a Class 1 run may share an enclosure only with power for what it controls");
    else cx.fail(cx.text("the Class 1 run shares '{}' with power that it does not control", name_of(e)), "bring it into another box, or part them by a barrier", cite, e.where);
  }
}

}  // namespace

extern const Check check_control_enclosure{
    .id = "control-enclosure",
    .title = "Control and power in one enclosure",
    .family = Family::control,
    .about = "In the disconnect, the junction box and the appliance's own wiring compartment thin wire meets power, and a loose strand is "
             "enough. The two share an enclosure only with a barrier, a raceway of its own inside, or a fixed sleeve where there is one "
             "opening; or, where the power is there for the same equipment alone, with a gap, or with a CL3 cable beside power of a low "
             "voltage to ground. Wired as Class 1 the run may lie with the power that it controls.",
    .formula = "d >= dx",
    .reads = "control.enclosure, control.source.class, control.reclassified, control.cable.type, control.serves, supply.system",
    .rules = "control-separation, control-separation-barrier, control-separation-raceway, control-separation-opening, control-separation-equipment, "
             "cable-substitution, class1-with-power",
    .run = run};

}  // namespace pullproof
