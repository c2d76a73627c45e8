#include "core/size.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

namespace pullproof {
namespace {

// ASTM B258 fixes 4/0 at 0.4600 in and 36 AWG at 0.0050 in with 39 equal ratios between; the printed areas are those
// of NFPA 70 Chapter 9 Table 8: of the diameter rounded to a tenth of a mil, rounded to four digits.
TEST(ConductorSize, AreaFollowsAstmB258) {
  const std::vector<std::pair<const char*, double>> printed{{"14 AWG", 4110},    {"12 AWG", 6530},    {"10 AWG", 10380},
                                                            {"8 AWG", 16510},    {"6 AWG", 26240},    {"4 AWG", 41740},
                                                            {"1 AWG", 83690},    {"1/0 AWG", 105600}, {"4/0 AWG", 211600},
                                                            {"36 AWG", 25}};
  for (const auto& [label, cmil] : printed) {
    const auto size = ConductorSize::parse(label);
    ASSERT_TRUE(size) << label;
    const double of_diameter = 2 * std::sqrt(cmil) * 0.05, of_four_digits = std::pow(10, std::floor(std::log10(cmil)) - 3) / 2;
    EXPECT_NEAR(size->circular_mils(), cmil, of_diameter + of_four_digits) << label;
  }
  EXPECT_DOUBLE_EQ(ConductorSize::parse("36 AWG")->circular_mils(), 25);
  EXPECT_NEAR(ConductorSize::parse("4/0 AWG")->circular_mils(), 460.0 * 460.0, 1e-6);
  EXPECT_EQ(ConductorSize::parse("250 kcmil")->circular_mils(), 250000);
  // 1 mm² is 1/(π/4 × 0.0254²) = 1973.525 circular mils.
  EXPECT_NEAR(ConductorSize::parse("1 mm²")->circular_mils(), 1 / (M_PI / 4 * 0.0254 * 0.0254), 1e-3);
}

TEST(ConductorSize, IsOrderedByAreaAndNotByNumber) {
  const std::vector<std::string> ascending{"18 AWG", "16 AWG", "1.5 mm²", "14 AWG", "2.5 mm²", "12 AWG", "10 AWG", "1 AWG",
                                           "1/0 AWG", "2/0 AWG", "3/0 AWG", "4/0 AWG", "250 kcmil", "500 kcmil", "2000 kcmil"};
  for (std::size_t i = 1; i < ascending.size(); ++i)
    EXPECT_LT(*ConductorSize::parse(ascending[i - 1]), *ConductorSize::parse(ascending[i])) << ascending[i];
  EXPECT_EQ(*ConductorSize::parse("4/0 AWG"), *ConductorSize::parse(" 4/0AWG "));
}

TEST(ConductorSize, HasOneLabelForEachSize) {
  const std::vector<std::pair<const char*, const char*>> same{
      {"12AWG", "12 AWG"},    {" 12  AWG ", "12 AWG"}, {"4/0AWG", "4/0 AWG"}, {"250kcmil", "250 kcmil"},
      {"250 MCM", "250 kcmil"}, {"2.5 mm2", "2.5 mm²"}, {"2.50 mm²", "2.5 mm²"}, {"02.5mm2", "2.5 mm²"}, {"4. mm²", "4 mm²"}};
  for (const auto& [text, label] : same) {
    const auto size = ConductorSize::parse(text);
    ASSERT_TRUE(size) << text;
    EXPECT_EQ(size->label(), label);
  }
}

TEST(ConductorSize, RefusesWhatIsNoSize) {
  for (const char* text :
       {"", " ", "AWG", "12", "#12", "12 awg", "12 ga", "0 AWG", "00 AWG", "012 AWG", "41 AWG", "-1 AWG", "+12 AWG", "12.5 AWG",
        "5/0 AWG", "0/0 AWG", "1/1 AWG", "10/0 AWG", "1 / 0 AWG", "249 kcmil", "2001 kcmil", "250.5 kcmil", "1e3 kcmil", "0 mm²",
        "-1 mm²", "nan mm²", "inf mm²", "1e2 mm²", "0x10 mm²", "1201 mm²", "0.001 mm²", "2,5 mm²", "2.5 mm", "2.5 mm³", "1..5 mm²",
        "12 AWG x", "99999999999999999999 AWG", "１２ AWG", "12\tAWG", "123456789 mm²"})
    EXPECT_FALSE(ConductorSize::parse(text)) << text;
}

TEST(TradeSize, KnowsTheThirteenSizesByBothNames) {
  // NFPA 70 Table 300.1(C).
  const std::vector<std::pair<const char*, int>> all{{"3/8", 12}, {"1/2", 16}, {"3/4", 21}, {"1", 27}, {"1-1/4", 35},
                                                     {"1-1/2", 41}, {"2", 53}, {"2-1/2", 63}, {"3", 78}, {"3-1/2", 91},
                                                     {"4", 103}, {"5", 129}, {"6", 155}};
  std::optional<TradeSize> before;
  for (const auto& [label, designator] : all) {
    const auto by_label = TradeSize::parse(label);
    const auto by_designator = TradeSize::parse("metric " + std::to_string(designator));
    ASSERT_TRUE(by_label && by_designator) << label;
    EXPECT_EQ(*by_label, *by_designator);
    EXPECT_EQ(by_label->label(), label);
    EXPECT_EQ(by_label->metric_designator(), designator);
    EXPECT_TRUE(!before || *before < *by_label) << label;
    before = by_label;
  }
}

TEST(TradeSize, ReadsTheWaysPeopleWriteIt) {
  for (const char* text : {"1-1/4", "1 1/4", "1-1/4 in", "1-1/4in", "1 1/4\"", " 1-1/4 ", "metric 35", "metric  35"}) {
    const auto size = TradeSize::parse(text);
    ASSERT_TRUE(size) << text;
    EXPECT_EQ(size->label(), "1-1/4");
    EXPECT_EQ(size->nominal_inches(), 1.25);
  }
  for (const char* text : {"", "0", "1/4", "7", "1-1/8", "1 - 1/4", "1.25", "0.5", "35", "metric 36", "metric", "1/2 mm", "½", "1/2/2"})
    EXPECT_FALSE(TradeSize::parse(text)) << text;
}

}  // namespace
}  // namespace pullproof
