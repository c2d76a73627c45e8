#include "derive/fault.hpp"
#include "derive/load.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite(derive::circuit_kind(cx, c) == "cooling" && cx.has_rule("cooling-short-circuit") ? "cooling-short-circuit" : "fault-current-withstand");
  if (!cx.job().supply.available_fault) {
    if (c.load.short_circuit_rating) cx.needs_input("supply.available_fault", "the marked short-circuit rating is held against what arrives of it");
    cx.not_applicable("no fault current is given", cite);
    return;
  }
  if (c.fed_by && !c.load.short_circuit_rating) {
    cx.not_applicable("it is fed by a feeder; the fault current at its panel is less than at the supply", cite);
    return;
  }
  if (c.path.empty()) cx.needs_input("circuit.path", "the run limits the fault current");
  if (!c.load.short_circuit_rating) {
    Context quiet = cx.scratch();
    const Traced<Current> at_load = derive::fault_at_end(quiet, c);
    cx.not_applicable(cx.text("no short-circuit rating is marked; at most {} A arrive at the load", number_text(raw(at_load.value), 0)), cite);
    return;
  }
  const auto at_load = derive::fault_at_end(cx, c);
  const auto rating = cx.given("marked short-circuit rating", "Iw", c.load.short_circuit_rating, units::ampere);
  Finding& f = cx.require(at_load, Must::at_most, rating, cite, c.load.short_circuit_rating.where);
  if (f.verdict == Verdict::fail) f.change = "use equipment with a higher rating, or current-limiting fuses that are listed with it";
}

}  // namespace

extern const Check check_fault_at_load{
    .id = "fault-at-load",
    .title = "Fault current at the appliance",
    .family = Family::protection,
    .about = "Equipment is marked with the fault current that it withstands. What arrives of the panel's fault current is limited by the "
             "run; the largest that can arrive is worked out with a purely reactive source and cold conductors, and held against the "
             "marking.",
    .formula = "Xs = V / (c Is); If = V / (c sqrt(R^2 + (X + Xs)^2)); If <= marked rating; c = 1, or sqrt(3) for three phases",
    .reads = "supply.available_fault, load.short_circuit_rating, circuit.voltage, circuit.path, circuit.wire, raceway.length",
    .rules = "fault-current-withstand, cooling-short-circuit, conductor-properties, ac-impedance, resistance-temperature",
    .run = run};

}  // namespace pullproof
