// The ampacity tables against what stands outside them: the cells that changed in 2011, which many pages still print
// in their old values, and the equation that the ambient factors come from.
#include <gtest/gtest.h>

#include <cmath>

#include "code/edition.hpp"
#include "core/text.hpp"

namespace pullproof {
namespace {

const std::string_view editions[] = {"us-2017", "us-2020", "us-2023"};

code::TableRef table(std::string_view edition, std::string_view name) {
  return *code::Edition::find(code::built_in(), edition)->table(name);
}

struct Changed {
  std::string_view size, column;
  double before, now;
};
// Now: 2018 and 2021 IRC Table E3705.1; 1500 and 2000 kcmil from memory. Before: printed copies from before 2011.
constexpr Changed changed[] = {
    {"14 AWG", "cu-60", 20, 15},     {"12 AWG", "cu-60", 25, 20},     {"12 AWG", "al-60", 20, 15},
    {"8 AWG", "al-60", 30, 35},      {"6 AWG", "al-90", 60, 55},      {"3 AWG", "cu-90", 110, 115},
    {"1 AWG", "cu-90", 150, 145},    {"300 kcmil", "al-60", 190, 195}, {"300 kcmil", "al-90", 255, 260},
    {"600 kcmil", "cu-60", 355, 350}, {"700 kcmil", "al-60", 310, 315}, {"700 kcmil", "al-90", 420, 425},
    {"800 kcmil", "al-90", 450, 445}, {"1500 kcmil", "cu-60", 520, 525}, {"2000 kcmil", "cu-60", 560, 555},
};

TEST(AmpacityTables, CellsThatChangedIn2011) {
  for (const std::string_view edition : editions)
    for (const Changed& c : changed) {
      SCOPED_TRACE(testing::Message() << edition << " " << c.size << " " << c.column);
      const auto t = table(edition, "ampacity");
      const auto now = t.cell(*t.find(c.size), c.column).number();
      EXPECT_EQ(now, c.now);
      EXPECT_NE(now, c.before);
    }
}

// 310.15(B): I2 = I1 * sqrt((Tc - Ta2) / (Tc - Ta1)) with Ta1 = 30 °C; each cell is the equation at the top of its
// band, to two places, and is blank from where the air is as hot as the insulation may be.
TEST(AmpacityTables, AmbientFactorsFollowTheEquation) {
  int compared = 0;
  for (const std::string_view edition : editions) {
    const auto t = table(edition, "ambient-correction");
    for (std::size_t r = 0; r < t.rows(); ++r)
      for (const double insulation : {60.0, 75.0, 90.0}) {
        const double air = *t.cell(r, "through-c").number();
        SCOPED_TRACE(testing::Message() << edition << " " << air << " °C, " << insulation << " °C column");
        EXPECT_NEAR(*t.cell(r, "through-f").number(), air * 9 / 5 + 32, 1e-9);
        const auto factor = t.cell(r, "f-" + number_text(insulation, 0)).number();
        EXPECT_EQ(factor.has_value(), air < insulation);
        if (!factor || air >= insulation) continue;
        EXPECT_DOUBLE_EQ(*factor, round_half_up(std::sqrt((insulation - air) / (insulation - 30)), 2));
        ++compared;
      }
  }
  EXPECT_EQ(compared, 3 * 39);
}

}  // namespace
}  // namespace pullproof
