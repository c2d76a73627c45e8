// Sizing: against an exhaustive search, and against what people chose. tests/published holds it against printed examples.
#include "answers/sizing.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/load.hpp"
#include "support/cases.hpp"
#include "support/drafts.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;
using answers::Draft;
using answers::Sizing;
using answers::SizingOptions;
using test::draft_of;
using test::size_of;

/// No check fails and no advice of a comparison is left: said of a text, by reading and checking it afresh.
bool does(const std::string& text) {
  Diagnostics complaints;
  const auto loaded = load_case({}, "case.toml", text, std::nullopt, complaints);
  if (!loaded) return false;
  const Report r = run_checks(loaded->job, loaded->edition);
  return std::none_of(r.findings.begin(), r.findings.end(), [](const Finding& f) { return f.verdict == Verdict::fail || answers::is_unheeded(f); });
}

struct Axis {
  std::string path;
  std::vector<std::string> values;
};

/// The first of all combinations, in the order of the axes, that does.
std::vector<std::string> by_trying_all(const std::string& text, const std::vector<Axis>& axes) {
  std::vector<std::size_t> at(axes.size(), 0);
  while (true) {
    std::vector<Edit> edits;
    std::vector<std::string> values;
    for (std::size_t i = 0; i < axes.size(); ++i) {
      values.push_back(axes[i].values[at[i]]);
      edits.push_back({axes[i].path, toml_string(values.back())});
    }
    if (does(edited(text, edits).value())) return values;
    std::size_t i = axes.size();
    while (i > 0 && ++at[i - 1] == axes[i - 1].values.size()) at[--i] = 0;
    if (i == 0) return {};
  }
}

void expect_as_by_trying_all(const std::string& text, const std::vector<Axis>& axes) {
  SizingOptions options;
  for (const Axis& a : axes) options.stock.push_back({a.path, a.values});
  const Sizing found = answers::size_case(draft_of(text), options);
  const auto best = by_trying_all(text, axes);
  if (best.empty()) {
    EXPECT_TRUE(found.conflict) << text;
    return;
  }
  std::vector<std::string> values;
  for (const Axis& a : axes) values.push_back(size_of(found, a.path));
  EXPECT_EQ(values, best) << text;
}

struct Job {
  std::string length = "40 ft", load = "power = \"4500 W\"", raceway = "EMT", ambient = "30 °C", also = {};
  std::string breaker = {}, wire = {}, ground = {}, size = {};  // given ones: `rating = "20 A", `
};

std::string heater(const Job& j = {}) {
  return fmt::format(
      "edition = \"us-2023\"\n[supply]\nsystem = \"120/240 V 1-phase 3-wire\"\navailable_fault = \"5 kA\"\ndwelling = true\nopenings_closed = true\n"
      "[[raceway]]\nname = \"wall\"\ntype = \"{}\"\n{}length = \"{}\"\nplace = \"indoors, dry\"\nambient = \"{}\"\nbends = \"180°\"\nalso = [{}]\n"
      "supports = {{ every = \"3 ft\", from_box = \"1 ft\" }}\n[[circuit]]\nname = \"heater\"\nvoltage = \"240 V\"\npath = [\"wall\"]\n"
      "breaker = {{ {}terminals = \"75 °C\" }}\n"
      "load = {{ appliance = \"electric water heater, storage\", {}, terminals = \"75 °C\", place = \"basement\", connection = \"hard-wired\" }}\n"
      "wire = {{ {}material = \"copper\", type = \"THHN/THWN-2\", hot = \"black\", neutral = \"none\" }}\nground = {{ {}color = \"green\" }}\n"
      "disconnect = {{ kind = \"breaker\", within_sight = true }}\n",
      j.raceway, j.size, j.length, j.ambient, j.also, j.breaker, j.load, j.wire, j.ground);
}

const std::vector<Axis> grid = {{"circuit.0.breaker.rating", {"20 A", "25 A", "30 A", "40 A"}},
                                {"circuit.0.wire.size", {"14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG"}},
                                {"circuit.0.ground.size", {"12 AWG", "10 AWG", "8 AWG", "6 AWG"}},
                                {"raceway.0.size", {"1/2", "3/4"}}};

