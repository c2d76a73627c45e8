#include "derive/load.hpp"
#include "derive/motor.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (!derive::has_motors(c)) {
    const bool motor = derive::circuit_kind(cx, c) != "ordinary" && !c.load.maximum_device;
    if (motor) cx.needs_input("load.motors", "the device goes by the current of the motor or compressor, or by a marked maximum");
    cx.not_applicable("no motor is described", cx.cite("motor-device"));
    return;
  }
  if (c.load.maximum_device) {
    cx.not_applicable("the marked maximum sets the device", cx.cite("marked-maximum"));
    return;
  }
  cx.need(c.breaker.rating, "breaker.rating", "it is held against the limit for the motor");
  const derive::Line line = derive::line_of(cx, c);
  if (derive::several_motors(c) && !derive::circuit_motors(cx, c, line).front().compressor)
    return void(cx.not_applicable("several motors, or one and other loads, share the device: 'motor-group' looks at it", cx.cite("motor-group-device")));
  const derive::MotorDevice limit = derive::motor_device(cx, c, line);
  const auto device = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  Finding& f = cx.require(device, Must::at_most, limit.allowed, limit.cite, c.breaker.rating.where);
  if (f.verdict != Verdict::fail) return;
  f.change = cx.text("use a device of at most {} A{}", number_text(raw(limit.allowed.value), 1),
                     c.load.hard_start.value_or(false) ? "" : "; if the motor cannot start on it, say so (load.hard_start = true): the limit is raised");
}

}  // namespace

extern const Check check_motor_device{
    .id = "motor-device",
    .title = "Short-circuit device of motors and compressors",
    .family = Family::protection,
    .about = "A motor draws many times its running current when it starts, so its device may be larger than its wire would allow, up "
             "to a share of its table current that goes by the kind of motor and device; its overload device guards the wire. A "
             "compressor's device goes by its greater marked current and is not rounded up. A marked maximum takes the place of all "
             "that. Several motors on one device are the matter of 'motor-group'.",
    .formula = "motor: In <= next standard rating from k * I1; compressor: In <= standard rating within k * I1 + the rest",
    .reads = "load.motors, load.hard_start, load.other_current, load.maximum_device, breaker.rating, breaker.kind, breaker.time_delay, circuit.voltage",
    .rules = "motor-device, motor-device-raised, motor-single-phase, motor-three-phase, motor-synchronous, motor-dc, cooling-device, cooling-group-device, "
             "cooling-current, motor-group-device, marked-maximum, standard-ratings, appliances",
    .run = run};

}  // namespace pullproof
