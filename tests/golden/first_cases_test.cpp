// The first case of every appliance, on one page, so that one can read all of them for sense; no practitioner has
// yet. `tests/golden/update` writes it anew.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>

#include "support/cases.hpp"
#include "support/first_cases.hpp"

namespace pullproof {
namespace {

TEST(FirstCasesGoldens, AreWhatWasRead) {
  const auto file = test::source_dir() / "tests/golden/expected/first-cases.txt";
  const std::string now = test::first_cases({}, "us-2023");
  if (std::getenv("PULLPROOF_UPDATE_GOLDEN") != nullptr) {
    std::ofstream(file, std::ios::binary) << now;
    return;
  }
  ASSERT_TRUE(std::filesystem::exists(file)) << "run tests/golden/update and read what it writes";
  EXPECT_EQ(test::read_text(file), now) << "if this is meant, run tests/golden/update and read the difference";
}

}  // namespace
}  // namespace pullproof