TEST(Sizing, IsTheFirstOfAllCombinationsThatDoes) {
  expect_as_by_trying_all(heater(), grid);
  expect_as_by_trying_all(heater({.length = "250 ft"}), grid);                     // drop decides
  expect_as_by_trying_all(heater({.load = "power = \"5500 W\""}), grid);
  expect_as_by_trying_all(heater({.ambient = "55 °C"}), grid);                      // ambient decides
  expect_as_by_trying_all(heater({.also = "{ count = 8, size = \"12 AWG\", type = \"THHN\", current_carrying = true }"}), grid);
  expect_as_by_trying_all(heater({.load = "power = \"9000 W\""}), grid);           // the device that it needs is not at hand
}

TEST(Sizing, GoesBackToALargerDeviceWhereTheSmallestHasNoWire) {
  // 20 A and 25 A ask for wire that is not at hand: the grid has holes.
  std::vector<Axis> holes = grid;
  holes[1].values = {"14 AWG", "6 AWG"};
  holes[2].values = {"12 AWG", "6 AWG"};
  expect_as_by_trying_all(heater(), holes);
  holes[2].values = {"12 AWG"};
  expect_as_by_trying_all(heater(), holes);
}

TEST(Sizing, OfTwoCircuitsInOneRacewayIsTheFirstThatDoes) {
  std::string text = heater({.breaker = "rating = \"25 A\", ", .ground = "size = \"10 AWG\", "});
  text +=
      "[[circuit]]\nname = \"pump house\"\nvoltage = \"240 V\"\npath = [\"wall\"]\nbreaker = { rating = \"20 A\", terminals = \"75 °C\" }\n"
      "load = { appliance = \"electric water heater, storage\", power = \"3000 W\", terminals = \"75 °C\", place = \"basement\", connection = \"hard-wired\" }\n"
      "wire = { material = \"copper\", type = \"THHN/THWN-2\", hot = \"black\", neutral = \"none\" }\nground = { color = \"green\" }\n"
      "disconnect = { kind = \"breaker\", within_sight = true }\n";
  expect_as_by_trying_all(text, {{"circuit.0.wire.size", {"14 AWG", "12 AWG", "10 AWG", "8 AWG"}},
                                 {"circuit.1.wire.size", {"14 AWG", "12 AWG", "10 AWG", "8 AWG"}},
                                 {"circuit.1.ground.size", {"14 AWG", "12 AWG", "10 AWG"}},
                                 {"raceway.0.size", {"3/8", "1/2", "3/4", "1"}}});
}

TEST(Sizing, OfAFeederAndItsBranchIsTheFirstThatDoes) {
  std::string text = heater({.length = "90 ft", .breaker = "rating = \"25 A\", ", .ground = "size = \"4 AWG\", ", .size = "size = \"2\"\n"});
  text.replace(text.find("voltage = \"240 V\"\npath = [\"wall\"]"), 0, "fed_by = \"barn\"\n");
  text +=
      "[[raceway]]\nname = \"yard\"\ntype = \"PVC-40\"\nsize = \"2\"\nlength = \"300 ft\"\nplace = \"underground\"\nbends = \"180°\"\ncover = \"24 in\"\nunder = \"ground\"\n"
      "[[circuit]]\nname = \"barn\"\nrole = \"feeder\"\nvoltage = \"240 V\"\npath = [\"yard\"]\nbreaker = { rating = \"60 A\", terminals = \"75 °C\" }\n"
      "load = { current = \"30 A\", continuous = false, terminals = \"75 °C\" }\nwire = { material = \"copper\", type = \"THHN/THWN-2\", hot = \"black\", neutral = \"white\" }\nground = { size = \"4 AWG\", color = \"green\" }\n";
  expect_as_by_trying_all(text, {{"circuit.1.wire.size", {"8 AWG", "6 AWG", "4 AWG", "3 AWG", "2 AWG"}},
                                 {"circuit.0.wire.size", {"14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG"}}});
}

