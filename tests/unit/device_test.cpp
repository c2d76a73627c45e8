// The largest device for a conductor. Sources: 240.4(B), (C) as trade newsletters of 2006 and 2016 give them; 240.4(D)
// as a fuse maker's paper prints it; standard ratings of 240.6(A) from EC&M magazine, code Q&A 2019.
#include <gtest/gtest.h>

#include "derive/device.hpp"

namespace pullproof {
namespace {

class LargestDevice : public testing::Test {
 protected:
  std::optional<double> most(std::string_view size, double amperes, Material material = Material::copper, std::string_view id = "us-2023") {
    const auto edition = code::Edition::find(code::built_in(), id);
    Context cx(report_, job_, *edition, "test", "test", "test", {});
    derive::Conductors k;
    k.size.value = *ConductorSize::parse(size);
    k.size.present = true;
    k.material = material;
    const auto usable = cx.working().choice("usable ampacity", "Iz", units::ampere.of(amperes), units::ampere, "for the test", {});
    const auto found = derive::largest_device(cx, circuit_, k, usable);
    if (!found) return std::nullopt;
    clause_ = found->cite.clause;
    return units::ampere.show(found->most.value);
  }
  Report report_;
  Case job_;
  Circuit circuit_;
  std::string_view clause_;
};

TEST_F(LargestDevice, NextStandardRating) {
  EXPECT_EQ(most("6 AWG", 47), 50);
  EXPECT_EQ(clause_, "240.4(B)");
  EXPECT_EQ(most("6 AWG", 50), 50);
  EXPECT_EQ(most("6 AWG", 50.1), 60);
  EXPECT_EQ(most("500 kcmil", 760), 800);
}

TEST_F(LargestDevice, NotAbove800A) {
  EXPECT_EQ(most("1000 kcmil", 820), 820);
  EXPECT_EQ(clause_, "240.4(C)");
}

TEST_F(LargestDevice, NotForSeveralReceptacles) {
  circuit_.load.receptacles = {true, true, {}, {}};
  EXPECT_EQ(most("6 AWG", 47), 47);
  EXPECT_EQ(clause_, "210.19(B)");  // the ampacity is at least the rating, as 240.4(B) leaves it
}

TEST_F(LargestDevice, SmallConductors) {
  EXPECT_EQ(most("14 AWG", 25), 15);
  EXPECT_EQ(clause_, "240.4(D)");
  EXPECT_EQ(most("12 AWG", 30), 20);
  EXPECT_EQ(most("10 AWG", 40), 30);
  EXPECT_EQ(most("12 AWG", 20, Material::aluminum), 15);
  EXPECT_EQ(most("10 AWG", 35, Material::copper_clad), 25);
  EXPECT_EQ(most("12 AWG", 14), 15);
  EXPECT_EQ(clause_, "240.4(B)");
}

TEST_F(LargestDevice, TenAmperesByEditionAndKind) {
  EXPECT_EQ(most("14 AWG", 9), 10);
  EXPECT_EQ(most("14 AWG", 9, Material::copper, "us-2017"), 15);
  circuit_.breaker.kind = {DeviceKind::fuse, true, {}, {}};
  EXPECT_EQ(most("14 AWG", 9, Material::copper, "us-2017"), 10);
}

TEST_F(LargestDevice, OtherArticlesSetIt) {
  circuit_.load.appliance = {"heat pump", true, {}, {}};
  EXPECT_EQ(most("10 AWG", 30), std::nullopt);
}

}  // namespace
}  // namespace pullproof
