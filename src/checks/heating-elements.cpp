#include "derive/load.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The rule that divides the elements of an appliance; empty where none does.
std::string_view dividing_rule(const Context& cx, const Circuit& c) {
  for (const std::string_view rule : {"appliance-elements", "appliance-elements-vessel", "space-heating-elements"})
    if (cx.has_rule(rule) && c.load.appliance && cx.listed(rule, "appliances", *c.load.appliance)) return rule;
  return {};
}

/// Cooking equipment with surface elements and a large demand is divided in itself.
void surface_elements(Context& cx, const Circuit& c) {
  constexpr std::string_view rule = "appliance-surface-elements";
  const Citation cite = cx.cite(rule);
  const auto demand = derive::circuit_load(cx, c, derive::line_of(cx, c));
  const auto undivided = cx.parameter(rule, "demand", "largest demand that is not divided", "I,max", units::ampere);
  if (at_most(demand.value, undivided.value)) return void(cx.require(demand, Must::at_most, undivided, cite, c.load.where));
  cx.need(c.load.subdivision_device, "load.subdivision_device", "cooking equipment of this demand is divided in itself, each part with a device: read its data sheet");
  const auto device = cx.given("device of a part", "In", c.load.subdivision_device, units::ampere);
  const auto most = cx.parameter(rule, "part", "largest device of a part", "In,max", units::ampere);
  Finding& f = cx.require(device, Must::at_most, most, cite, c.load.subdivision_device.where);
  if (f.verdict == Verdict::fail) f.change = "use equipment whose maker divides it so";
}

void run(Context& cx, const Circuit& c) {
  const Load& l = c.load;
  if (!l.appliance) return void(cx.not_applicable("the case does not say which appliance it is"));
  if (cx.has_rule("appliance-surface-elements") && cx.listed("appliance-surface-elements", "appliances", *l.appliance)) return surface_elements(cx, c);
  const std::string_view rule = dividing_rule(cx, c);
  if (rule.empty()) return void(cx.not_applicable(cx.text("no rule divides the elements of a {}", *l.appliance)));
  const Citation cite = cx.cite(rule);
  const auto most = cx.parameter(rule, "load", "largest undivided load of heating elements", "Ie,max", units::ampere);
  const bool divided = l.largest_subdivision.present;
  const auto load = divided ? cx.given("largest subdivided load", "Ie", l.largest_subdivision, units::ampere) : derive::load_current(cx, c, derive::line_of(cx, c));
  if (!divided && !at_most(load.value, most.value))
    cx.needs_input("load.largest_subdivision", cx.text("elements of {} A are divided in the appliance into parts of at most {} A, each with a device: read its data sheet",
                                                       number_text(raw(load.value), 2), number_text(raw(most.value), 0)));
  Finding& f = cx.require(load, Must::at_most, most, cite, divided ? l.largest_subdivision.where : l.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use equipment that its maker divides into parts of at most {}", shown(cx.working().steps()[most.step]));
  const Given<Current>& device = divided ? l.subdivision_device : c.breaker.rating;
  if (!device && divided) cx.needs_input("load.subdivision_device", "each part has a device of limited rating");
  if (!device) return;
  const auto rating = cx.given(divided ? "device of a part" : "device of the circuit", "In", device, units::ampere);
  const auto limit = cx.parameter(rule, "device", "largest device for undivided elements", "In,max", units::ampere);
  Finding& g = cx.require(rating, Must::at_most, limit, cite, device.where);
  if (g.verdict == Verdict::fail)
    g.change = cx.text("use a device of at most {}, or equipment whose parts have their own", shown(cx.working().steps()[limit.step]));
}

}  // namespace

extern const Check check_heating_elements{
    .id = "heating-elements",
    .title = "Heating elements are divided",
    .family = Family::protection,
    .about = "A short circuit in one element of a large heater has to trip a device of modest size. Elements above a current are divided into parts, each "
             "protected by a device of limited rating, as a rule in the appliance by its maker; electric heaters that heat water as it is drawn have "
             "higher limits, and cooking equipment with surface elements is divided by its demand. A circuit that feeds no more than such a part needs no division.",
    .formula = "Ie <= Ie,max; In <= In,max",
    .reads = "load.appliance, load.current, load.power, load.largest_subdivision, load.subdivision_device, breaker.rating, circuit.voltage",
    .rules = "appliance-elements, appliance-elements-vessel, space-heating-elements, appliance-surface-elements, range-load",
    .run = run};

}  // namespace pullproof