TEST(Sizing, SaysWhatSpeaksAgainstTheNextSmallerOne) {
  const Sizing s = answers::size_case(draft_of(heater({.length = "200 ft"})));
  for (const answers::Sized& one : s.sizes) {
    if (one.smaller.empty()) continue;
    ASSERT_FALSE(one.objections.empty()) << one.path;
    std::vector<Edit> other = s.edits;
    answers::put(other, {one.path, one.smaller});
    EXPECT_FALSE(does(edited(heater({.length = "200 ft"}), other).value())) << one.path;
  }
  const auto wire = std::find_if(s.sizes.begin(), s.sizes.end(), [](const auto& one) { return one.path == "circuit.0.wire.size"; });
  ASSERT_NE(wire, s.sizes.end());
  EXPECT_EQ(wire->objections.front().check, "drop-branch");
}

TEST(Sizing, SaysHowFarADeviceMayGo) {
  // EC&M magazine, Code Q&A 'Electric water heaters': at most the next standard rating above 150 %, 28 A, so 30 A.
  const Sizing s = answers::size_case(draft_of(heater()));
  ASSERT_FALSE(s.sizes.empty());
  EXPECT_EQ(s.sizes[0].up_to, "\"30 A\"");
}

TEST(Sizing, SaysWhatIsNotSettled) {
  std::string text = heater();
  const std::string type = ", type = \"THHN/THWN-2\"";
  text.erase(text.find(type), type.size());
  const Sizing s = answers::size_case(draft_of(text));
  const auto wire = std::find_if(s.sizes.begin(), s.sizes.end(), [](const auto& one) { return one.path == "circuit.0.wire.size"; });
  ASSERT_NE(wire, s.sizes.end());
  ASSERT_FALSE(wire->unsettled.empty());
  EXPECT_EQ(wire->unsettled.front().missing, "wire.type");
  for (const auto& one : answers::size_case(draft_of(heater())).sizes) EXPECT_TRUE(one.unsettled.empty()) << one.path;
}

TEST(Sizing, LeavesWhatIsGivenAlone) {
  const std::string text = heater({.breaker = "rating = \"30 A\", ", .wire = "size = \"8 AWG\", "});
  const Sizing s = answers::size_case(draft_of(text));
  EXPECT_EQ(size_of(s, "circuit.0.breaker.rating"), "not open");
  EXPECT_EQ(size_of(s, "circuit.0.wire.size"), "not open");
  EXPECT_EQ(size_of(s, "circuit.0.ground.size"), "8 AWG");
}

TEST(Sizing, KeepsToLimits) {
  SizingOptions options;
  options.at_least = {{"wire.size", {"8 AWG"}}, {"wall: raceway.size", {"1"}}};
  const Sizing s = answers::size_case(draft_of(heater()), options);
  EXPECT_EQ(size_of(s, "circuit.0.wire.size"), "8 AWG");
  EXPECT_EQ(size_of(s, "raceway.0.size"), "1");
  options = {};
  options.stock = {{"breaker.rating", {"20 A", "30 A"}}, {"raceway.size", {"3/4", "1"}}};
  const Sizing stock = answers::size_case(draft_of(heater()), options);
  EXPECT_EQ(size_of(stock, "circuit.0.breaker.rating"), "30 A");
  EXPECT_EQ(size_of(stock, "raceway.0.size"), "3/4");
}

TEST(Sizing, NamesTheChecksThatExcludeEachOther) {
  SizingOptions options;
  options.stock = {{"wire.size", {"14 AWG", "12 AWG"}}};
  const Sizing s = answers::size_case(draft_of(heater()), options);
  ASSERT_TRUE(s.conflict);
  EXPECT_EQ(s.conflict->key, "breaker.rating");
  std::vector<std::string> checks;
  for (const auto& e : s.conflict->exclusions) checks.emplace_back(e.objection.check);
  for (const char* check : {"device-load", "device-conductor", "appliance-device"}) EXPECT_TRUE(std::find(checks.begin(), checks.end(), check) != checks.end()) << check;
  EXPECT_TRUE(s.sizes.empty());
  EXPECT_TRUE(s.edits.empty());
}

