#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The metal on the stretch at one end, copper where nothing is said.
Material metal_at(const Circuit& c, const Stretch& s) {
  if (s.cable != nullptr && s.cable->material) return *s.cable->material;
  return s.wire.material ? *s.wire.material : c.wire.material.value_or(Material::copper);
}

void aluminum_at(Context& cx, const Circuit& c, const Stretch& s, const Given<bool>& marked, std::string_view where, std::string_view key) {
  if (metal_at(c, s) != Material::aluminum) return;
  const Citation cite = cx.cite("terminal-metal");
  if (!marked) cx.assume("terminals for aluminum", cx.text("{} is not given: the terminals at the {} are taken as marked for aluminum", key, where), cite);
  else if (*marked) cx.pass(cx.text("the terminals at the {} are marked for aluminum", where), cite, marked.where);
  else cx.fail(cx.text("aluminum conductors on terminals at the {} that are not marked for them", where),
               "use copper, or splice copper tails on with connectors that are listed for both metals", cite, marked.where);
}

void run(Context& cx, const Circuit& c) {
  const Breaker& b = c.breaker;
  const Citation cite = cx.cite("terminal-wires");
  if (b.wires_per_terminal) {
    const auto have = cx.given("wires on one terminal", "n", b.wires_per_terminal, units::count);
    const bool several = !at_most(have.value, cx.parameter("terminal-wires", "unmarked-count", units::count));
    if (several) cx.need(b.terminal_wires, "breaker.terminal_wires", "several wires are on one terminal only where it is marked for them");
    const auto may = several ? cx.given("wires that the terminal is marked for", "nmax", b.terminal_wires, units::count)
                             : cx.parameter("terminal-wires", "unmarked-count", "wires on a terminal without a mark", "nmax", units::count);
    Finding& f = cx.require(have, Must::at_most, may, cite, b.wires_per_terminal.where);
    if (f.verdict == Verdict::fail) f.change = "join the wires in a connector and run one wire to the terminal";
  }
  if (!c.path.empty()) {
    aluminum_at(cx, c, c.path.front(), b.aluminum_terminals, "device", "breaker.aluminum_terminals");
    aluminum_at(cx, c, c.path.back(), c.load.aluminum_terminals, "load", "load.aluminum_terminals");
  }
  if (cx.findings() == 0) cx.not_applicable("nothing says that several wires are on one terminal, or that one is not made for their metal", cite);
}

}  // namespace

extern const Check check_terminal_wires{
    .id = "terminal-wires",
    .title = "Wires and metals on a terminal",
    .family = Family::boxes,
    .about = "A screw that is made for one wire does not hold two: the one that is clamped less gets hot. A terminal takes one wire unless it is "
             "marked for more, and aluminum only where it is marked for aluminum.",
    .formula = "n <= nmax",
    .reads = "breaker.wires_per_terminal, breaker.terminal_wires, breaker.aluminum_terminals, load.aluminum_terminals, wire.material, cable.material, "
             "circuit.path",
    .rules = "terminal-wires, terminal-metal",
    .run = run};

}  // namespace pullproof
