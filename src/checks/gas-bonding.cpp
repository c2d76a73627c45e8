#include "derive/ground.hpp"
#include "derive/outlet.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// Tubing of thin steel is pierced by stray lightning current: its makers want a short heavy conductor.
void tubing(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("gas-csst");
  const Load& l = c.load;
  if (!l.gas_bond && l.gas_bonded.value_or(true))
    cx.needs_input("load.gas_bond", "CSST is bonded by a conductor of its own, whose size and length its maker sets; the circuit's ground is not enough");
  const std::string_view least = cx.parameter_text("gas-csst", "size");
  if (!l.gas_bond) return void(cx.fail("nothing bonds the CSST", cx.text("bond it with {} copper to the service, the electrode conductor or an electrode", least), cite, l.gas_bonded.where));
  const auto has = derive::circular_mils(cx, *l.gas_bond, cx.text("circular mils of the bonding {}", l.gas_bond->label()), "Gb");
  const auto need = derive::circular_mils(cx, *ConductorSize::parse(least), cx.text("circular mils of {}", least), "Gmin");
  Finding& f = cx.require(has, Must::at_least, need, cite, l.gas_bond.where);
  f.message = cx.text("{} bonds the CSST, which takes {} copper or larger", l.gas_bond->label(), least);
  if (f.verdict == Verdict::fail) f.change = cx.text("use {} copper", least);
  if (!l.gas_bond_length) cx.needs_input("load.gas_bond_length", "a long bonding conductor does not carry off lightning current");
  const auto length = cx.given("length of the bonding conductor", "L", l.gas_bond_length, units::foot);
  const auto most = cx.parameter("gas-csst", "length", "longest bonding conductor", "Lmax", units::foot);
  Finding& g = cx.require(length, Must::at_most, most, cite, l.gas_bond_length.where);
  if (g.verdict == Verdict::fail) g.change = cx.text("bond it nearer to the service or to an electrode: at most {}", shown(cx.working().steps()[most.step]));
}

/// Whether a grounding conductor is known to run along the whole circuit.
bool grounded(Context& cx, const Circuit& c) {
  if (c.path.empty()) return c.ground.size || c.ground.kind;
  for (const Stretch& s : c.path) {
    Context quiet = cx.scratch();
    const derive::GroundOn g = derive::ground_on(quiet, c, s);
    if (g.wire || g.raceway || (s.cable != nullptr && derive::armor_grounds(quiet, *s.cable))) continue;
    return false;
  }
  return true;
}

void run(Context& cx, const Circuit& c) {
  const Load& l = c.load;
  if (!l.appliance || !cx.listed("gas-piping", "appliances", *l.appliance)) return void(cx.not_applicable("it feeds no gas appliance"));
  const Citation cite = cx.cite("gas-piping");
  if (l.gas_piping && *l.gas_piping == GasPiping::plastic)
    return void(cx.not_applicable("plastic piping cannot become live; metal parts at its ends can", cite));
  if (l.gas_piping && *l.gas_piping == GasPiping::csst) return tubing(cx, c);
  if (!l.gas_piping) cx.assume("gas piping", "load.gas_piping is not given: taken as steel or copper pipe, not as CSST, which needs a bonding conductor of its own", cite);
  if (l.gas_bonded && !*l.gas_bonded)
    return void(cx.fail("nothing bonds the gas piping of an appliance that can make it live", "connect the circuit's grounding conductor to the appliance, whose metal is joined to the pipe, or bond the pipe",
                        cite, l.gas_bonded.where));
  if (l.gas_bonded) return void(cx.pass("the gas piping is bonded by a conductor of its own", cite, l.gas_bonded.where));
  if (!grounded(cx, c)) cx.needs_input("ground.size", "the grounding conductor of the circuit that can make gas piping live bonds it");
  cx.pass("the grounding conductor of this circuit, which can make the gas piping live, bonds it", cite, c.ground.where);
}

}  // namespace

extern const Check check_gas_bonding{
    .id = "gas-bonding",
    .title = "Gas piping is bonded",
    .family = Family::grounding,
    .about = "A fault in a gas appliance makes its gas pipe live. The pipe is bonded; the grounding conductor of the circuit that can make it live does "
             "that through the metal of the appliance. Corrugated stainless steel tubing (CSST) is so thin that an arc of lightning pierces it: its "
             "makers and the fuel gas code want a bonding conductor of its own. Gas pipe is never a grounding electrode.",
    .formula = "L <= Lmax",
    .reads = "load.appliance, load.gas_piping, load.gas_bonded, load.gas_bond, load.gas_bond_length, ground.kind, ground.size, cable.ground, circuit.path",
    .rules = "gas-piping, gas-csst, conductor-properties, cable-types",
    .run = run};

}  // namespace pullproof
