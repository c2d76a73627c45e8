// Texts on their way into JSON: plain ones are told from those that need an escape, whatever their length.
#include <gtest/gtest.h>

#include <random>

#include "report/json_writer.hpp"

namespace pullproof::report {
namespace {

bool is_plain_by_character(std::string_view s) {
  for (const char c : s)
    if (c < 0x20 || c >= 0x7f || c == '"' || c == '\\') return false;
  return true;
}

TEST(JsonText, EveryByteAtEveryPlaceIsTold) {
  for (std::size_t length = 1; length < 20; ++length)
    for (std::size_t at = 0; at < length; ++at)
      for (int byte = 0; byte < 256; ++byte) {
        std::string s(length, 'a');
        s[at] = static_cast<char>(byte);
        ASSERT_EQ(is_plain(s), is_plain_by_character(s)) << byte << " at " << at << " of " << length;
      }
  EXPECT_TRUE(is_plain(""));
}

TEST(JsonText, BytesBesideOneAnotherDoNotHideOneAnother) {
  // Of each sort, and what is next to its borders: a borrow must not reach into the byte above.
  constexpr char bytes[] = {0, 1, 0x1f, 0x20, 0x21, 0x22, 0x23, 0x5b, 0x5c, 0x5d, 0x7e, 0x7f, -128, -127, -1};
  std::mt19937 random(1);
  for (int i = 0; i < 100'000; ++i) {
    std::string s(random() % 24, 'a');
    for (char& c : s)
      if (random() % 8 == 0) c = bytes[random() % std::size(bytes)];
    ASSERT_EQ(is_plain(s), is_plain_by_character(s)) << s;
  }
}

}  // namespace
}  // namespace pullproof::report
