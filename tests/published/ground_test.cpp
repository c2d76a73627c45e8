// Published grounding conductor examples: the circular mils that they print.
#include <gtest/gtest.h>

#include "support/cases.hpp"

namespace pullproof {
namespace {

struct Example {
  std::string_view source, device, conductors, load, ground;
  double circular_mils, within;
};

// Every one starts from conductors that just do and prints what the larger ones ask for.
constexpr Example examples[] = {
    {"Inland Northwest Industrial Training, 'Code Talk episode 32 notes'", "300 A", "350 kcmil", "240 A", "2 AWG", 58436, 0.5},
    {"mepanet.com discussion 287", "50 A", "1 AWG", "45 A", "3 AWG", 52617, 0.5},
    // Trade forum thread 'oven' (no. 2548368), whose ratio is rounded to 1.6; unrounded by hand.
    {"10380 * 26240 / 16510 by hand", "40 A", "6 AWG", "35 A", "8 AWG", 16497.3, 0.05},
};

TEST(PublishedGround, CircularMils) {
  for (const Example& e : examples) {
    SCOPED_TRACE(e.source);
    const Report report = test::check_text(fmt::format(R"(edition = "us-2023"
supply = {{ system = "120/240 V 1-phase 3-wire" }}
[[raceway]]
name = "wall"
type = "EMT"
size = "4"
place = "indoors, dry"
[[circuit]]
name = "c"
voltage = "240 V"
path = ["wall"]
breaker = {{ rating = "{}", terminals = "75 °C" }}
load = {{ current = "{}", continuous = false, terminals = "75 °C" }}
wire = {{ size = "{}", material = "copper", type = "THHN/THWN-2" }}
ground = {{ size = "{}", material = "copper" }}
)", e.device, e.load, e.conductors, e.ground));
    const auto found = test::findings(report, "ground-size");
    ASSERT_EQ(found.size(), 1u);
    EXPECT_EQ(found[0]->verdict, Verdict::pass) << found[0]->message;
    EXPECT_NEAR(test::step_value(report, *found[0], "Gg"), e.circular_mils, e.within);
  }
}

}  // namespace
}  // namespace pullproof
