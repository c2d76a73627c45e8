#include "calc/motor.hpp"
#include "derive/motor.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// A service factor or a temperature rise that allows the larger percentage; either of the two does.
bool tolerant(Context& cx, const Motor& m) {
  const double factor = cx.parameter("motor-overload", "service-factor-ratio", units::ratio);
  const double rise = cx.parameter("motor-overload", "rise-c", units::count);
  return (m.service_factor && at_least(*m.service_factor, factor)) || (m.temperature_rise && at_most(m.temperature_rise->celsius, rise));
}

void judge(Context& cx, const Circuit& c, const Motor& m) {
  const Citation cite = cx.cite("motor-overload");
  cx.need(m.nameplate_current, "load.motors.nameplate_current", "the overload device goes by the nameplate, not by the table");
  const bool larger = tolerant(cx, m), raised = c.load.hard_start.value_or(false);
  constexpr std::string_view rule = "motor-overload", raised_rule = "motor-overload-raised";
  const Citation raised_cite = raised ? cx.cite(raised_rule) : cite;
  if (!m.service_factor && !m.temperature_rise)
    cx.assume("service factor", "neither load.motors.service_factor nor temperature_rise is given: the smaller percentage is taken", cite);
  const auto k = cx.parameter(raised ? raised_rule : rule, larger ? "percent" : "other-percent", "share of the nameplate current", "k", units::percent);
  const auto n = cx.given("nameplate current", "In", m.nameplate_current, units::ampere);
  const auto most = cx.apply(calc::overload_limit, units::ampere, raised_cite, k, n);
  const auto setting = cx.given("overload device", "Is", m.overload, units::ampere);
  Finding& f = cx.require(setting, Must::at_most, most, raised_cite, m.overload.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("set it to at most {} A", number_text(raw(most.value), 2));
}

void run(Context& cx, const Circuit& c) {
  bool any = false;
  for (const Motor& m : c.load.motors) {
    if (m.overload) judge(cx, c, m);
    else if (m.thermally_protected && *m.thermally_protected)
      cx.pass("it is marked thermally or impedance protected", cx.cite("motor-protector"), m.thermally_protected.where);
    else if (m.thermally_protected)
      cx.fail("the motor has neither an overload device nor protection of its own", "use a starter with an overload device, or a motor that is marked thermally protected",
              cx.cite("motor-overload"), m.thermally_protected.where);
    else continue;
    any = true;
  }
  if (!any) cx.not_applicable("no overload device is described; a listed appliance has its own", cx.cite("motor-overload"));
}

}  // namespace

extern const Check check_motor_overload{
    .id = "motor-overload",
    .title = "Overload device of a motor",
    .family = Family::protection,
    .about = "The overload device lets a motor start and stops it before it burns. Its setting goes by the current on the nameplate: a "
             "larger share for a motor with a high service factor or a low temperature rise, a smaller one for all others; both are higher where the motor does not start otherwise. A motor that is marked thermally "
             "or impedance protected has its protection in it.",
    .formula = "Is <= k * In",
    .reads = "load.motors.overload, load.motors.nameplate_current, load.motors.service_factor, load.motors.temperature_rise, load.motors.thermally_protected, load.hard_start",
    .rules = "motor-overload, motor-overload-raised, motor-protector",
    .run = run};

}  // namespace pullproof
