#include <algorithm>

#include "calc/motor.hpp"
#include "derive/ampacity.hpp"
#include "derive/device.hpp"
#include "derive/feeding.hpp"
#include "derive/load.hpp"
#include "derive/motor.hpp"
#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// What one branch circuit asks of its feeder.
struct Branch {
  const Circuit* circuit = nullptr;
  bool motor = false;
  Traced<Current> running, raised;
  Traced<Current> steady;  ///< running, with what is continuous and no motor raised
};

constexpr std::size_t most_branches = 48;  // nobody adds up more of them by hand, and a case must not take forever

std::vector<Branch> branches_of(Context& cx, const Circuit& feeder) {
  std::vector<Branch> out;
  for (const Circuit& c : cx.job().circuits) {
    if (derive::is_feeder(c)) continue;
    bool fed = false;
    for (const Circuit* f = c.feeder; f != nullptr; f = f->feeder) fed = fed || f == &feeder;
    if (!fed) continue;
    if (out.size() == most_branches) cx.not_covered(cx.text("more than {} circuits hang on it, which are not added up here", most_branches), cx.cite("motor-feeder-device"));
    out.push_back(derive::on_behalf(cx, feeder, c, [&](Context& its) {
      const derive::Line line = derive::line_of(its, c);
      Branch b{&c, its.listed("small-conductor-relief", "circuits", derive::circuit_kind(its, c)), derive::drawn_current(its, c, line), {}, {}};
      its.working().rename(b.running.step, its.text("current of circuit '{}'", *c.name), "I");
      b.raised = derive::load_for_conductor(its, c, line).current;
      b.steady = b.motor ? b.running : b.raised;
      if (!b.motor || !derive::has_motors(c) || c.also_feeds.empty()) return b;
      const auto motors = derive::circuit_motors(its, c, line);
      b.steady = motors.front().current;
      if (const auto rest = derive::rest_of(its, c, motors, derive::Beside::circuit, "motor-group-conductor"))
        b.steady = its.apply(calc::currents_added, units::ampere, its.cite("motor-group-conductor"), b.steady, *rest);
      its.working().rename(b.steady.step, its.text("current of circuit '{}', what is continuous raised", *c.name), "I");
      return b;
    }));
  }
  return out;
}

/// The largest device that a branch circuit may have: as marked, by the motor or compressor, else the one that it has.
Traced<Current> branch_device(Context& cx, const Circuit& feeder, const Circuit& c) {
  return derive::on_behalf(cx, feeder, c, [&](Context& its) -> Traced<Current> {
    if (c.load.maximum_device) return its.given(its.text("marked maximum device of circuit '{}'", *c.name), "Id", c.load.maximum_device, units::ampere);
    const derive::Line line = derive::line_of(its, c);
    const bool alone = derive::has_motors(c) && !derive::several_motors(c);
    if (alone || (derive::has_motors(c) && derive::circuit_motors(its, c, line).front().compressor)) {
      const auto allowed = derive::motor_device(its, c, line).allowed;
      its.working().rename(allowed.step, its.text("largest device for circuit '{}'", *c.name), "Id");
      return allowed;
    }
    its.need(c.breaker.rating, "breaker.rating", "the feeder's device goes by the largest one behind it");
    return its.given(its.text("device of circuit '{}'", *c.name), "Id", c.breaker.rating, units::ampere);
  });
}

Traced<Current> added(Context& cx, const Traced<Current>& sum, const Traced<Current>& more, const Citation& cite) {
  return cx.apply(calc::currents_added, units::ampere, cite, sum, more);
}

/// 430.24: all currents, continuous loads that are no motors raised, and the largest motor raised.
void conductors(Context& cx, const Circuit& c, const derive::Line& line, const std::vector<Branch>& branches) {
  const Citation cite = cx.cite("motor-group-conductor");
  const Branch* largest = nullptr;
  std::optional<Traced<Current>> sum;
  for (const Branch& b : branches) {
    sum = sum ? added(cx, *sum, b.steady, cite) : b.steady;
    if (b.motor && (largest == nullptr || b.raised.value - b.steady.value > largest->raised.value - largest->steady.value)) largest = &b;
  }
  const auto need = cx.apply(calc::feeder_with_largest, units::ampere, cite, *sum, largest->raised, largest->steady);
  const auto usable = derive::ampacity_of(cx, c, line).usable;
  Finding& f = cx.require(usable, Must::at_least, need, cite, c.wire.size.where);
  if (f.verdict == Verdict::fail) f.change = "use larger conductors";
}

