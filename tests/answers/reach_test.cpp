// Reach: each length against the checks themselves, run afresh on either side of it, and against published lengths.
#include "answers/reach.hpp"

#include <gtest/gtest.h>
#include <rapidjson/document.h>

#include <algorithm>
#include <cmath>

#include "engine/load.hpp"
#include "support/cases.hpp"
#include "support/drafts.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

using answers::Draft;
using test::draft_of;
using answers::Reach;
using answers::ReachRow;
using answers::ReachTable;

Draft demo(const std::string& name) {
  const std::string file = (test::source_dir() / "cases" / (name + ".toml")).string();
  return draft_of(test::read_text(file), file);
}

/// The path of the length that a table varies, with what the rest of the run measures, in feet.
std::pair<std::string, double> varied(const Draft& draft, const ReachTable& t) {
  const auto job = draft.with({});
  const auto feet = [](const Given<Length>& l) { return units::foot.show(*l); };
  for (std::size_t i = 0; i < job->raceways.size(); ++i)
    if (t.stretch == "raceway " + std::string(*job->raceways[i].name)) return {fmt::format("raceway.{}.length", i), units::foot.show(t.now) - feet(job->raceways[i].length)};
  for (std::size_t i = 0; i < job->cables.size(); ++i)
    if (t.stretch == "cable " + std::string(*job->cables[i].name)) return {fmt::format("cable.{}.length", i), units::foot.show(t.now) - feet(job->cables[i].length)};
  for (std::size_t i = 0; i < job->controls.size(); ++i)
    if (t.subject == "control " + std::string(*job->controls[i].name)) return {fmt::format("control.{}.length", i), 0};
  return {};
}

std::vector<std::string> size_paths(const Draft& draft, const ReachTable& t) {
  const auto job = draft.with({});
  for (std::size_t i = 0; i < job->controls.size(); ++i)
    if (t.subject == "control " + std::string(*job->controls[i].name)) return {fmt::format("control.{}.cable.size", i)};
  std::vector<std::string> out;
  for (std::size_t i = 0; i < job->circuits.size(); ++i) {
    if (t.subject != "circuit " + std::string(*job->circuits[i].name)) continue;
    for (const Stretch& s : job->circuits[i].path) out.push_back(s.cable != nullptr ? fmt::format("cable.{}.size", s.cable - job->cables.data()) : fmt::format("circuit.{}.wire.size", i));
  }
  return out;
}

/// Whether the check that is said to stop the run does so at a length of the whole run.
bool stops_at(const Draft& draft, const ReachTable& t, const ReachRow& row, double feet) {
  const auto [length, rest] = varied(draft, t);
  std::vector<Edit> edits;
  for (const std::string& path : size_paths(draft, t)) edits.push_back({path, toml_string(row.size)});
  for (const answers::Sized& s : row.with) edits.push_back({s.path, s.value});
  edits.push_back({length, fmt::format("\"{:.3f} ft\"", feet - rest)});
  const auto job = draft.with(edits);
  EXPECT_TRUE(job) << t.subject << " " << row.size;
  if (!job) return false;
  const Report report = run_checks(job, draft.edition);
  return std::any_of(report.findings.begin(), report.findings.end(), [&](const Finding& f) {
    return f.check == row.stops.check && f.subject == row.stops.subject && (f.verdict == Verdict::fail || answers::is_unheeded(f));
  });
}

TEST(Reach, EachLengthIsTheLastThatTheChecksPass) {
  std::size_t rows = 0;
  for (const char* name : {"wash-house", "guest-house", "cabin-range", "long-thermostat", "metric", "appliances/well-pump", "appliances/range"}) {
    const Draft draft = demo(name);
    const Reach found = answers::reach_of(draft);
    ASSERT_FALSE(found.tables.empty()) << name;
    for (const ReachTable& t : found.tables)
      for (const ReachRow& row : t.rows) {
        if (row.farther) continue;
        ++rows;
        SCOPED_TRACE(fmt::format("{}: {} {} {} ft", name, t.subject, row.size, units::foot.show(row.longest)));
        const double feet = units::foot.show(row.longest);
        EXPECT_FALSE(stops_at(draft, t, row, feet));
        EXPECT_FALSE(stops_at(draft, t, row, feet / 2 + 2)) << "and not before";
        EXPECT_TRUE(stops_at(draft, t, row, feet + 0.11));
      }
  }
  EXPECT_GT(rows, 30u);
}

