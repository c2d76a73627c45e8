#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const CircuitMeasured& m = c.measured;
  const Citation cite = cx.cite("measured-insulation");
  if (!m.insulation) {
    if (m.insulation_test) cx.needs_input("measured.insulation", "a test voltage alone tells nothing");
    cx.not_applicable("the insulation was not measured", cite);
    return;
  }
  const auto read = cx.given("insulation resistance", "Ri", m.insulation, units::megohm);
  const auto least = cx.parameter("measured-insulation", "least", "least insulation resistance", "Rn", units::megohm);
  Finding& f = cx.recommend(read, Must::at_least, least, cite, m.insulation.where);
  if (f.verdict == Verdict::advice)
    f.change = "do not energize: find the damaged or wet insulation, with everything disconnected that the test would harm or bridge";
  if (!m.insulation_test) return;
  const auto test = cx.given("test voltage", "Ut", m.insulation_test, units::volt);
  const auto wanted = cx.parameter("measured-insulation", "test", "test voltage wanted", "Un", units::volt);
  Finding& g = cx.recommend(test, Must::at_least, wanted, cite, m.insulation_test.where);
  if (g.verdict == Verdict::advice) g.change = "repeat at that voltage, with electronics and protective devices disconnected";
}

}  // namespace

extern const Check check_measured_insulation{
    .id = "measured-insulation",
    .title = "Measured insulation resistance",
    .family = Family::measured,
    .about = "A nick from the pull or water in a raceway shows in the insulation resistance before it shows in a fire. The lowest "
             "reading, every conductor to every other and to ground with the load disconnected, is held against the usual least "
             "value, and the test voltage against the usual one.",
    .formula = "Ri >= Rn; Ut >= Un",
    .reads = "measured.insulation, measured.insulation_test",
    .rules = "measured-insulation",
    .run = run};

}  // namespace pullproof
