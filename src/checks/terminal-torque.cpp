#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const CircuitMeasured& m = c.measured;
  const Citation cite = cx.cite("torque");
  if (!m.torque && !m.torque_marked) {
    cx.not_applicable("no torque is given: tighten with a calibrated tool to what is marked", cite);
    return;
  }
  cx.need(m.torque, "measured.torque", "it is held against the marked torque");
  cx.need(m.torque_marked, "measured.torque_marked", "the torque is held against it");
  const auto applied = cx.given("torque applied", "M", m.torque, units::inch_pound);
  const auto marked = cx.given("torque marked", "Mm", m.torque_marked, units::inch_pound);
  Finding& f = cx.require(applied, Must::at_least, marked, cite, m.torque.where);
  if (f.verdict == Verdict::fail) f.change = "tighten it to the marked torque with a calibrated tool, power off";
  if (f.verdict == Verdict::pass && applied.value.newton_metres > marked.value.newton_metres * (1 + slack))
    cx.advise("the torque applied is more than what is marked", "too much strips and cracks: replace what was overtightened, as its maker says", cite, m.torque.where);
}

}  // namespace

extern const Check check_terminal_torque{
    .id = "terminal-torque",
    .title = "Torque at the terminals",
    .family = Family::disconnects,
    .about = "Loose terminals heat, overtightened ones crack. Where a torque is marked it is applied with a calibrated tool; the torque "
             "that was applied is held against the marked one.",
    .formula = "M >= Mm",
    .reads = "measured.torque, measured.torque_marked",
    .rules = "torque",
    .run = run};

}  // namespace pullproof
