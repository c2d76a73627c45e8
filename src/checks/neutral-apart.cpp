#include "derive/line.hpp"
#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (!derive::is_feeder(c)) return void(cx.not_applicable("it feeds no panel"));
  const Citation cite = cx.cite("neutral-apart");
  constexpr std::string_view change = "take the bonding screw or strap out, and put grounds on a bar of their own";
  if (c.neutral_bonded && *c.neutral_bonded)
    return void(cx.fail("neutral and ground are joined at the panel that it feeds", change, cite, c.neutral_bonded.where));
  if (c.neutral_bonded) return void(cx.pass("neutral and ground are kept apart at the panel that it feeds", cite, c.neutral_bonded.where));
  if (!derive::line_of(cx, c).neutral) return void(cx.not_applicable("no neutral runs along", cite));
  cx.needs_input("circuit.neutral_bonded", "neutral and ground are kept apart at a panel that a feeder supplies: no bonding screw, a bar for each");
}

}  // namespace

extern const Check check_neutral_apart{
    .id = "neutral-apart",
    .title = "Neutral apart from ground at a fed panel",
    .family = Family::grounding,
    .about = "Where neutral and ground are joined a second time, neutral current flows in the grounding conductor, in raceways and in pipes, and the "
             "metal of appliances is no longer at the voltage of the ground. They are joined at the service and nowhere after it.",
    .formula = "",
    .reads = "circuit.role, circuit.neutral_bonded, circuit.voltage, wire.neutral",
    .rules = "neutral-apart, count-neutral, supply-voltage",
    .run = run};

}  // namespace pullproof
