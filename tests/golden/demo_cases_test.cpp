// The demo cases: what holds for each of them, whatever the checks say.
#include <gtest/gtest.h>

#include <set>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> cases_in(std::string_view folder) {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(test::source_dir() / folder))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

std::vector<fs::path> demo_cases() {
  std::vector<fs::path> files = cases_in("cases");
  for (const fs::path& file : cases_in("cases/appliances")) files.push_back(file);
  return files;
}

TEST(DemoCases, EveryApplianceIsSensibleWorkThatPasses) {
  // The appliances that a practitioner hooks up, by the names of the rule data.
  std::set<std::string_view> wanted{"gas water heater, on demand", "electric water heater, on demand", "electric water heater, storage",
                                    "heat pump water heater", "air conditioner", "gas furnace", "air handler with strip heat",
                                    "electric space heater", "range", "wall oven", "cooktop", "clothes dryer", "dishwasher",
                                    "food waste disposer", "microwave and hood", "vehicle charger", "sump pump", "well pump",
                                    "circulating pump", "evaporative cooler", "gas boiler", "garage door opener", "other appliance", "motor"};
  const auto edition = code::Edition::find(code::built_in(), "us-2023");
  ASSERT_TRUE(edition && edition->table("appliances"));
  for (const std::string_view appliance : wanted) EXPECT_TRUE(edition->table("appliances")->find(appliance)) << appliance;
  for (const fs::path& file : cases_in("cases/appliances")) {
    const std::string text = test::read_text(file);
    std::erase_if(wanted, [&](std::string_view appliance) { return text.find(fmt::format("appliance = \"{}\"", appliance)) != std::string::npos; });
    EXPECT_LE(std::count(text.begin(), text.end(), '\n'), 80) << file << " is no small case";
    const Report report = test::check_text(text, {}, file.string());
    EXPECT_EQ(report.outcome(), Outcome::pass) << file;
    for (const Finding& f : report.findings)
      EXPECT_NE(f.verdict, Verdict::advice) << file << ": " << f.subject << " | " << f.check << " | " << f.message;
  }
  for (const std::string_view appliance : wanted) ADD_FAILURE() << "no demo case for: " << appliance;
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
