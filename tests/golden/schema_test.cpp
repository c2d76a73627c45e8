// The schemas of cases and of answers, held to what there is by programs that are not ours.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdio>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

int run_python(const std::string& words, std::string& said) {
  FILE* out = ::popen(fmt::format("/usr/bin/python3 -B {} 2>&1", words).c_str(), "r");
  if (out == nullptr) return -1;
  for (int c = std::fgetc(out); c != EOF; c = std::fgetc(out)) said += static_cast<char>(c);
  return ::pclose(out);
}

std::string in_source(const char* path) { return (test::source_dir() / path).string(); }

TEST(Schema, TakesEveryCaseAndRefusesBrokenOnesForTheSameKey) {
  const auto r = test::run({"schema"});
  ASSERT_EQ(r.status, 0) << r.err;
  const test::Scratch scratch;
  std::string said;
  EXPECT_EQ(run_python(fmt::format("'{}' '{}' '{}'", in_source("tests/schema/hold_cases.py"), scratch.file("case.schema.json", r.out), test::source_dir().string()), said), 0) << said;
}

TEST(Schema, OfAnswersFitsWhatIsAnswered) {
  const test::Scratch scratch;
  const std::vector<std::vector<std::string>> questions{
      {"size", "cases/what-to-buy.toml"}, {"size", "--stock", "raceway.size=1/2", "--stock", "wire.size=4/0 AWG", "cases/what-to-buy.toml"}, {"size", "cases/wash-house.toml"},
      {"size", "cases/dozen-faults.toml"}, {"reach", "cases/wash-house.toml"}, {"reach", "cases/what-to-buy.toml"}, {"reach", "cases/first-look.toml"},
      {"compare", "cases/wash-house.toml", "cases/dozen-faults.toml"}, {"compare", "cases/wash-house.toml", "us-2017", "us-2023"},
      {"compare", "cases/guest-house.toml", "us-2026"}, {"rules", "show", "ampacity"}, {"rules", "show", "ampacity", "--size", "6", "--material", "copper"},
      {"rules", "show", "egc", "--rating", "45"}, {"rules", "show", "ambient-correction", "--edition", "us-2026"}, {"rules", "show", "terminals"}, {"rules", "coverage"}, {"rules", "coverage", "gfci"}};
  std::string files;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    std::vector<std::string> words = questions[i];
    words.insert(words.end(), {"--format", "json"});
    const auto r = test::run(words);
    EXPECT_NE(r.status, 2) << fmt::format("{}", fmt::join(words, " ")) << r.err;
    files += fmt::format(" '{}'", scratch.file(fmt::format("{:02}-{}.json", i, words[0]), r.out));
  }
  std::string said;
  EXPECT_EQ(run_python(fmt::format("'{}' '{}'{}", in_source("tests/golden/validate_answers.py"), in_source("src/report/answers.schema.json"), files), said), 0) << said;
}

}  // namespace
}  // namespace pullproof