TEST(Sizing, TakesNoSizeThatLeavesACheckWithoutAnAnswer) {
  // 1250 kcmil is not in the table of diameters: the fill would be open instead of failing.
  SizingOptions options;
  options.stock = {{"raceway.size", {"1/2"}}, {"wire.size", {"6 AWG", "4 AWG"}}};
  EXPECT_TRUE(answers::size_case(draft_of(heater()), options).conflict);
}

TEST(Sizing, SaysWhenTheConduitAtHandIsTooSmallForAnyWireThatDoes) {
  const Sizing s = answers::size_case(draft_of(heater({.load = "power = \"11000 W\"", .size = "size = \"1/2\"\n"})));
  ASSERT_TRUE(s.conflict);
  const auto fill = std::find_if(s.conflict->exclusions.begin(), s.conflict->exclusions.end(), [](const auto& e) { return e.objection.check == "raceway-fill"; });
  ASSERT_NE(fill, s.conflict->exclusions.end());
  EXPECT_EQ(fill->objection.verdict, Verdict::fail);
  EXPECT_LT(s.trials, 4000u);
}

TEST(Sizing, IsNotStoppedByWhatNoSizeMends) {
  // The place asks for ground-fault protection, the raceway has too many bends, and the ground is white: sizes are found
  // all the same, and what fails is left for the report.
  std::string text = heater();
  text.replace(text.find("180°"), 5, "450°");
  text.replace(text.find("\"green\""), 7, "\"white\"");
  const Sizing s = answers::size_case(draft_of(text));
  EXPECT_FALSE(s.conflict);
  EXPECT_EQ(size_of(s, "circuit.0.wire.size"), "10 AWG");
  // A cable type that may not be where it is fails whatever its source and size are.
  const std::string control =
      "edition = \"us-2023\"\n[[control]]\nname = \"remote\"\nlength = \"60 ft\"\nplace = \"indoors, dry, plenum\"\n"
      "source = { class = 2, voltage = \"24 V ac\", maximum_voltage = \"28 V\" }\ncable = { conductors = 2, type = \"CL2\", stranding = \"solid\" }\nload = { current = \"370 mA\" }\n";
  const Sizing run = answers::size_case(draft_of(control));
  EXPECT_FALSE(run.conflict);
  EXPECT_EQ(size_of(run, "control.0.source.rating"), "10 VA");
}

TEST(Sizing, OfTwoGroundsThatDoNotFitNamesTheFill) {
  const std::string text = test::read_text(test::source_dir() / "tests/checks/ampacity/shared-raceway.toml");
  const Sizing s = answers::size_case(draft_of(text));
  ASSERT_TRUE(s.conflict);  // 1/2 EMT is given, and two 10 AWG grounds do not go in beside four 10 AWG
  EXPECT_TRUE(std::any_of(s.conflict->exclusions.begin(), s.conflict->exclusions.end(), [](const auto& e) { return e.objection.check == "raceway-fill"; }));
}

TEST(Sizing, HeedsAdviceUnlessToldOtherwise) {
  const std::string text = heater({.length = "200 ft"});
  SizingOptions binding_alone;
  binding_alone.heed_advice = false;
  EXPECT_EQ(size_of(answers::size_case(draft_of(text), binding_alone), "circuit.0.wire.size"), "10 AWG");
  EXPECT_EQ(size_of(answers::size_case(draft_of(text)), "circuit.0.wire.size"), "8 AWG");
}

/// A case without the value at a place.
std::string without(std::string text, std::string_view path) {
  const std::string_view value = value_at(text, path);
  if (value.empty()) return text;
  std::size_t begin = static_cast<std::size_t>(value.data() - text.data()), end = begin + value.size();
  begin = text.rfind('=', begin);
  while (begin > 0 && text[begin - 1] == ' ') --begin;
  while (begin > 0 && (std::isalnum(static_cast<unsigned char>(text[begin - 1])) != 0 || text[begin - 1] == '_' || text[begin - 1] == '.')) --begin;
  if (text.substr(end, 1) == ",") ++end;
  else if (const std::size_t before = text.find_last_not_of(" ", begin - 1); before != std::string::npos && text[before] == ',') begin = before;
  return text.erase(begin, end - begin);
}

