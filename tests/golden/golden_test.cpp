// What the program prints, byte for byte. `tests/golden/update` writes the expected files anew; read the difference
// before it is committed.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;

struct Golden {
  std::string name;
  std::vector<std::string> words;
};

std::vector<fs::path> demo_cases() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(test::source_dir() / "cases"))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  return files;
}

std::vector<Golden> goldens() {
  std::vector<Golden> all;
  for (const fs::path& file : demo_cases()) {
    const std::string stem = file.stem().string();
    all.push_back({"check-" + stem, {"check", "cases/" + stem + ".toml"}});
  }
  all.push_back({"check-full-long-thermostat", {"check", "--full", "cases/long-thermostat.toml"}});
  all.push_back({"check-json-long-thermostat", {"check", "--format", "json", "cases/long-thermostat.toml"}});
  all.push_back({"help", {"--help"}});
  all.push_back({"help-check", {"check", "--help"}});
  all.push_back({"explain-drop-branch", {"explain", "drop-branch"}});
  all.push_back({"keys-control-load", {"keys", "control.load"}});
  all.push_back({"rules-show-ampacity", {"rules", "show", "ampacity"}});
  all.push_back({"rules-show-branch-drop", {"rules", "show", "branch-drop", "--edition", "pine-cove"}});
  all.push_back({"rules-show-size", {"rules", "show", "ampacity", "--size", "6", "--material", "copper"}});
  all.push_back({"explain", {"explain"}});
  all.push_back({"help-size", {"size", "--help"}});
  all.push_back({"size-what-to-buy", {"size", "cases/what-to-buy.toml"}});
  all.push_back({"size-from-stock", {"size", "--stock", "wire.size=14 AWG,12 AWG", "cases/what-to-buy.toml"}});
  all.push_back({"reach-wash-house", {"reach", "cases/wash-house.toml"}});
  all.push_back({"compare-editions", {"compare", "cases/wash-house.toml", "us-2017", "us-2023"}});
  all.push_back({"compare-amendment", {"compare", "cases/far-bath-house.toml", "us-2023"}});
  // Our own words and choices, which nobody else has in print: read here, and not against a second copy.
  for (const char* table : {"burial", "cautions", "control-devices", "interim-amendments"}) all.push_back({fmt::format("rules-show-{}", table), {"rules", "show", table}});
  for (const char* rule : {"bus-rates", "bus-short", "control-fuses", "control-stranding", "control-transformer-idle", "control-transformers", "disconnect-plug",
                           "load-agreement", "material-list", "panel-directory"})
    all.push_back({fmt::format("rules-show-{}", rule), {"rules", "show", rule}});
  all.push_back({"rules-diff-harbor-ridge", {"rules", "diff", "us-2020", "harbor-ridge"}});
  return all;
}

/// The command, what it prints and its exit status, as a person would see them.
std::string all_it_says(const Golden& g) {
  const auto r = test::run(g.words);
  std::string s = "$ pullproof";
  for (const std::string& w : g.words) s += " " + w;
  s += "\n" + r.out;
  if (!r.err.empty()) s += "--- to standard error:\n" + r.err;
  return s + "--- exit status " + std::to_string(r.status) + "\n";
}

class Goldens : public testing::TestWithParam<Golden> {};

TEST_P(Goldens, PrintsTheSame) {
  const fs::path file = test::source_dir() / "tests/golden/expected" / (GetParam().name + ".txt");
  const std::string now = all_it_says(GetParam());
  if (std::getenv("PULLPROOF_UPDATE_GOLDEN") != nullptr) {
    std::ofstream(file, std::ios::binary) << now;
    return;
  }
  ASSERT_TRUE(fs::exists(file)) << "run tests/golden/update and read what it writes";
  EXPECT_EQ(test::read_text(file), now) << "if this is meant, run tests/golden/update and read the difference";
}

INSTANTIATE_TEST_SUITE_P(Program, Goldens, testing::ValuesIn(goldens()), [](const auto& golden) {
  std::string name = golden.param.name;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(DemoCases, ShowEachExitStatusThatAReadableCaseCanHave) {
  std::vector<int> met;
  for (const fs::path& file : demo_cases()) {
    const int status = test::run({"check", file.string()}).status;
    EXPECT_NE(status, 2) << file;
    met.push_back(status);
  }
  for (const int status : {0, 1, 3}) EXPECT_TRUE(std::find(met.begin(), met.end(), status) != met.end()) << status;
}

}  // namespace
}  // namespace pullproof
