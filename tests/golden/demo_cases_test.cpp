// The demo cases: what holds for each of them, whatever the checks say.
#include <gtest/gtest.h>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> demo_cases() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(test::source_dir() / "cases"))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

TEST(DemoCases, NoLineOfAReportIsWiderThanEightyCells) {
  for (const fs::path& file : demo_cases())
    for (const bool full : {false, true}) {
      std::istringstream in(test::run(full ? std::vector<std::string>{"check", "--full", file.string()} : std::vector<std::string>{"check", file.string()}).out);
      for (std::string line; std::getline(in, line);) EXPECT_LE(display_width(line), 80u) << file << ": " << line;
    }
}

TEST(DemoCases, JsonFitsItsSchemaWhateverIsReported) {
  const test::Scratch scratch;
  std::vector<std::string> words{"check", "--format", "json", "nowhere.toml", scratch.file("bad.toml", "edition = \"us-2023\"\nsize = 3\n"),
                                 scratch.file("empty.toml", "edition = \"us-2023\"\nsupply = { system = \"120/240 V 1-phase 3-wire\" }\n")};
  for (const fs::path& file : demo_cases()) words.push_back(file.string());
  const auto r = test::run(words);
  EXPECT_EQ(r.status, 2);
  const std::string json = scratch.file("reports.json", r.out);
  const std::string command = fmt::format("/usr/bin/python3 '{}' '{}' '{}' 2>&1", (test::source_dir() / "tests/golden/validate.py").string(),
                                          (test::source_dir() / "src/report/report.schema.json").string(), json);
  std::string said;
  FILE* out = ::popen(command.c_str(), "r");
  ASSERT_NE(out, nullptr);
  for (int c = std::fgetc(out); c != EOF; c = std::fgetc(out)) said += static_cast<char>(c);
  const int status = ::pclose(out);
  EXPECT_EQ(status, 0) << said;
  EXPECT_EQ(said, fmt::format("{} reports are valid\n", words.size() - 3));
}

}  // namespace
}  // namespace pullproof
