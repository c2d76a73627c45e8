// The formulas of calc/control.hpp against one another and against what must be so.
#include "calc/control.hpp"

#include <gtest/gtest.h>

#include <random>

#include "code/book.hpp"
#include "code/edition.hpp"
#include "code/frozen.hpp"
#include "job/read.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

namespace run = calc::control;

constexpr Voltage volts(double v) { return Voltage::from_value(v); }
constexpr Resistance ohms(double r) { return Resistance::from_value(r); }
constexpr Power watts(double p) { return Power::from_value(p); }

TEST(ControlFormulas, TheRootSolvesTheEquation) {
  for (const double s : {0.1, 5.0, 20.0, 71.9, 72.0}) {
    const Voltage v = run::voltage_of_power.apply(volts(24), watts(s), ohms(2));
    EXPECT_NEAR(raw(v) * raw(v) - 24 * raw(v) + s * 2, 0, 1e-9) << s;
    EXPECT_GE(raw(v), 12) << "the larger root is at least half the source's voltage";
  }
  EXPECT_NEAR(raw(run::most_power.apply(volts(24), ohms(2))), 72, 1e-12);
}

TEST(ControlFormulas, OneLoadAloneIsTheNetworkOfOne) {
  const run::Draw power{true, 20}, current{false, 0.7};
  const auto p = run::voltages_together(volts(24), ohms(2), ohms(0), {&power, 1});
  const auto c = run::voltages_together(volts(24), ohms(1), ohms(1), {&current, 1});
  ASSERT_TRUE(p && c);
  EXPECT_NEAR(raw((*p)[0]), raw(run::voltage_of_power.apply(volts(24), watts(20), ohms(2))), 1e-11);
  EXPECT_NEAR(raw((*c)[0]), 24 - 0.7 * 2, 1e-12);
  // A load of constant power does not care which of its conductors is the common one.
  const auto split = run::voltages_together(volts(24), ohms(0.5), ohms(1.5), {&power, 1});
  ASSERT_TRUE(split);
  EXPECT_NEAR(raw((*split)[0]), raw((*p)[0]), 1e-10);
}

TEST(ControlFormulas, KirchhoffsLawsHoldInANetwork) {
  std::mt19937 random(7);
  const auto between = [&](double low, double high) { return low + (high - low) * static_cast<double>(random()) / 4294967296.0; };
  int solved = 0;
  for (int n = 0; n < 300; ++n) {
    std::vector<run::Draw> loads;
    for (std::size_t k = 0, count = 1 + random() % 6; k < count; ++k) loads.push_back({random() % 2 == 0, between(0, 4)});
    const double own = between(0, 2), common = between(0, 2);
    const auto v = run::voltages_together(volts(24), ohms(own), ohms(common), loads);
    if (!v) continue;
    double total = 0;
    std::vector<double> currents;
    for (std::size_t k = 0; k < loads.size(); ++k) {
      currents.push_back(loads[k].constant_power ? loads[k].amount / raw((*v)[k]) : loads[k].amount);
      total += currents.back();
    }
    bool stands = true;
    for (std::size_t k = 0; k < loads.size(); ++k) {
      if (raw((*v)[k]) <= 0) stands = false;  // constant currents may ask for more than there is
      EXPECT_NEAR(raw((*v)[k]), 24 - own * currents[k] - common * total, 1e-8) << n;
    }
    solved += stands ? 1 : 0;
  }
  EXPECT_GT(solved, 100);
}

TEST(ControlFormulas, TooMuchPowerHasNoVoltage) {
  const std::vector<run::Draw> pair(2, {true, 50});
  EXPECT_FALSE(run::voltages_together(volts(24), ohms(1.277), ohms(1.277), pair));
  // Two of P on own R and common R: V² − Vs·V + 3·P·R = 0, so P of at most Vs² / (12·R).
  const double most = 24.0 * 24 / (12 * 1.277);
  EXPECT_TRUE(run::voltages_together(volts(24), ohms(1.277), ohms(1.277), std::vector<run::Draw>(2, {true, most * 0.999})));
  EXPECT_FALSE(run::voltages_together(volts(24), ohms(1.277), ohms(1.277), std::vector<run::Draw>(2, {true, most * 1.001})));
}

TEST(ControlFormulas, ResistanceFollowsTemperature) {
  // NBS Handbook 100: copper at 20 °C and 0.00393 per K; Chapter 9 Table 8 prints 7.77 ohm/kft for solid 18 AWG at 75 °C.
  const auto r = run::conductor_at.apply(units::ohm_per_kft.of(6.385), 0.00393, Temperature{75}, Temperature{20});
  EXPECT_NEAR(units::ohm_per_kft.show(r), 7.77, 0.01);
}

TEST(ControlFormulas, SmallGaugesFollowTheirFormula) {
  // ASTM B258: diameter 0.005 in * 92^((36 - n) / 39); annealed copper 10.371 ohm·cmil/ft at 20 °C; stranded 2 % more.
  const auto edition = code::Edition::find(code::built_in(), "us-2023");
  const auto t = edition->table("small-gauge");
  ASSERT_TRUE(t);
  ASSERT_EQ(t->rows(), 17u);
  for (std::size_t r = 0; r < t->rows(); ++r) {
    const double mils = 5 * std::pow(92.0, (36 - (26.0 - static_cast<double>(r))) / 39), solid = 10371 / (mils * mils);
    EXPECT_NEAR(*t->cell(r, "solid-20").number(), solid, solid * 1e-4 + 0.0005) << t->cell(r, "size").text();
    EXPECT_NEAR(*t->cell(r, "stranded-20").number(), solid * 1.02, solid * 1e-4 + 0.0006) << t->cell(r, "size").text();
  }
}

