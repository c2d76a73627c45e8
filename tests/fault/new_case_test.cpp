// First cases: those of every appliance, and those that come of answers.
#include <gtest/gtest.h>

#include <filesystem>
#include <tuple>

#include "starter/interview.hpp"
#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

const Shelf& shelf() {
  static const Shelf s;
  return s;
}

test::Ran run_with(const std::vector<std::string>& words, const std::string& input) {
  test::RunOptions o;
  o.input = input;
  return test::run(words, o);
}

TEST(Starters, AreThereForEveryAppliance) {
  const auto e = code::Edition::find(code::built_in(), "us-2023");
  const auto t = e->table("appliances");
  ASSERT_TRUE(t);
  std::vector<std::string_view> kinds;
  for (std::size_t r = 0; r < t->rows(); ++r) kinds.push_back(t->cell(r, "appliance").text());
  EXPECT_EQ(starter::appliances(*e), kinds);
}

/// What fails or cannot be read of the starter for an appliance.
std::string trouble(const code::Edition& e, std::string_view appliance, const char* dwelling) {
  starter::Plan p = starter::plan_for(e, appliance);
  p.dwelling = dwelling;
  starter::follow(e, p, {});
  starter::fit_sizes(shelf(), e, p);
  const starter::Checked c = starter::check(shelf(), p);
  std::string s;
  for (const Diagnostic& d : c.complaints) s += render(d);
  for (const Finding& f : c.report.findings)
    if (f.verdict == Verdict::fail) s += fmt::format("{}: {}\n", f.check, f.message);
  if (c.complaints.empty() && c.report.count(Verdict::pass) < 10) s += "hardly anything was checked\n";
  return s.empty() ? s : fmt::format("{} {} {}: {}\n{}", e.id(), appliance, dwelling, s, starter::compose(e, p));
}

// In parts, so that several processes can share them.
constexpr std::size_t parts = 4;
class EveryStarter : public testing::TestWithParam<std::tuple<const char*, const char*, std::size_t>> {};

TEST_P(EveryStarter, CanBeCheckedAndFailsNothing) {
  const auto& [edition, dwelling, part] = GetParam();
  const auto e = code::Edition::find(code::built_in(), edition);
  const auto all = starter::appliances(*e);
  ASSERT_GT(all.size(), parts);
  for (std::size_t i = part; i < all.size(); i += parts) EXPECT_EQ(trouble(*e, all[i], dwelling), "");
}

INSTANTIATE_TEST_SUITE_P(OfDwellings, EveryStarter, testing::Combine(testing::Values("us-2017", "us-2023"), testing::Values("yes"), testing::Range<std::size_t>(0, parts)));
INSTANTIATE_TEST_SUITE_P(Elsewhere, EveryStarter, testing::Combine(testing::Values("us-2023"), testing::Values("no"), testing::Range<std::size_t>(0, parts)));

TEST(Starters, GiveTheNameplateOfTheirKind) {
  const auto e = code::Edition::find(code::built_in(), "us-2023");
  for (const std::string_view a : starter::appliances(*e)) {
    const starter::Plan p = starter::plan_for(*e, a);
    const std::string text = starter::compose(*e, p);
    const auto has = [&](std::string_view key) { return text.find(fmt::format("\n{}", key)) != std::string::npos; };
    EXPECT_EQ(has("minimum_circuit_ampacity"), p.kind == "cooling") << a;
    EXPECT_EQ(has("maximum_device"), p.kind == "cooling") << a;
    EXPECT_EQ(has("motors"), p.kind == "motor") << a;
    EXPECT_EQ(has("current ") || has("power "), p.kind == "ordinary" || !p.control.empty()) << a;
  }
}

TEST(NewCase, WritesACaseForAnApplianceToAPipe) {
  const auto r = test::run({"new", "heat", "pump"});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_EQ(r.err, "");
  const auto c = run_with({"check", "-"}, r.out);
  EXPECT_EQ(c.status, 3) << c.out << c.err;
}

TEST(NewCase, SaysWhichAppliancesAreMeant) {
  const auto several = test::run({"new", "gas", "water"});
  EXPECT_EQ(several.status, 2);
  EXPECT_EQ(several.out, "");
  EXPECT_NE(several.err.find("gas water heater, storage"), std::string::npos) << several.err;
  const auto none = test::run({"new", "vehicle chargr"});
  EXPECT_EQ(none.status, 2);
  EXPECT_NE(none.err.find("did you mean 'vehicle charger'?"), std::string::npos) << none.err;
}

// The answers of somebody with a gas water heater; the first for the volts, the length and the disconnect cannot be.
constexpr const char* answers =
    "us-2023\n" "gas water heater, on demand\n" "yes\n" "\n" "many\n120 V\n" "4.2 A\n" "outdoors\n" "\n" "EMT\n" "\n" "long\n62\n" "104 °F\n" "\n"
    "remote\n" "48 ft\n" "9.2 kA\n" "15\n" "\n" "\n" "\n" "\n" "1\nno\n\n" "Wash-house\n" "2026-11-25\n" "Lot 14\n";

TEST(NewCase, AsksAgainAndWritesWhatPasses) {
  const auto r = run_with({"new"}, answers);
  ASSERT_EQ(r.status, 0) << r.err;
  for (const char* said : {"a quantity begins with a number: write \"240 V\"", "a quantity begins with a number: write \"62 ft\"", "Keep it all the same?"})
    EXPECT_NE(test::flat(r.err).find(said), std::string::npos) << said << "\n" << r.err;
  for (const char* written : {"\"62 ft\"", "\"104 °F\"", "\"15 A\"", "\"4.2 A\"", "\"48 ft\"", "2026-11-25", "\"Lot 14\""})
    EXPECT_NE(r.out.find(written), std::string::npos) << written << "\n" << r.out;
  const auto c = run_with({"check", "-"}, r.out);
  EXPECT_EQ(c.status, 0) << c.out << c.err;
}

TEST(NewCase, WritesNothingWhenTheInputEndsEarly) {
  const test::Scratch scratch;
  const std::string all = answers;
  const std::string file = scratch.path("case.toml").string();
  for (std::size_t end = 0; end + 1 < all.size(); end = all.find('\n', end + 1)) {
    const auto r = run_with({"new", "-o", file}, all.substr(0, end));
    EXPECT_EQ(r.status, 2) << end;
    EXPECT_EQ(r.out, "") << end;
    EXPECT_FALSE(std::filesystem::exists(file)) << end;
    EXPECT_NE(r.err.find("nothing is written"), std::string::npos) << r.err;
    if (end > 60) break;  // the rest is the same
  }
}

TEST(NewCase, LeavesAFileAloneThatIsThere) {
  const test::Scratch scratch;
  const std::string file = scratch.file("case.toml", "mine\n");
  const auto r = test::run({"new", "-o", file, "range"});
  EXPECT_EQ(r.status, 2);
  EXPECT_NE(r.err.find("is there already"), std::string::npos) << r.err;
  EXPECT_EQ(test::read_text(file), "mine\n");
}

TEST(NewCase, PutsAnswersIntoTheCaseAsTexts) {
  const auto e = code::Edition::find(code::built_in(), "us-2023");
  starter::Plan p = starter::plan_for(*e, "range");
  p.title = "a \"b\" \\ c # d";
  starter::fit_sizes(shelf(), *e, p);
  EXPECT_EQ(test::check_text(starter::compose(*e, p)).title, p.title);
}

}  // namespace
}  // namespace pullproof
