#include <fmt/format.h>

#include <algorithm>

#include "derive/control.hpp"
#include "derive/runs.hpp"
#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

constexpr std::string_view keep_apart = "give the control run a raceway of its own, part the two by a barrier, or, where it controls what the power feeds, "
                                        "wire all of it as Class 1 (control.reclassified) with insulation for the power's voltage";

/// Power conductors and a control run of Class 2 or 3 in one raceway.
void judge_shared(Context& cx, const Control& c, int klass, const Raceway& r, std::string_view power, Where where) {
  if (c.barrier.value_or(false)) {
    cx.pass(cx.text("a barrier parts it from {} in '{}'", power, *r.name), cx.cite("control-separation-barrier"), where);
    return;
  }
  cx.fail(cx.text("Class {} conductors share '{}' with {}; insulation alone does not part them", klass, *r.name, power), keep_apart,
          cx.cite("control-separation"), where);
}

/// "THHN, UF-B and others".
std::string_view some_of(Context& cx, const std::vector<std::string_view>& types) {
  const std::size_t shown = std::min(types.size(), derive::most_names);
  return cx.text("{}{}", fmt::join(types.begin(), types.begin() + static_cast<std::ptrdiff_t>(shown), ", "), shown < types.size() ? " and others" : "");
}

/// A Class 1 run may lie with the power that it controls, if its insulation suits.
void judge_class1_shared(Context& cx, const Control& c, const Raceway& r, const std::vector<const Circuit*>& circuits, Where where) {
  const Citation cite = cx.cite("class1-with-power");
  if (c.served == nullptr) {
    Stop stop;
    stop.message = cx.text("control.serves is not given: a Class 1 run may share '{}' with {} only where it controls what that feeds", *r.name,
                           derive::listed_names(cx, "circuit", circuits));
    stop.missing = "control.serves";
    stop.cite = cite;
    stop.where = where;
    cx.stopped(stop);
    return;
  }
  const bool with_its_own = derive::runs_in(*c.served, r);
  if (circuits.size() > (with_its_own ? 1u : 0u))
    cx.fail(cx.text("the run controls circuit {}, but shares '{}' with {}", *c.served->name, *r.name,
                    derive::listed_names(cx, "circuit", circuits, with_its_own ? c.served : nullptr)),
            "give it a raceway of its own, or one with the circuit that it controls alone", cite, where);
  else
    cx.pass(cx.text("as Class 1 it may share '{}' with circuit {}, which it controls", *r.name, *c.served->name), cite, where);
}

/// Class 1 conductors with power need the insulation of power wiring.
void judge_insulation(Context& cx, const Control& c) {
  const std::string_view rule = c.reclassified.value_or(false) ? "control-reclassified" : "class1-size";
  const auto has = derive::cable_insulation(cx, c);
  const auto needs = cx.parameter(rule, "insulation", "insulation of Class 1 conductors", "Ux", units::volt);
  Finding& f = cx.require(has, Must::at_least, needs, cx.cite(rule), c.cable.insulation ? c.cable.insulation.where : c.cable.type.where);
  if (f.verdict == Verdict::fail) f.change = "use building wire or another method of Class 1, insulated for that voltage";
}

/// Other conductors in the raceway that the case names without a circuit: all of them in one finding.
void judge_others(Context& cx, const Control& c, int klass, const Raceway& r, const derive::RacewayUsers& users, Where where) {
  if (users.untold != nullptr) {
    Stop stop;
    stop.message = cx.text("raceway.also.type is not given: whether the other conductors in '{}' are power decides whether they may be together", *r.name);
    stop.missing = "raceway.also.type";
    stop.cite = cx.cite("control-separation");
    stop.where = users.untold->where;
    cx.stopped(stop);
  }
  if (users.power.empty()) return;
  if (klass != 1) return judge_shared(cx, c, klass, r, cx.text("{} of no circuit named here", some_of(cx, users.power)), where);
  cx.fail(cx.text("the run shares '{}' with {} of no circuit that it is known to control", *r.name, some_of(cx, users.power)),
          "describe the circuit that these conductors belong to, or give the run a raceway of its own", cx.cite("class1-with-power"), where);
}

/// Control runs of another class in the same raceway: those of Class 1 in one finding, those of Class 3 in another.
void judge_other_runs(Context& cx, const Control& c, int klass, const Raceway& r, const derive::RacewayUsers& users, Where where) {
  if (klass == 1) return;  // the others' own findings
  if (!users.runs[1].empty()) {
    judge_shared(cx, c, klass, r, cx.text("the {}", derive::listed_names(cx, "Class 1 run", users.runs[1])), where);
  }
  if (klass != 2 || users.runs[3].empty()) return;  // said once, of the Class 2 run
  const auto has = derive::cable_insulation(cx, c);
  const auto needs = cx.parameter("control-cable-listing", "class3-insulation",
                                  cx.text("insulation beside the {}", derive::listed_names(cx, "Class 3 run", users.runs[3])), "Ux", units::volt);
  Finding& f = cx.require(has, Must::at_least, needs, cx.cite("control-mixed-limited"), where);
  if (f.verdict == Verdict::fail) f.change = "use a CL3 cable for the Class 2 run as well, or part the two";
}

