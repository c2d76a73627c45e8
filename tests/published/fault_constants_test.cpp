// The fault current at the end of a run against the point-to-point constants of fuse makers' tables, which are impedance
// at another temperature and added to the source without regard to its angle. They are a cross-check, not a limit: ours
// is the larger of the two, since its source is purely reactive and its conductors are cold, and comes near where the
// run alone limits.
#include <gtest/gtest.h>

#include "code/edition.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

double at_load(const std::string& size, const std::string& raceway, double feet) {
  const Report report = test::check_text(fmt::format(R"(
edition = "us-2023"
supply = {{ system = "120/240 V 1-phase 3-wire", dwelling = true, available_fault = "10 kA" }}
[[raceway]]
name = "run"
type = "{}"
size = "3"
length = "{} ft"
place = "indoors, dry"
[[circuit]]
name = "c"
voltage = "240 V"
path = ["run"]
breaker = {{ rating = "60 A" }}
load = {{ current = "40 A", short_circuit_rating = "100 kA" }}
wire = {{ size = "{}", material = "copper", type = "THHN/THWN-2", neutral = "none" }}
)", raceway, feet, size));
  const auto found = test::findings(report, "fault-at-load", "circuit c");
  EXPECT_EQ(found.size(), 1u);
  return found.empty() ? 0 : test::step_value(report, *found.front(), "If");
}

TEST(FaultCurrent, AgainstPointToPointConstants) {
  const code::Edition edition = *code::Edition::find(code::built_in(), "us-2017");
  const auto t = *edition.table("fault-constants");
  for (const std::string size : {"10 AWG", "6 AWG", "2 AWG", "1/0 AWG", "4/0 AWG"})
    for (const auto& [raceway, column] : {std::pair<std::string, std::string>{"RMC", "cu-steel"}, {"PVC-40", "cu-nonmagnetic"}})
      for (const double feet : {20.0, 400.0}) {
        SCOPED_TRACE(fmt::format("{} in {}, {} ft", size, raceway, feet));
        const double constant = *t.cell(*t.find(size), t.column(column)).number();
        const double f = 2 * feet * 10000 / (constant * 240);  // single phase, line to line
        const double theirs = 10000 / (1 + f), ours = at_load(size, raceway, feet);
        EXPECT_GE(ours, theirs * 0.97);
        EXPECT_LE(ours, theirs * (f > 5 ? 1.25 : 1.7));
      }
}

}  // namespace
}  // namespace pullproof
