// The schema of a case, held to every case there is by programs that are not ours.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdio>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

TEST(Schema, TakesEveryCaseAndRefusesBrokenOnesForTheSameKey) {
  const auto r = test::run({"schema"});
  ASSERT_EQ(r.status, 0) << r.err;
  const test::Scratch scratch;
  const std::string command = fmt::format("/usr/bin/python3 -B '{}' '{}' '{}' 2>&1", (test::source_dir() / "tests/schema/hold_cases.py").string(),
                                          scratch.file("case.schema.json", r.out), test::source_dir().string());
  std::string said;
  FILE* out = ::popen(command.c_str(), "r");
  ASSERT_NE(out, nullptr);
  for (int c = std::fgetc(out); c != EOF; c = std::fgetc(out)) said += static_cast<char>(c);
  EXPECT_EQ(::pclose(out), 0) << said;
}

}  // namespace
}  // namespace pullproof