/// The run of a case with one number in it, and what its longest run says.
struct Tried {
  Verdict verdict;
  double longest;
};
Tried tried(const std::string& pattern, double feet) {
  std::string toml = pattern;
  toml.replace(toml.find("FEET"), 4, fmt::format("{:.10f} ft", feet));
  const Report report = test::check_text(toml);
  const auto found = test::findings(report, "control-drop");
  EXPECT_FALSE(found.empty());
  return {found.at(0)->verdict, test::step_value(report, *found.at(0), "Lx")};
}

TEST(ControlRuns, TheLongestRunIsTheLongest) {
  const std::string head = "edition = \"us-2023\"\n[[control]]\nname = \"r\"\nlength = \"FEET\"\nsource = { voltage = \"24 V ac\" }\n"
                           "cable = { size = \"18 AWG\", common_size = \"16 AWG\", stranding = \"solid\" }\n";
  for (const char* load : {"load = { current = \"0.5 A\", minimum_voltage = \"20 V\" }\n", "load = { inrush = \"1.5 A\", minimum_voltage = \"20 V\" }\n",
                           "load = { kind = \"constant power\", apparent_power = \"10 VA\", minimum_voltage = \"20 V\" }\n",
                           "load = { kind = \"constant power\", apparent_power = \"10 VA\", minimum_voltage = \"5 V\" }\n",
                           "load = { current = \"0.5 A\" }\nallowed_drop = \"7 %\"\n",
                           "load = { current = \"0.5 A\", minimum_voltage = \"20 V\" }\nalso = [{ current = \"0.3 A\" }, { current = \"0.1 A\" }]\n",
                           "load = { kind = \"constant power\", apparent_power = \"10 VA\", minimum_voltage = \"20 V\" }\nalso = [{ current = \"0.3 A\" }]\n",
                           "load = { current = \"0.5 A\", minimum_voltage = \"20 V\" }\nalso = [{ kind = \"constant power\", apparent_power = \"6 VA\" }]\n"}) {
    SCOPED_TRACE(load);
    const Tried short_run = tried(head + load, 10);
    ASSERT_EQ(short_run.verdict, Verdict::pass);
    EXPECT_EQ(tried(head + load, short_run.longest * 0.9999).verdict, Verdict::pass);
    EXPECT_EQ(tried(head + load, short_run.longest * 1.0001).verdict, Verdict::fail);
  }
}

TEST(ControlRuns, TheSmallestSizeIsTheSmallest) {
  const auto verdict = [](const std::string& size) {
    const Report r = test::check_text("edition = \"us-2023\"\n[[control]]\nname = \"r\"\nlength = \"300 ft\"\nsource = { voltage = \"24 V ac\" }\n"
                                      "cable = { size = \"" + size + "\", stranding = \"solid\" }\nload = { current = \"0.6 A\", minimum_voltage = \"21.6 V\" }\n");
    const auto found = test::findings(r, "control-drop");
    EXPECT_THAT(std::string(found.at(0)->message) + std::string(found.at(0)->change), testing::HasSubstr("18 AWG would do for this length"));
    return found.at(0)->verdict;
  };
  EXPECT_EQ(verdict("18 AWG"), Verdict::pass);
  EXPECT_EQ(verdict("19 AWG"), Verdict::fail);  // not a size of the trade; the next one is 20 AWG
  EXPECT_EQ(verdict("16 AWG"), Verdict::pass);
}

TEST(ControlRuns, ATownMayBindTheDrop) {
  Diagnostics d;
  std::vector<code::Book> books = code::thaw(*code::built_in());
  code::lay_over({"town.toml", R"(
[edition]
id = "town"
title = "An invented town"
base = "us-2023"
adopted = 2025-07-01
ordinance = "1"
[[change]]
rule = "control-drop"
field = "binding"
was = false
now = true
source = "ordinance 1"
basis = "published"
[[change]]
rule = "control-drop"
field = "percent"
was = 10
now = 5
source = "ordinance 1"
basis = "published"
)"}, books, d);
  for (const Diagnostic& one : d.sorted()) ADD_FAILURE() << render(one);
  const auto town = code::Edition::find(code::share(code::freeze(books)), "town");
  ASSERT_TRUE(town);
  const auto job = read_case("case.toml", "edition = \"town\"\n[[control]]\nname = \"r\"\nlength = \"100 ft\"\nsource = { voltage = \"24 V ac\" }\n"
                                          "cable = { size = \"18 AWG\", stranding = \"solid\" }\nload = { current = \"1 A\", minimum_voltage = \"20 V\" }\n", d);
  ASSERT_TRUE(job);
  const Report report = run_checks(job, *town);
  const auto found = test::findings(report, "control-drop");
  ASSERT_EQ(found.size(), 2u);
  EXPECT_EQ(found[0]->verdict, Verdict::fail) << "1.277 V of 24 V are 5.3 %";
  EXPECT_EQ(found[0]->cite.edition, "An invented town");
  EXPECT_EQ(found[1]->verdict, Verdict::pass) << "and the device still works";
}

}  // namespace
}  // namespace pullproof
