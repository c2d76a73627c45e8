#include "core/quantity.hpp"

#include <gtest/gtest.h>

namespace pullproof {
namespace {

TEST(Units, ShowAndTakeTheSame) {
  EXPECT_DOUBLE_EQ(raw(units::foot.of(62)), 62 * 0.3048);
  EXPECT_DOUBLE_EQ(units::foot.show(units::foot.of(62)), 62);
  EXPECT_DOUBLE_EQ(units::inch.show(units::foot.of(1)), 12);
  EXPECT_DOUBLE_EQ(units::milliampere.show(units::ampere.of(0.09)), 90);
  EXPECT_DOUBLE_EQ(units::percent.show(1.25), 125);
  EXPECT_DOUBLE_EQ(units::square_inch.show(units::inch.of(2) * units::inch.of(3)), 6);
  // 1 ohm/kft is 3.28084 ohm/km, the factor of every wire table.
  EXPECT_NEAR(units::ohm_per_km.show(units::ohm_per_kft.of(1)), 3.280840, 1e-6);
  EXPECT_DOUBLE_EQ(units::celsius.show({40}), 40);
}

TEST(Limits, AreMetExactlyAndWithinTheLastBit) {
  EXPECT_TRUE(at_most(16.0, 16.0));
  EXPECT_TRUE(at_least(16.0, 16.0));
  EXPECT_TRUE(at_most(0.1 + 0.2, 0.3));   // 0.30000000000000004
  EXPECT_TRUE(at_least(0.3, 0.1 + 0.2));
  EXPECT_FALSE(at_most(16.000001, 16.0));
  EXPECT_FALSE(at_least(15.999999, 16.0));
  EXPECT_TRUE(at_most(-10.0, -10.0));
  EXPECT_FALSE(at_most(-9.99, -10.0));
  EXPECT_TRUE(at_most(0.0, 0.0));
  EXPECT_FALSE(at_most(1e-12, 0.0));
  EXPECT_TRUE(at_most(units::ampere.of(20), units::milliampere.of(20000)));
  EXPECT_FALSE(at_most(std::nan(""), 1.0));
  EXPECT_FALSE(at_least(std::nan(""), 1.0));
}

}  // namespace
}  // namespace pullproof
