#include <cmath>

#include "calc/fault.hpp"
#include "derive/impedance.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The largest current into a bolted fault at the load, from the panel's available fault current.
Traced<Current> fault_at_load(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  constexpr double cold = 25;  // °C: what conductors have before they carry anything (common practice)
  Resistance r{}, x{};
  for (const Stretch& s : c.path) {
    derive::Conductors k = derive::conductors_on(cx, c, s);
    k.temperature.value = {cold};
    k.temperature.present = true;
    k.temperature.text = "25 °C, cold";
    const derive::Impedance z = derive::impedance_of(cx, line, s, k);
    r += z.resistance.value;
    x += z.reactance.value;
  }
  // Between two conductors both ways count; of three phases, one way and the voltage to the neutral point.
  const bool three = line.phases == 3;
  const double ways = three ? 1 : 2;
  const auto v = cx.given("circuit voltage", "V", c.voltage, units::volt);
  const auto f = cx.working().choice("factor for the phases", "c", three ? std::sqrt(3.0) : 1.0, units::ratio, three ? "three phases" : "single phase", {});
  const auto available = cx.given("fault current at the panel", "Is", cx.job().supply.available_fault, units::ampere);
  const auto xs = cx.apply(calc::source_reactance, units::ohm, {}, v, f, available);
  const auto rr = cx.working().choice("resistance of the run", "R", ways * r, units::ohm, three ? "one way, cold" : "out and back, cold", {});
  const auto xx = cx.working().choice("reactance of the run", "X", ways * x, units::ohm, three ? "one way" : "out and back", {});
  return cx.apply(calc::fault_current, units::ampere, cx.cite("fault-current-withstand"), v, f, rr, xx, xs);
}

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("fault-current-withstand");
  if (!cx.job().supply.available_fault) {
    if (c.load.short_circuit_rating) cx.needs_input("supply.available_fault", "the marked short-circuit rating is held against what arrives of it");
    cx.not_applicable("no fault current is given", cite);
    return;
  }
  if (c.fed_by) {
    cx.not_applicable("it is fed by a feeder; the fault current at its panel is less than at the supply", cite);
    return;
  }
  if (c.path.empty()) cx.needs_input("circuit.path", "the run limits the fault current");
  if (!c.load.short_circuit_rating) {
    Context quiet = cx.scratch();
    const Traced<Current> at_load = fault_at_load(quiet, c);
    cx.not_applicable(cx.text("no short-circuit rating is marked; at most {} A arrive at the load", number_text(raw(at_load.value), 0)), cite);
    return;
  }
  const auto at_load = fault_at_load(cx, c);
  const auto rating = cx.given("marked short-circuit rating", "Iw", c.load.short_circuit_rating, units::ampere);
  Finding& f = cx.require(at_load, Must::at_most, rating, cite, c.load.short_circuit_rating.where);
  if (f.verdict == Verdict::fail) f.change = "use equipment with a higher rating, or current-limiting fuses that are listed with it";
}

}  // namespace

extern const Check check_fault_at_load{
    .id = "fault-at-load",
    .title = "Fault current at the appliance",
    .about = "Equipment is marked with the fault current that it withstands. What arrives of the panel's fault current is limited by the "
             "run; the largest that can arrive is worked out with a purely reactive source and cold conductors, and held against the "
             "marking.",
    .formula = "Xs = V / (c Is); If = V / (c sqrt(R^2 + (X + Xs)^2)); If <= marked rating; c = 1, or sqrt(3) for three phases",
    .reads = "supply.available_fault, load.short_circuit_rating, circuit.voltage, circuit.path, circuit.wire, raceway.length",
    .rules = "fault-current-withstand, conductor-properties, ac-impedance, resistance-temperature",
    .run = run};

}  // namespace pullproof
