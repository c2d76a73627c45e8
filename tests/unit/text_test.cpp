#include "core/text.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <limits>
#include <random>
#include <string>

namespace pullproof {
namespace {

constexpr double inf = std::numeric_limits<double>::infinity();

TEST(RoundHalfUp, RoundsTiesAwayFromZeroAsAHandDoes) {
  // Each of these decimals lies just below its tie in binary.
  EXPECT_DOUBLE_EQ(round_half_up(2.675, 2), 2.68);
  EXPECT_DOUBLE_EQ(round_half_up(1.005, 2), 1.01);
  EXPECT_DOUBLE_EQ(round_half_up(0.285, 2), 0.29);
  EXPECT_DOUBLE_EQ(round_half_up(1.255, 2), 1.26);
  EXPECT_DOUBLE_EQ(round_half_up(-2.675, 2), -2.68);
  EXPECT_DOUBLE_EQ(round_half_up(0.5, 0), 1);
  EXPECT_DOUBLE_EQ(round_half_up(1.5, 0), 2);
  EXPECT_DOUBLE_EQ(round_half_up(2.5, 0), 3);
  EXPECT_DOUBLE_EQ(round_half_up(-0.5, 0), -1);
  EXPECT_DOUBLE_EQ(round_half_up(0.1 + 0.2 + 0.2, 0), 1);
}

TEST(RoundHalfUp, DoesNotLiftWhatIsBelowATie) {
  EXPECT_DOUBLE_EQ(round_half_up(500e3, 6), 500e3);
  EXPECT_DOUBLE_EQ(round_half_up(123456789, 6), 123456789);
  EXPECT_DOUBLE_EQ(round_half_up(2.6749, 2), 2.67);
  EXPECT_DOUBLE_EQ(round_half_up(0.4999, 0), 0);
  EXPECT_DOUBLE_EQ(round_half_up(0.499999, 0), 0);
  EXPECT_DOUBLE_EQ(round_half_up(-0.4999, 0), 0);
  EXPECT_DOUBLE_EQ(round_half_up(119.9999, 0), 120);
  for (int i = 0; i < 2000; ++i) {
    EXPECT_DOUBLE_EQ(round_half_up(i / 100.0, 2), i / 100.0);
    EXPECT_NEAR(round_half_up(i / 100.0 + 0.0049, 2), i / 100.0, 1e-12);
    EXPECT_NEAR(round_half_up(i / 100.0 + 0.005, 2), (i + 1) / 100.0, 1e-12);
  }
}

TEST(RoundHalfUp, LeavesAloneWhatHasNoSuchDigits) {
  EXPECT_EQ(round_half_up(1e300, 3), 1e300);
  EXPECT_EQ(round_half_up(inf, 3), inf);
  EXPECT_TRUE(std::isnan(round_half_up(std::nan(""), 3)));
  EXPECT_EQ(round_half_up(1234.5, -3), 1235);  // fewer than none are none
  EXPECT_EQ(round_half_up(0, 5), 0);
}

TEST(NumberText, DropsZerosAndKeepsNoMinusOfNothing) {
  EXPECT_EQ(number_text(15.625, 3), "15.625");
  EXPECT_EQ(number_text(15.625, 2), "15.63");
  EXPECT_EQ(number_text(20, 3), "20");
  EXPECT_EQ(number_text(20.10, 3), "20.1");
  EXPECT_EQ(number_text(100, 0), "100");
  EXPECT_EQ(number_text(-0.0001, 3), "0");
  EXPECT_EQ(number_text(-0.0, 3), "0");
  EXPECT_EQ(number_text(-1.25, 1), "-1.3");
  EXPECT_EQ(number_text(0.00643, 5), "0.00643");
  EXPECT_EQ(number_text(1e15, 3), "1000000000000000");
  EXPECT_EQ(number_text(inf, 3), "unlimited");
  EXPECT_EQ(number_text(-inf, 3), "-unlimited");
  EXPECT_EQ(number_text(std::nan(""), 3), "not a number");
}

/// Against the C library, which prints the rounded value with its own digits.
TEST(NumberText, HasTheDigitsThatTheLibraryPrints) {
  std::mt19937_64 random(20261125);
  const auto printed = [](double value, int decimals) {
    char text[400];
    std::snprintf(text, sizeof text, "%.*f", std::clamp(decimals, 0, 12), round_half_up(value, decimals));
    std::string s = text;
    if (s.find('.') != std::string::npos) s.resize(std::max(s.find_last_not_of('0') + 1, s.find('.')));
    if (s.ends_with('.')) s.pop_back();
    return s == "-0" ? std::string("0") : s;
  };
  for (int i = 0; i < 100000; ++i) {
    const double value = std::ldexp(static_cast<double>(static_cast<std::int64_t>(random())), static_cast<int>(random() % 80) - 90);
    const int decimals = static_cast<int>(random() % 15) - 1;
    ASSERT_EQ(number_text(value, decimals), printed(value, decimals)) << value << " " << decimals;
  }
  for (const double value : {0.0, -0.0, 0.5, 1.0, 9.5, 10.0, 99.95, 1e14, 999999999999999.0, 1e15, 1.5e15, 1e18, 1e300, -1e300, 5e-324})
    for (int decimals = -2; decimals < 15; ++decimals) ASSERT_EQ(number_text(value, decimals), printed(value, decimals)) << value << " " << decimals;
}

TEST(DecimalsFor, ShowsFiveDigitsAndAtLeastTheUnitsOwn) {
  EXPECT_EQ(decimals_for(15.625, 3), 3);
  EXPECT_EQ(decimals_for(0.0497, 4), 6);
  EXPECT_EQ(decimals_for(211600, 0), 0);
  EXPECT_EQ(decimals_for(0, 3), 3);
  EXPECT_EQ(decimals_for(inf, 3), 3);
  EXPECT_EQ(decimals_for(1e-30, 3), 9);
  EXPECT_EQ(decimals_for(1e300, 3), 3);
}

TEST(DecimalsToRedo, KeepsWhatTheInputsSupport) {
  EXPECT_EQ(decimals_to_redo(0.82668, 0.826667, 5), 4);  // 0.992016 V / 120 V with 0.992 V printed
  EXPECT_EQ(decimals_to_redo(15.625, 15.625, 3), 3);
  EXPECT_EQ(decimals_to_redo(15.625, 16.7, 3), 0);
  EXPECT_EQ(decimals_to_redo(15.625, 99, 3), 0);
  EXPECT_EQ(decimals_to_redo(inf, 1, 3), 3);
  EXPECT_EQ(decimals_to_redo(1, std::nan(""), 3), 3);
}

TEST(BriefNumber, IsShortButTellsTwoNumbersApart) {
  EXPECT_EQ(brief_number(20, 16), "20");
  EXPECT_EQ(brief_number(18.7512, 30), "18.8");
  EXPECT_EQ(brief_number(0.04971, 1), "0.0497");
  EXPECT_EQ(brief_number(1234.56, 2000), "1234.6");
  // As far as it takes, from both sides, when they would read alike.
  EXPECT_EQ(brief_number(20.04, 19.96), "20.04");
  EXPECT_EQ(brief_number(19.96, 20.04), "19.96");
  EXPECT_EQ(brief_number(3.00001, 3), "3.00001");
  EXPECT_EQ(brief_number(3, 3.00001), "3");
  // What the comparison calls equal reads equal.
  EXPECT_EQ(brief_number(20 * (1 + 1e-10), 20), "20");
  EXPECT_EQ(brief_number(0, 0), "0");
  EXPECT_EQ(brief_number(0, 5), "0");
  EXPECT_EQ(brief_number(inf, 5), "unlimited");
  EXPECT_EQ(brief_number(5, inf), "5");
}

TEST(Texts, KeepsWhatItIsGivenInPlace) {
  Texts texts;
  const std::string_view first = texts.keep("first");
  const std::string long_one(20000, 'x');
  const std::string_view longest = texts.keep(long_one);
  for (int i = 0; i < 5000; ++i) texts.format("{} and more", i);
  EXPECT_EQ(first, "first");
  EXPECT_EQ(longest, long_one);
  EXPECT_EQ(texts.keep(""), "");
  EXPECT_EQ(texts.format("{} A", 15), "15 A");
}

TEST(Nearest, FindsTheWordThatWasMeant) {
  const std::vector<std::string_view> known{"voltage", "breaker", "load", "wire", "ground", "path"};
  EXPECT_EQ(nearest("volatge", known), "voltage");
  EXPECT_EQ(nearest("breakers", known), "breaker");
  EXPECT_EQ(nearest("Load", known), "load");
  EXPECT_EQ(nearest("us-2032", {"us-2017", "us-2020", "us-2023"}), "us-2023");  // two figures changed places
  EXPECT_EQ(nearest("amp", {"ground", "ampacity"}), "ampacity");
  EXPECT_EQ(nearest("xyzzy", known), "");
  EXPECT_EQ(nearest("wier", known), "wire");
  EXPECT_EQ(nearest("us-2032", {"us-2017", "us-2020", "us-2023"}), "us-2023");  // exchanged letters are one slip
  EXPECT_EQ(nearest("x", {"in", "wire"}), "");  // not everything short is meant
  EXPECT_EQ(nearest("on", {"in", "wire"}), "in");
  EXPECT_EQ(nearest("", known), "");
  EXPECT_EQ(nearest("path", {}), "");
  EXPECT_EQ(nearest(std::string(100000, 'v'), known), "");
}

}  // namespace
}  // namespace pullproof
