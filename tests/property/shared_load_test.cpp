// A load that is split between the appliance and what else its circuit feeds asks for the same wire and device, and loses
// the same volts, as one load of the sum.
#include <gtest/gtest.h>

#include "support/cases.hpp"

namespace pullproof {
namespace {

Report job(const std::string& load, const std::string& others) {
  return test::check_text(fmt::format(R"(
edition = "us-2023"
supply = {{ system = "120/240 V 1-phase 3-wire", dwelling = true }}
[[raceway]]
name = "wall"
type = "EMT"
size = "3/4"
length = "60 ft"
place = "indoors, dry"
ambient = "30 °C"
[[circuit]]
name = "unit"
voltage = "120 V"
path = ["wall"]
breaker = {{ rating = "30 A", terminals = "75 °C" }}
load = {{ {}, connection = "hard-wired", power_factor = 1, terminals = "75 °C" }}
{}
wire = {{ size = "10 AWG", material = "copper", type = "THHN/THWN-2" }}
)", load, others));
}

/// What a check holds the circuit to, and what it finds.
std::vector<std::pair<double, Verdict>> answers(const Report& report, std::string_view check) {
  std::vector<std::pair<double, Verdict>> out;
  for (const Finding* f : test::findings(report, check, "circuit unit")) out.emplace_back(f->used.value_or(0), f->verdict);
  return out;
}

TEST(SharedLoad, CountsLikeOneLoadOfTheSum) {
  for (const bool continuous : {false, true})
    for (const double own : {1.5, 7.0, 12.0, 16.0})
      for (const double other : {0.5, 5.0, 8.0, 13.5}) {
        SCOPED_TRACE(fmt::format("{} A and {} A{}", own, other, continuous ? ", continuous" : ""));
        const Report split = job(fmt::format("current = \"{} A\", continuous = {}", own, continuous),
                                 fmt::format("also_feeds = [{{ name = \"other\", kind = \"fixed\", current = \"{} A\", continuous = {} }}]", other, continuous));
        const Report whole = job(fmt::format("current = \"{} A\", continuous = {}", own + other, continuous), "");
        for (const std::string_view check : {"ampacity", "device-load", "drop-branch"}) {
          const auto a = answers(split, check), b = answers(whole, check);
          ASSERT_EQ(a.size(), b.size()) << check;
          for (std::size_t i = 0; i < a.size(); ++i) {
            EXPECT_NEAR(a[i].first, b[i].first, 1e-9) << check;
            EXPECT_EQ(a[i].second, b[i].second) << check;
          }
        }
      }
}

// 220.18: with a motor among the others, a quarter of the largest one comes on top, and nothing else changes.
TEST(SharedLoad, LargestMotorAmongOthersIsRaised) {
  const auto sum = [](const std::string& others) {
    const Report report = job("current = \"6 A\", continuous = false", "also_feeds = [" + others + "]");
    const auto found = test::findings(report, "device-load", "circuit unit");
    EXPECT_EQ(found.size(), 1u);
    return found.empty() ? 0 : 30 * found.front()->used.value_or(0);
  };
  const auto share = [](double amperes, bool motor) {
    return fmt::format("{{ name = \"x\", kind = \"fixed\", current = \"{} A\", continuous = false, motor = {} }}", amperes, motor);
  };
  EXPECT_NEAR(sum(share(4, false) + ", " + share(8, false)), 18, 1e-9);
  EXPECT_NEAR(sum(share(4, true) + ", " + share(8, false)), 19, 1e-9);
  EXPECT_NEAR(sum(share(4, true) + ", " + share(8, true)), 20, 1e-9);
}

}  // namespace
}  // namespace pullproof
