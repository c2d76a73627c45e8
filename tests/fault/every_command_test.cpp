// Every command of the program meets the same faults: an output that is full, a reader that is gone, files that cannot
// be written, rules that are broken. Each says so and ends with the status for it; nothing is left half-written.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <csignal>
#include <filesystem>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;
using test::run;
using test::RunOptions;
using test::Scratch;
using testing::HasSubstr;

/// A sensible use of each command; what it would print, it prints.
const std::vector<std::vector<std::string>> uses{
    {"check", "cases/wash-house.toml"},
    {"check", "--format", "json", "cases"},
    {"check", "--brief", "cases"},
    {"size", "cases/what-to-buy.toml"},
    {"reach", "cases/wash-house.toml"},
    {"compare", "cases/wash-house.toml", "us-2017", "us-2023"},
    {"report", "cases/wash-house.toml", "-o", "-", "--format", "html"},
    {"report", "cases/wash-house.toml", "-o", "-", "--format", "md"},
    {"new", "gas water heater, storage"},
    {"schema"},
    {"explain", "ampacity"},
    {"explain"},
    {"keys"},
    {"rules", "list"},
    {"rules", "show", "ampacity"},
    {"rules", "diff", "us-2017", "us-2023"},
    {"rules", "coverage"},
};

std::string named(const std::vector<std::string>& words) {
  std::string s;
  for (const std::string& w : words) s += w + " ";
  return s;
}

TEST(EveryCommand, SaysThatTheOutputIsFull) {
  for (const auto& words : uses) {
    RunOptions o;
    o.output = "/dev/full";
    const auto r = run(words, o);
    EXPECT_EQ(r.status, 2) << named(words);
    EXPECT_THAT(r.err, HasSubstr("the output cannot be written")) << named(words);
  }
}

TEST(EveryCommand, EndsQuietlyWhenNobodyReads) {
  for (const auto& words : uses) {
    RunOptions o;
    o.close_output = true;
    const auto killed = run(words, o);
    EXPECT_EQ(killed.status, 128 + SIGPIPE) << named(words) << killed.err;
    o.ignore_pipe_signal = true;
    const auto told = run(words, o);
    EXPECT_LT(told.status, 4) << named(words) << told.err;
    EXPECT_THAT(told.err, testing::Not(HasSubstr("cannot be written"))) << named(words);
  }
}

TEST(EveryCommand, RefusesRulesThatAreBroken) {
  const Scratch s;
  s.file("rules/broken/edition.toml", "[edition]\nid = 3\n");
  for (auto words : uses) {
    if (words[0] == "schema" || words[0] == "keys" || words == std::vector<std::string>{"explain"}) continue;  // which say nothing of rules
    words.insert(words.end(), {"--rules", s.path("rules").string()});
    const auto r = run(words);
    EXPECT_EQ(r.status, 2) << named(words);
    EXPECT_EQ(r.out, "") << named(words);
    EXPECT_THAT(r.err, HasSubstr("edition.toml:2:6: text is wanted here")) << named(words);
  }
}

TEST(RulesFolder, WithABrokenAmendmentIsRefused) {
  const Scratch s;
  fs::copy(test::source_dir() / "rules", s.path("rules"), fs::copy_options::recursive);
  s.file("rules/local/town.toml",
         "[edition]\nid = \"town\"\ntitle = \"Town\"\nbase = \"us-2023\"\nordinance = \"1\"\n"
         "[[change]]\nrule = \"branch-drop\"\nfield = \"percent\"\nwas = 77\nnow = 2\nsource = \"invented\"\nbasis = \"published\"\n");
  const auto r = run({"check", "cases/wash-house.toml", "--rules", s.path("rules").string()});
  EXPECT_EQ(r.status, 2);
  EXPECT_EQ(r.out, "");
  EXPECT_THAT(r.err, HasSubstr("rules/local/town.toml:9:"));
}

TEST(EveryCommand, ThatWritesAFileLeavesNothingHalfWritten) {
  const std::vector<std::vector<std::string>> writers{
      {"size", "cases/what-to-buy.toml", "-o"}, {"new", "gas water heater, storage", "-o"}, {"report", "cases/wash-house.toml", "--format", "txt", "-o"}};
  for (auto words : writers) {
    const Scratch s;
    words.push_back(s.path("out").string());
    RunOptions o;
    o.environment = {"LD_PRELOAD=" PULLPROOF_FAILING_CALLS, "ASAN_OPTIONS=verify_asan_link_order=0", "FAIL_CALL=write", "FAIL_ERRNO=28"};
    const auto r = run(words, o);
    EXPECT_EQ(r.status, 2) << named(words);
    EXPECT_THAT(r.err, HasSubstr("No space left on device")) << named(words);
    EXPECT_TRUE(fs::is_empty(s.path())) << named(words);
  }
}

TEST(EveryCommand, LeavesTheCaseAsItWasWhenChangesCannotBeWritten) {
  const Scratch s;
  fs::copy(test::source_dir() / "cases/far-bath-house.toml", s.path("a.toml"));
  const std::string before = test::read_text(s.path("a.toml"));
  for (const char* call : {"write", "fsync", "rename", "mkstemp"}) {
    RunOptions o;
    o.environment = {"LD_PRELOAD=" PULLPROOF_FAILING_CALLS, "ASAN_OPTIONS=verify_asan_link_order=0", std::string("FAIL_CALL=") + call, "FAIL_ERRNO=28"};
    EXPECT_EQ(run({"check", "--apply", s.path("a.toml").string()}, o).status, 2) << call;
    EXPECT_EQ(test::read_text(s.path("a.toml")), before) << call;
    EXPECT_EQ(std::distance(fs::directory_iterator(s.path()), fs::directory_iterator()), 1) << call;
  }
}

}  // namespace
}  // namespace pullproof