TEST(Reach, GrowsWithTheSizeAndMarksWhatTheCaseHas) {
  const Reach found = answers::reach_of(demo("wash-house"));
  for (const ReachTable& t : found.tables) {
    EXPECT_EQ(std::count_if(t.rows.begin(), t.rows.end(), [](const ReachRow& r) { return r.now; }), 1) << t.subject;
    for (std::size_t i = 1; i < t.rows.size(); ++i) EXPECT_GE(t.rows[i].longest, t.rows[i - 1].longest) << t.subject;
  }
}

TEST(Reach, WithoutAdviceIsNoShorter) {
  const Reach advised = answers::reach_of(demo("wash-house")), binding = answers::reach_of(demo("wash-house"), false);
  ASSERT_EQ(advised.tables.size(), binding.tables.size());
  for (std::size_t i = 0; i < advised.tables[0].rows.size() && i < binding.tables[0].rows.size(); ++i)
    EXPECT_GE(binding.tables[0].rows[i].longest, advised.tables[0].rows[i].longest);
  EXPECT_EQ(advised.tables[0].rows[0].stops.check, "drop-branch");
}

/// A camera on 24 V ac: 10 % drop, resistance at 20 °C as the maker's tables have it.
std::string camera(std::string_view current) {
  return fmt::format(
      "edition = \"us-2023\"\n[[control]]\nname = \"camera\"\nlength = \"30 ft\"\nplace = \"indoors, dry\"\nallowed_drop = \"10 %\"\n"
      "source = {{ class = 2, voltage = \"24 V ac\", maximum_voltage = \"28 V\" }}\n"
      "cable = {{ size = \"18 AWG\", conductors = 2, type = \"CL2\", stranding = \"solid\", temperature = \"20 °C\", material = \"copper\" }}\n"
      "load = {{ current = \"{}\" }}\n",
      current);
}

double feet_of(const Reach& r, std::string_view size) {
  for (const ReachRow& row : r.tables.at(0).rows)
    if (row.size == size) return units::foot.show(row.longest);
  return std::nan("");
}

TEST(Reach, AgreesWithPublishedLengths) {
  // A camera dome manual, table of 24 V ac wire lengths at 10 % drop: 25 VA on 18 AWG 180 ft, 50 VA on 16 AWG 143 ft.
  EXPECT_NEAR(feet_of(answers::reach_of(draft_of(camera("1.041667 A"))), "18 AWG"), 180, 1);
  EXPECT_NEAR(feet_of(answers::reach_of(draft_of(camera("2.083333 A"))), "16 AWG"), 143, 1);
}

TEST(Reach, StopsAtTheMakersLength) {
  std::string text = camera("100 mA");
  text.insert(text.find("allowed_drop"), "maximum_length = \"100 ft\"\n");
  const Reach found = answers::reach_of(draft_of(text));
  ASSERT_FALSE(found.tables[0].rows.empty());
  const ReachRow& row = found.tables[0].rows.back();
  EXPECT_NEAR(units::foot.show(row.longest), 100, 0.05);
  EXPECT_EQ(row.stops.check, "control-length");
  EXPECT_TRUE(found.tables[0].no_farther);
}

TEST(Reach, WorksOutOpenSizesFirst) {
  std::string text = test::read_text(test::source_dir() / "cases/wash-house.toml");
  const std::string size = "size = \"14 AWG\", material";
  text.replace(text.find(size), size.size(), "material");
  const Reach found = answers::reach_of(draft_of(text));
  EXPECT_FALSE(found.sized.empty());
  EXPECT_FALSE(found.tables[0].rows.empty());
}

TEST(ReachCommand, SpeaksJsonAndEndsAsCheckDoes) {
  const std::string file = (test::source_dir() / "cases/wash-house.toml").string();
  const auto ran = test::run({"reach", "--format", "json", file});
  EXPECT_EQ(ran.status, test::run({"check", file}).status);
  rapidjson::Document json;
  json.Parse(ran.out.c_str());
  ASSERT_FALSE(json.HasParseError());
  ASSERT_EQ(json["runs"].Size(), 2u);
  EXPECT_GT(json["runs"][0]["rows"].Size(), 3u);
  EXPECT_TRUE(json["runs"][0]["rows"][0]["feet"].IsDouble());
}

TEST(ReachCommand, NoLineIsWiderThanEightyCells) {
  for (const char* name : {"wash-house", "guest-house", "shared-raceway"}) {
    std::istringstream in(test::run({"reach", (test::source_dir() / "cases" / (std::string(name) + ".toml")).string()}).out);
    for (std::string line; std::getline(in, line);) EXPECT_LE(display_width(line), 80u) << line;
  }
}

}  // namespace
}  // namespace pullproof
