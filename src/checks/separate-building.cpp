#include <algorithm>

#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (!c.other_building.value_or(false))
    return void(cx.not_applicable(c.other_building ? "it stays in this building" : "nothing says that it goes to another building"));
  const Citation cite = cx.cite("separate-building");
  const auto& all = cx.job().circuits;
  const auto count = std::count_if(all.begin(), all.end(), [&](const Circuit& o) { return o.other_building.value_or(false) && o.feeder == c.feeder; });
  const auto going = cx.working().choice("circuits of this case that go to another building", "n", static_cast<double>(count), units::count, "as the case says", {});
  const auto without = cx.parameter("separate-building", "branch-circuit-count", "branch circuits that need no electrode there", "nmax", units::count);
  const bool branch = !derive::is_feeder(c);
  if (branch && at_most(going.value, without.value) && !(c.electrode && *c.electrode)) {
    cx.require(going, Must::at_most, without, cite, c.other_building.where).message =
        "a single branch circuit with a grounding conductor feeds the building, which needs no electrode then";
    return;
  }
  if (!c.electrode)
    cx.needs_input("circuit.electrode", branch ? "more than one branch circuit goes to another building, which needs a grounding electrode then"
                                               : "a building with a panel has a grounding electrode at it");
  if (*c.electrode) return void(cx.pass("the building that it feeds has a grounding electrode", cite, c.electrode.where));
  cx.fail("the building that it feeds has no grounding electrode", "drive rods or use the electrodes that are there, and connect them to the ground bar of the disconnect or panel, not to the neutral", cite,
          c.electrode.where);
}

}  // namespace

extern const Check check_separate_building{
    .id = "separate-building",
    .title = "Another building has its electrode",
    .family = Family::grounding,
    .about = "A building that a feeder supplies has a grounding electrode, connected to the grounding conductor that comes with the feeder and not to its "
             "neutral. A single branch circuit with a grounding conductor, multiwire or not, is excepted.",
    .formula = "n <= nmax",
    .reads = "circuit.other_building, circuit.electrode, circuit.role, circuit.fed_by",
    .rules = "separate-building",
    .run = run};

}  // namespace pullproof
