// A circuit may use the grounding wire of another one, if that one has it.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "support/cases.hpp"

namespace pullproof {
namespace {

using testing::HasSubstr;

std::string complaints(std::string_view a, std::string_view b) {
  return test::complaints(fmt::format(R"(edition = "us-2023"
[[raceway]]
name = "wall"
[[circuit]]
name = "a"
path = ["wall"]
ground = {}
[[circuit]]
name = "b"
path = ["wall"]
ground = {}
)", a, b));
}

TEST(SharedGround, NamesACircuitWithAWire) {
  EXPECT_EQ(complaints(R"({ size = "12 AWG" })", R"({ shared_with = "a" })"), "");
  EXPECT_THAT(complaints(R"({ size = "12 AWG" })", R"({ shared_with = "aa" })"), HasSubstr("no circuit is called 'aa'"));
  EXPECT_THAT(complaints(R"({ size = "12 AWG" })", R"({ shared_with = "b" })"), HasSubstr("'b' has no grounding wire of its own to share"));
  EXPECT_THAT(complaints(R"({ shared_with = "b" })", R"({ shared_with = "a" })"), HasSubstr("'b' has no grounding wire of its own to share"));
  EXPECT_THAT(complaints(R"({ size = "12 AWG" })", R"({ shared_with = "a", size = "12 AWG" })"), HasSubstr("one of the two"));
}

}  // namespace
}  // namespace pullproof
