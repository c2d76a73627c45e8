// Comparison: against the reports themselves, as two runs of the program give them.
#include "answers/compare.hpp"

#include <gtest/gtest.h>
#include <rapidjson/document.h>

#include <map>
#include <set>
#include <sstream>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

std::string demo(const std::string& name) { return (test::source_dir() / "cases" / (name + ".toml")).string(); }

rapidjson::Document json_of(const std::vector<std::string>& words) {
  rapidjson::Document json;
  const auto ran = test::run(words);
  json.Parse(ran.out.c_str());
  EXPECT_FALSE(json.HasParseError()) << words[0] << ran.err;
  return json;
}

/// Verdicts of each check and subject in a report of `check`, sorted as given.
std::map<std::pair<std::string, std::string>, std::vector<std::string>> verdicts(const std::vector<std::string>& words) {
  std::map<std::pair<std::string, std::string>, std::vector<std::string>> out;
  const auto json = json_of(words);
  for (const auto& f : json["reports"][0]["findings"].GetArray()) out[{f["check"].GetString(), f["subject"].GetString()}].push_back(f["verdict"].GetString());
  return out;
}

/// The checks and subjects whose verdicts differ, apart from what does not apply on the one side that has it.
std::set<std::pair<std::string, std::string>> by_hand(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  std::set<std::pair<std::string, std::string>> out;
  const auto in_a = verdicts(a), in_b = verdicts(b);
  const auto add = [&](const auto& from, const auto& to) {
    for (const auto& [matter, all] : from) {
      const auto other = to.find(matter);
      const std::vector<std::string> none;
      const auto& there = other == to.end() ? none : other->second;
      for (std::size_t i = 0; i < all.size(); ++i) {
        if (i < there.size() ? all[i] != there[i] : all[i] != "not_applicable") out.insert(matter);
      }
    }
  };
  add(in_a, in_b);
  add(in_b, in_a);
  return out;
}

std::set<std::pair<std::string, std::string>> by_program(const std::vector<std::string>& words) {
  std::set<std::pair<std::string, std::string>> out;
  const auto json = json_of(words);
  for (const auto& d : json["differences"].GetArray())
    if (d["verdict_differs"].GetBool()) out.emplace(d["check"].GetString(), d["subject"].GetString());
  return out;
}

TEST(CompareCommand, NamesExactlyTheAnswersThatDiffer) {
  for (const auto& [a, b] : std::vector<std::pair<std::string, std::string>>{{"us-2017", "us-2023"}, {"us-2023", "us-2017"}, {"us-2023", "us-2026"}, {"us-2020", "pine-cove"}})
    for (const char* name : {"wash-house", "dozen-faults", "cooling-unit", "guest-house", "shared-raceway"}) {
      SCOPED_TRACE(std::string(name) + " " + a + " " + b);
      EXPECT_EQ(by_program({"compare", "--format", "json", demo(name), a, b}),
                by_hand({"check", "--format", "json", "--remedies", "never", "--edition", a, demo(name)}, {"check", "--format", "json", "--remedies", "never", "--edition", b, demo(name)}));
    }
  EXPECT_EQ(by_program({"compare", "--format", "json", demo("wash-house"), demo("dozen-faults")}),
            by_hand({"check", "--format", "json", "--remedies", "never", demo("wash-house")}, {"check", "--format", "json", "--remedies", "never", demo("dozen-faults")}));
}

TEST(CompareCommand, OfACaseWithItselfFindsNothing) {
  for (const char* name : {"wash-house", "dozen-faults"}) {
    const auto ran = test::run({"compare", demo(name), demo(name)});
    EXPECT_EQ(ran.status, test::run({"check", demo(name)}).status);
    EXPECT_NE(ran.out.find("Every check gives the same answer with the same numbers."), std::string::npos) << ran.out;
    EXPECT_EQ(ran.out.find("What the cases say"), std::string::npos);
  }
}

TEST(CompareCommand, TellsAnAmendmentFromACase) {
  const test::Scratch scratch;
  const std::string town = scratch.file("town.toml",
                                        "[edition]\nid = \"alder-landing\"\ntitle = \"Alder Landing electrical code (invented)\"\nbase = \"us-2023\"\nordinance = \"114 (invented)\"\n\n"
                                        "[[change]]\nrule = \"branch-drop\"\nfield = \"binding\"\nwas = false\nnow = true\nsource = \"invented\"\nbasis = \"published\"\n");
  std::string text = test::read_text(demo("wash-house"));
  text.replace(text.find("\"62 ft\""), 7, "\"200 ft\"");
  const std::string file = scratch.file("case.toml", text);
  const auto ran = test::run({"compare", file, town});
  EXPECT_EQ(ran.status, 1) << ran.err;
  EXPECT_NE(ran.out.find("circuit heater, drop-branch"), std::string::npos) << ran.out;
  EXPECT_NE(ran.out.find("Alder Landing"), std::string::npos);
}

TEST(CompareCommand, ShowsWhatTheCasesSayAndWhatMoved) {
  const test::Scratch scratch;
  std::string text = test::read_text(demo("wash-house"));
  text.replace(text.find("\"62 ft\""), 7, "\"120 ft\"");
  const auto json = json_of({"compare", "--format", "json", demo("wash-house"), scratch.file("b.toml", text)});
  ASSERT_EQ(json["values"].Size(), 1u);
  EXPECT_STREQ(json["values"][0]["subject"].GetString(), "raceway shed wall");
  EXPECT_STREQ(json["values"][0]["key"].GetString(), "length");
  EXPECT_STREQ(json["values"][0]["b"].GetString(), "\"120 ft\"");
  bool drop = false;
  for (const auto& d : json["differences"].GetArray())
    if (std::string(d["check"].GetString()) == "drop-branch") {
      drop = true;
      // The same current over 124 ft instead of 66 ft.
      const double a = std::stod(d["numbers"][0]["a"].GetString()), b = std::stod(d["numbers"][0]["b"].GetString());
      EXPECT_NEAR(b / a, 124.0 / 66.0, 0.01);
    }
  EXPECT_TRUE(drop);
}

TEST(CompareCommand, RefusesWhatMakesNoSense) {
  EXPECT_EQ(test::run({"compare", demo("wash-house")}).status, 2);
  EXPECT_EQ(test::run({"compare", "us-2023", demo("wash-house")}).status, 2);
  EXPECT_EQ(test::run({"compare", demo("wash-house"), demo("metric"), "us-2023"}).status, 2);
  EXPECT_EQ(test::run({"compare", demo("wash-house"), "us-2023", demo("metric")}).status, 2);
  EXPECT_EQ(test::run({"compare", demo("wash-house"), "nowhere.toml"}).status, 2);
  EXPECT_EQ(test::run({"compare", "--edition", "us-2020", demo("wash-house"), "us-2023"}).status, 2);
  EXPECT_EQ(test::run({"compare", "-", "-"}).status, 2);
}

TEST(CompareCommand, NoLineIsWiderThanEightyCells) {
  for (const auto& words : std::vector<std::vector<std::string>>{{"compare", demo("wash-house"), demo("dozen-faults")}, {"compare", demo("guest-house"), "us-2017", "us-2026"}}) {
    std::istringstream in(test::run(words).out);
    for (std::string line; std::getline(in, line);) EXPECT_LE(display_width(line), 80u) << line;
  }
}

}  // namespace
}  // namespace pullproof
