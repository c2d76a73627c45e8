#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The voltage rating of a circuit's insulation in this raceway.
Traced<Voltage> insulation(Context& cx, const Circuit& c, const Stretch& s) {
  const Given<Voltage>& given = s.wire.insulation_voltage ? s.wire.insulation_voltage : c.wire.insulation_voltage;
  const std::string_view name = cx.text("insulation of '{}'", *c.name);
  if (given) return cx.given(name, "Vi", given, units::volt);
  const Given<std::string_view>& type = s.wire.type ? s.wire.type : c.wire.type;
  if (const auto t = cx.edition().table("fixture-wire"); t && type)
    if (const auto row = t->find(*type))
      if (const auto v = cx.cell(*t, *row, "voltage", name, "Vi", units::volt)) return *v;
  const Voltage usual = cx.parameter("insulation-voltage", "voltage", units::volt);
  return cx.assume(name, "Vi", usual, units::volt,
                   cx.text("wire.insulation_voltage of '{}' is not given: taken as {} V, as building wire is made", *c.name, number_text(units::volt.show(usual), 0)),
                   cx.cite("insulation-voltage"));
}

void run(Context& cx, const Raceway& r) {
  const auto circuits = derive::circuits_in(cx, Way(r));
  bool told = false, differ = false;
  for (const Circuit* c : circuits) {
    told = told || c->wire.insulation_voltage || derive::stretch_in(*c, r)->wire.insulation_voltage;
    differ = differ || (c->voltage && circuits.front()->voltage && *c->voltage != *circuits.front()->voltage);
  }
  if (circuits.size() < 2 && !told) return void(cx.not_applicable("one circuit, or none, runs in it"));
  const Circuit* highest = nullptr;
  for (const Circuit* c : circuits) {
    cx.need(c->voltage, "circuit.voltage", cx.text("the insulation of all in '{}' has to suit the highest voltage there", *r.name));
    if (highest == nullptr || *c->voltage > *highest->voltage) highest = c;
  }
  if (!differ && !told) return void(cx.not_applicable("its circuits have one voltage"));
  const auto volts = cx.given("highest voltage in the raceway", "V", highest->voltage, units::volt);
  const Citation cite = cx.cite("mixed-voltages");
  std::optional<Traced<Voltage>> weakest;
  for (const Circuit* c : circuits) {
    const auto v = insulation(cx, *c, *derive::stretch_in(*c, r));
    if (!weakest || v.value < weakest->value) weakest = v;
  }
  Finding& f = cx.require(*weakest, Must::at_least, volts, cite, r.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use wire rated for {} V, or a raceway of its own", number_text(units::volt.show(volts.value), 0));
}

}  // namespace

extern const Check check_mixed_voltages{
    .id = "mixed-voltages",
    .title = "Several voltages in one raceway",
    .family = Family::conductors,
    .about = "Circuits of different voltages may share a raceway where the insulation of every conductor in it suits the highest of them. Building "
             "wire is taken as rated 600 V unless the case or the table of fixture wire says otherwise. Class 2 and 3 conductors never share with power; "
             "that is the matter of the control checks.",
    .formula = "Vi >= V",
    .reads = "circuit.voltage, wire.insulation_voltage, wire.type, circuit.path",
    .rules = "mixed-voltages, insulation-voltage, fixture-wire",
    .run = run};

}  // namespace pullproof
