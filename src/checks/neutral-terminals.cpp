#include <algorithm>

#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Supply& s) {
  const Given<double>& n = s.panel.neutrals_per_terminal;
  const Citation cite = cx.cite("neutral-terminal");
  const auto shares = [](const Circuit& c) { return !c.fed_by && c.multiwire.value_or(false); };
  if (!n && s.panel.where && std::any_of(cx.job().circuits.begin(), cx.job().circuits.end(), shares))
    cx.needs_input("supply.panel.neutrals_per_terminal", "the neutral of a multiwire circuit shares its terminal with no other wire");
  if (!n) return void(cx.not_applicable("nothing is said of the terminals of the neutral bar", cite));
  const auto have = cx.given("neutrals under one terminal", "n", n, units::count);
  const auto may = cx.parameter("neutral-terminal", "most-count", "neutrals that one terminal takes", "nmax", units::count);
  Finding& f = cx.require(have, Must::at_most, may, cite, n.where);
  if (f.verdict == Verdict::fail) f.change = "put each neutral under a terminal of its own; grounds may share one where the panel's label says so";
}

}  // namespace

extern const Check check_neutral_terminals{
    .id = "neutral-terminals",
    .title = "One neutral under each terminal",
    .family = Family::boxes,
    .about = "When two neutrals share a screw, taking one off to work on its circuit loosens the other, whose circuit is live; a multiwire circuit then "
             "gets twice its voltage. In a panelboard each neutral has a terminal of its own, which holds no other wire.",
    .formula = "n <= nmax",
    .reads = "supply.panel.neutrals_per_terminal, circuit.multiwire",
    .rules = "neutral-terminal",
    .run = run};

}  // namespace pullproof