/// Everything that shares a raceway with the run, in a few findings for each raceway however many there are. Returns
/// whether anything does.
bool judge_raceways(Context& cx, const Control& c, int klass) {
  bool shares_power = false;
  for (const Stretch& s : c.path) {
    if (s.raceway == nullptr) continue;
    const Raceway& r = *s.raceway;
    const derive::RacewayUsers& users = derive::users_of(cx, r);
    if (!users.circuits.empty()) {
      shares_power = true;
      if (klass == 1) judge_class1_shared(cx, c, r, users.circuits, s.in.where);
      else judge_shared(cx, c, klass, r, derive::listed_names(cx, "circuit", users.circuits), s.in.where);
    }
    judge_others(cx, c, klass, r, users, s.in.where);
    judge_other_runs(cx, c, klass, r, users, s.in.where);
  }
  return shares_power;
}

/// Whether power wiring needs no distance from control wiring: all of it in raceway or in the cables that count as such.
enum class PowerWiring : std::uint8_t { none, enclosed, open, unknown };
PowerWiring find_power_wiring(const Context& cx) {
  if (cx.job().circuits.empty()) return PowerWiring::none;
  const auto exempt = [&](std::string_view type) {
    for (const code::CellRef& cell : cx.rule("control-separation-gap").list("exempt")) {
      const std::string_view name = cell.text();
      if (type == name || (type.starts_with(name) && type.substr(name.size()).starts_with('-'))) return true;
    }
    return false;
  };
  PowerWiring found = PowerWiring::enclosed;
  for (const Circuit& circuit : cx.job().circuits) {
    if (circuit.path.empty()) found = PowerWiring::unknown;
    for (const Stretch& s : circuit.path) {
      if (s.raceway != nullptr || (s.cable != nullptr && s.cable->inside)) continue;
      if (s.cable == nullptr || !s.cable->type) found = PowerWiring::unknown;
      else if (!exempt(*s.cable->type)) return PowerWiring::open;
    }
  }
  return found;
}

PowerWiring power_wiring(const Context& cx) {
  return cx.memory().once<PowerWiring>("power wiring of the case", &cx.job(), [&] { return find_power_wiring(cx); });
}

void judge_gap(Context& cx, const Control& c) {
  const Citation cite = cx.cite("control-separation-gap");
  if (derive::wholly_in_raceway(c)) {
    cx.pass("it runs in raceways all the way, which parts it from power wiring elsewhere", cite);
    return;
  }
  if (c.barrier.value_or(false)) {
    cx.pass("a fixed barrier parts it from power wiring", cite, c.barrier.where);
    return;
  }
  const PowerWiring power = power_wiring(cx);
  if (power == PowerWiring::enclosed) {
    cx.pass("the power circuits of this case run in raceways or in cables that need no distance; other wiring in the building is not known here", cite);
    return;
  }
  if (c.separation) {
    const auto has = cx.given("distance from power conductors", "d", c.separation, units::inch);
    const auto needs = cx.parameter("control-separation-gap", "gap", "distance that parts the two", "dx", units::inch);
    Finding& f = cx.require(has, Must::at_least, needs, cite, c.separation.where);
    if (f.verdict == Verdict::fail) f.change = cx.text("keep {} in between them, put either in raceway, or fix a nonconductor between them", number_text(units::inch.show(needs.value), 2));
    return;
  }
  if (power == PowerWiring::none) {
    cx.not_applicable("this case has no power wiring to keep the run apart from", cite);
    return;
  }
  cx.needs_input("control.separation", power == PowerWiring::open ? "some power wiring of this case is neither in raceway nor in a cable that needs no distance"
                                                                  : "how some power circuits of this case are wired is not given (circuit.path)");
}

void run(Context& cx, const Control& c) {
  if (c.path.empty() && cx.job().circuits.empty() && !c.separation) {
    cx.not_applicable("this case has no power wiring to keep the run apart from");
    return;
  }
  const int klass = derive::wiring_class(cx, c);
  const std::size_t before = cx.findings();
  const bool shares_power = judge_raceways(cx, c, klass);
  if (klass == 1) {
    if (shares_power) judge_insulation(cx, c);
    else if (cx.findings() == before) cx.pass("as Class 1 it is wired like power and shares no raceway with any", cx.cite("class1-with-power"));
    return;
  }
  judge_gap(cx, c);
}

}  // namespace

extern const Check check_control_separation{
    .id = "control-separation",
    .title = "Control wiring apart from power",
    .family = Family::control,
    .about = "A fault between a power conductor and a control wire puts the power's voltage on thin wire, on a thermostat in a child's "
             "reach and on electronics. Class 2 and 3 conductors share no raceway with power or Class 1 conductors unless a barrier parts "
             "them, however good their insulation; wired as Class 1 throughout they may lie with the power that they control. Elsewhere "
             "a gap parts the two, unless either runs in raceway or in a cable that counts like one. Boxes and enclosures are "
             "looked at by control-enclosure; manholes, cable trays and hoistways have rules of their own and are not looked at.",
    .formula = "d >= dx; insulation of Class 1 >= Ux",
    .reads = "control.source.class, control.reclassified, control.path, control.length, control.serves, control.barrier, control.separation, "
             "control.cable.type, control.cable.insulation, circuit.path, cable.type, raceway.also",
    .rules = "control-separation, control-separation-barrier, control-separation-gap, control-reclassified, class1-with-power, class1-size, "
             "control-mixed-limited, control-cable-listing, insulation-voltage, cable-types-control, fixture-wire, insulation, cable-types",
    .run = run};

}  // namespace pullproof
