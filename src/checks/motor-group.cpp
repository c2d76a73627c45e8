#include <algorithm>

#include "calc/motor.hpp"
#include "derive/motor.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

using Motors = std::vector<derive::MotorCurrent>;

/// Whether each motor is small enough for one small device. Where the horsepower is not known the current tells, up to
/// the voltage at which the largest small motor draws more than that. It never tells of three phases: there the motor of
/// the size above draws as little (Table 430.250: 6.0 A at 230 V), and by its nameplate less.
bool all_small(Context& cx, const Motors& motors, const derive::Line& line) {
  constexpr std::string_view rule = "motor-group-device";
  const Current each = cx.parameter(rule, "each", units::ampere);
  const Horsepower power = cx.parameter(rule, "each-power", units::horsepower);
  const bool current_tells = line.phases != 3 && at_most(line.volts, cx.parameter(rule, "current-tells-through", units::volt));
  return std::all_of(motors.begin(), motors.end(), [&](const derive::MotorCurrent& m) {
    if (!at_most(m.current.value, each)) return false;
    return m.motor != nullptr && m.motor->horsepower ? at_most(raw(*m.motor->horsepower), raw(power)) : current_tells;
  });
}

/// What the smallest motor may have alone; of equal ones of several kinds the least.
Traced<Current> device_of_smallest(Context& cx, const Circuit& c, const derive::Line& line, const Motors& motors) {
  const derive::MotorCurrent& last = motors.back();
  auto out = derive::motor_device(cx, c, line, last).allowed;
  for (const derive::MotorCurrent& m : motors) {
    if (m.current.value > last.current.value || m.motor == nullptr || last.motor == nullptr) continue;
    if (!m.motor->kind || !last.motor->kind || *m.motor->kind == *last.motor->kind) continue;
    if (const auto its = derive::motor_device(cx, c, line, m).allowed; its.value < out.value) out = its;
  }
  return out;
}

/// A group that is listed for one device: that of the largest motor with the currents of everything else.
void listed_group(Context& cx, const Circuit& c, const derive::Line& line, const Motors& motors, const Traced<Current>& rating) {
  const Citation cite = cx.cite("motor-group-listed");
  auto most = derive::motor_device(cx, c, line, motors.front()).most;
  cx.working().rename(most.step, "most for the largest motor", "Im");
  if (const auto rest = derive::rest_of(cx, c, motors, derive::Beside::circuit)) most = cx.apply(calc::device_with_rest, units::ampere, cite, most, *rest);
  Finding& f = cx.require(rating, Must::at_most, most, cite, c.breaker.rating.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use a device of at most {} A", number_text(raw(most.value), 1));
}

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("motor-group-device");
  if (!derive::several_motors(c)) return void(cx.not_applicable("it does not feed several motors, nor one beside other loads", cite));
  if (c.load.maximum_device && c.also_feeds.empty()) return void(cx.not_applicable("the marked maximum sets the device", cx.cite("marked-maximum")));
  const derive::Line line = derive::line_of(cx, c);
  const Motors motors = derive::circuit_motors(cx, c, line);
  if (motors.front().compressor) return void(cx.not_applicable("the device of a compressor and what runs with it is held in 'motor-device'", cx.cite("cooling-group-device")));
  cx.need(c.breaker.rating, "breaker.rating", "it is held against the limit for the motors");
  const auto rating = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  const bool low = at_most(line.volts, cx.parameter("motor-group-device", "low-voltage", units::volt));
  const auto small = cx.parameter("motor-group-device", low ? "circuit-120v" : "circuit", "device that several small motors may share", "In,max", units::ampere);
  if (all_small(cx, motors, line) && at_most(rating.value, small.value))
    return void(cx.require(rating, Must::at_most, small, cite, c.breaker.rating.where));
  const auto smallest = device_of_smallest(cx, c, line, motors);
  cx.working().rename(smallest.step, "largest device for the smallest motor", "Id");
  const Citation by_smallest = cx.cite("motor-group-smallest");
  if (at_most(rating.value, smallest.value)) return void(cx.require(rating, Must::at_most, smallest, by_smallest, c.breaker.rating.where));
  if (!c.load.group_listed)
    cx.needs_input("load.group_listed", cx.text("{} A is more than the smallest motor may have alone ({} A): only a group that is listed for it may share such a device",
                                                number_text(raw(rating.value), 1), number_text(raw(smallest.value), 1)));
  if (*c.load.group_listed) return listed_group(cx, c, line, motors, rating);
  Finding& f = cx.require(rating, Must::at_most, smallest, by_smallest, c.breaker.rating.where);
  f.change = cx.text("use a device of at most {} A where the motors start on it, or give each motor a circuit of its own", number_text(raw(smallest.value), 1));
}

}  // namespace

extern const Check check_motor_group{
    .id = "motor-group",
    .title = "One device for several motors",
    .family = Family::protection,
    .about = "A device that starts a large motor may not protect a small one on the same circuit. Small motors may share a small device; others "
             "share one that is no larger than the smallest motor may have alone, if all of them start on it; and motors, controllers and "
             "overload devices that are listed as a group may have that of the largest with the currents of the rest. Each motor has its own "
             "overload protection.",
    .formula = "each small: In <= In,max; In <= next standard rating from k * I of the smallest; listed: In <= k * I1 + the rest",
    .reads = "load.motors, load.other_current, load.group_listed, load.maximum_device, circuit.also_feeds, circuit.also_feeds.motor, "
             "circuit.also_feeds.current, breaker.rating, breaker.kind, breaker.time_delay, circuit.voltage",
    .rules = "motor-group-device, motor-group-smallest, motor-group-listed, motor-device, motor-device-raised, motor-single-phase, motor-three-phase, motor-synchronous, motor-dc, "
             "cooling-group-device, cooling-current, marked-maximum, standard-ratings",
    .run = run};

}  // namespace pullproof