/// 430.62, 430.63: the largest device behind it with the currents of everything else; or what its conductors may have.
void device(Context& cx, const Circuit& c, const derive::Line& line, const std::vector<Branch>& branches) {
  const Citation cite = cx.cite("motor-feeder-device");
  const auto rating = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  const Branch* largest = nullptr;
  std::optional<Traced<Current>> most;
  for (const Branch& b : branches) {
    if (!b.motor) continue;
    const auto d = branch_device(cx, c, *b.circuit);
    // Of equal devices one counts as the largest: that of the larger load, so that the order of circuits says nothing.
    const bool larger = !most || d.value > most->value || (!(most->value > d.value) && b.running.value > largest->running.value);
    if (larger) most = d, largest = &b;
  }
  for (const Branch& b : branches)
    if (&b != largest) most = added(cx, *most, b.motor ? b.running : b.raised, cite);
  cx.working().rename(most->step, "largest device behind it with all other currents", "Id");
  if (!at_most(rating.value, most->value)) {
    const auto own = derive::largest_device(cx, c, derive::ampacity_of(cx, c, line));
    if (own && at_most(rating.value, own->most.value)) return void(cx.require(rating, Must::at_most, own->most, own->cite, c.breaker.rating.where));
  }
  Finding& f = cx.require(rating, Must::at_most, *most, cite, c.breaker.rating.where);
  if (f.verdict != Verdict::fail) return;
  const auto standard = derive::largest_standard(cx, derive::device_kind(c), most->value);
  f.change = standard ? cx.text("use a device of at most {} A, or conductors that may have the one that is there", number_text(raw(*standard), 1)) : "use a smaller device";
}

void run(Context& cx, const Circuit& c) {
  if (!derive::is_feeder(c)) return void(cx.not_applicable("it is no feeder"));
  if (!derive::feeds_motors(cx, c)) return void(cx.not_applicable("it feeds no motors", cx.cite("motor-feeder-device")));
  cx.need(c.breaker.rating, "breaker.rating", "the feeder's device is held against what it feeds");
  const derive::Line line = derive::line_of(cx, c);
  const auto branches = branches_of(cx, c);
  if (branches.size() > 1)
    cx.assume("loads of the feeder", "its circuits are taken as all on the same lines and running at once", cx.cite("motor-group-conductor"));
  // A calculated load of a feeder with other loads has their demand in it, which is less than their sum.
  const bool others = std::any_of(branches.begin(), branches.end(), [](const Branch& b) { return !b.motor; });
  if (!others || !derive::has_load(c)) conductors(cx, c, line, branches);
  device(cx, c, line, branches);
}

}  // namespace

extern const Check check_motor_feeder{
    .id = "motor-feeder",
    .title = "Feeder of motors",
    .family = Family::protection,
    .about = "A feeder carries all its motors at once, the largest of them starting. Its conductors carry a quarter more than the largest and the "
             "whole of the rest. Its device lets the largest branch device do its work first: it is at most that device with the currents of "
             "all others, not rounded up, unless the conductors may have a larger one by themselves. Where it feeds other loads too and its own load is given, that load is "
             "taken as calculated, and the check of its ampacity holds it.",
    .formula = "Iz >= sum of I + (Im - I1) of the largest; In <= largest device behind it + the other currents, or what Iz allows",
    .reads = "circuit.role, circuit.fed_by, circuit.path, circuit.wire, breaker.rating, load.motors, load.minimum_circuit_ampacity, "
             "load.maximum_device, load.current",
    .rules = "motor-group-conductor, motor-feeder-device, motor-device, motor-device-raised, motor-single-phase, motor-three-phase, motor-synchronous, cooling-device, cooling-conductor, "
             "marked-minimum, standard-ratings, ampacity, next-size-up",
    .run = run};

}  // namespace pullproof
