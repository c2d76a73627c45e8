// Published raceway examples: the areas that they print, and the size that they arrive at as the change that would do.
#include <gtest/gtest.h>

#include "support/cases.hpp"

namespace pullproof {
namespace {

const Finding& fill(const Report& report) { return *test::findings(report, "raceway-fill").at(0); }

Report raceway(std::string_view type, std::string_view size, std::string_view also) {
  return test::check_text(fmt::format("edition = \"us-2023\"\n[[raceway]]\nname = \"r\"\ntype = \"{}\"\nsize = \"{}\"\nalso = [{}]\n", type, size, also));
}

TEST(PublishedFill, FiveFeederConductors) {
  // EC&M magazine, 'Code Calculations' Example 1 and its Code Q&A 'Sizing a raceway': 2.6162 in², 2.907 in² in 3 in PVC Schedule 40.
  constexpr auto conductors = R"({ count = 3, size = "500 kcmil", type = "THHN" }, { count = 1, size = "250 kcmil", type = "THHN" }, { count = 1, size = "3 AWG", type = "THHN" })";
  const Report fits = raceway("PVC-40", "3", conductors), small = raceway("PVC-40", "2-1/2", conductors);
  EXPECT_EQ(fill(fits).verdict, Verdict::pass);
  EXPECT_NEAR(test::step_value(fits, fill(fits), "Au"), 2.6162, 0.00005);
  EXPECT_NEAR(test::step_value(fits, fill(fits), "Am"), 2.907, 0.0005);
  EXPECT_EQ(fill(small).verdict, Verdict::fail);
  EXPECT_EQ(fill(small).change, "use trade size 3, or take conductors out");
}

TEST(PublishedFill, FiveBranchConductors) {
  // Goodheart-Willcox, Modern Commercial Wiring (2018), Sample Problem 6-8: 0.1442 in², 0.220 in² in 3/4 RMC.
  constexpr auto conductors = R"({ count = 1, size = "12 AWG", type = "THHN" }, { count = 1, size = "10 AWG", type = "THHN" }, { count = 3, size = "8 AWG", type = "THHN" })";
  const Report small = raceway("RMC", "1/2", conductors), fits = raceway("RMC", "3/4", conductors);
  EXPECT_EQ(fill(small).change, "use trade size 3/4, or take conductors out");
  EXPECT_NEAR(test::step_value(fits, fill(fits), "Au"), 0.1442, 0.00005);
  EXPECT_NEAR(test::step_value(fits, fill(fits), "Am"), 0.220, 0.0005);
}

TEST(PublishedFill, PassesByLittle) {
  // IEC Year 4 apprentice study-guide question: 4 x 12, 3 x 10, 2 x 6 AWG in RMC takes 3/4; 0.2179 of 0.2196 in² by hand.
  constexpr auto conductors = R"({ count = 4, size = "12 AWG", type = "THHN" }, { count = 3, size = "10 AWG", type = "THHN" }, { count = 2, size = "6 AWG", type = "THHN" })";
  const Report small = raceway("RMC", "1/2", conductors), fits = raceway("RMC", "3/4", conductors);
  EXPECT_EQ(fill(small).change, "use trade size 3/4, or take conductors out");
  EXPECT_EQ(fill(fits).verdict, Verdict::pass);
  EXPECT_NEAR(test::step_value(fits, fill(fits), "Au"), 0.2179, 0.00005);
  EXPECT_NEAR(test::step_value(fits, fill(fits), "Am"), 0.2196, 0.00005);
}

TEST(PublishedFill, DecimalSlip) {
  // answers.com on NFPA 70-2005: 3 x 14 and 4 x 6 AWG THWN are 0.2319 in². Its 2-1/2 EMT comes from 5.80 for 0.580 in²; 1 EMT by hand.
  constexpr auto conductors = R"({ count = 3, size = "14 AWG", type = "THWN" }, { count = 4, size = "6 AWG", type = "THWN" })";
  const Report small = raceway("EMT", "1/2", conductors);
  EXPECT_NEAR(test::step_value(small, fill(small), "Au"), 0.2319, 0.00005);
  EXPECT_EQ(fill(small).change, "use trade size 1, or take conductors out");
}

TEST(PublishedFill, NothingIsLargeEnough) {
  // By hand: 100 of 500 kcmil THHN are 70.7 in², more than the 14.75 in² of the largest EMT.
  const Report report = raceway("EMT", "4", R"({ count = 100, size = "500 kcmil", type = "THHN" })");
  EXPECT_EQ(fill(report).change, "no size of EMT would do: take conductors out");
}

}  // namespace
}  // namespace pullproof