std::vector<std::pair<std::string, std::string>> passing_demo_cases() {
  std::vector<std::pair<std::string, std::string>> out;
  for (const auto& entry : fs::recursive_directory_iterator(test::source_dir() / "cases")) {
    if (entry.path().extension() != ".toml") continue;
    const std::string text = test::read_text(entry.path());
    const Draft draft = draft_of(text, entry.path().string());
    if (run_checks(draft.with({}), draft.edition).count(Verdict::fail) == 0) out.emplace_back(entry.path().string(), text);
  }
  return out;
}

TEST(Sizing, IsNoLargerThanWhatPeopleChoseAndPasses) {
  std::size_t opened = 0;
  for (const auto& [file, text] : passing_demo_cases()) {
    std::string bare = text;
    const Draft whole = draft_of(text, file);
    const auto job = whole.with({});
    for (const answers::Part& part : answers::parts_of(*job))
      for (const answers::Choice& choice : answers::all_choices())
        if (choice.size && choice.kind == part.kind) bare = without(bare, answers::path_of(choice, part));
    const Draft draft = draft_of(bare, file);
    const Sizing s = answers::size_case(draft);
    EXPECT_FALSE(s.conflict) << file << " " << (s.conflict ? s.conflict->subject + " " + s.conflict->key : "");
    if (s.conflict || s.sizes.empty()) continue;
    opened += s.sizes.size();
    const Draft done{file, draft.edited(s.edits), draft.edition};
    EXPECT_EQ(run_checks(done.with({}), done.edition).count(Verdict::fail), 0u) << file;
    EXPECT_TRUE(answers::size_case(done).sizes.empty()) << file;
    // Only of the first is it certain: what the author took for it may have allowed for smaller ones later.
    const std::string_view chosen = value_at(text, s.sizes.front().path);
    if (!chosen.empty() && s.unheeded.empty()) {
      EXPECT_LE(answers::magnitude(s.sizes.front().value), answers::magnitude(chosen)) << file << " " << s.sizes.front().path;
    }
  }
  EXPECT_GT(opened, 60u);
}

TEST(SizeCommand, WritesTheCompletedCaseAndKeepsComments) {
  const test::Scratch scratch;
  const std::string file = scratch.file("open.toml", heater() + "# the end\n"), goal = scratch.path("sized.toml").string();
  const auto ran = test::run({"size", file, "-o", goal});
  const std::string done = test::read_text(goal);
  EXPECT_EQ(value_at(done, "circuit.0.wire.size"), "\"10 AWG\"");
  EXPECT_TRUE(done.ends_with("# the end\n"));
  EXPECT_EQ(test::run({"check", goal}).status, ran.status);
  EXPECT_EQ(test::run({"size", file, "-o", "-"}).out, done);
}

TEST(SizeCommand, RefusesWrongLimits) {
  const test::Scratch scratch;
  const std::string file = scratch.file("open.toml", heater());
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{{"--stock", "wire.size"}, {"--stock", "wire.size="}, {"--stock", "wire.colour=red"},
                                                                                      {"--stock", "raceway.size=7/8"}, {"--at-least", "wire.size=12 AWG,10 AWG"},
                                                                                      {"--at-least", "shed: raceway.size=1/2"}}) {
    std::vector<std::string> all{"size", file};
    all.insert(all.end(), words.begin(), words.end());
    const auto ran = test::run(all);
    EXPECT_EQ(ran.status, 2) << words.back();
    EXPECT_TRUE(ran.out.empty());
    EXPECT_NE(ran.err.find("note:"), std::string::npos) << ran.err;
  }
}

TEST(SizeCommand, WritesNothingOnAConflict) {
  const test::Scratch scratch;
  const std::string file = scratch.file("open.toml", heater()), goal = scratch.path("sized.toml").string();
  const auto ran = test::run({"size", file, "--stock", "wire.size=14 AWG", "-o", goal});
  EXPECT_EQ(ran.status, 1);
  EXPECT_FALSE(fs::exists(goal));
  EXPECT_NE(ran.out.find("Nothing does"), std::string::npos);
}

}  // namespace
}  // namespace pullproof
