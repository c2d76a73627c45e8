#include "core/diagnostic.hpp"

#include <gtest/gtest.h>

namespace pullproof {
namespace {

Diagnostic at(std::uint32_t line, std::uint32_t column, std::uint32_t length, std::string source) {
  return {"case.toml", line, column, length, "something is wrong", {}, std::move(source)};
}

TEST(Render, ShowsPlaceLineCaretAndNote) {
  Diagnostic d = at(12, 11, 6, "length = \"62 fet\"");
  d.message = "'fet' is no unit known here";
  d.note = "a length is wanted";
  EXPECT_EQ(render(d),
            "case.toml:12:11: 'fet' is no unit known here\n"
            "  length = \"62 fet\"\n"
            "            ^^^^^^\n"
            "  note: a length is wanted\n");
}

TEST(Render, OfAWholeFileHasNoLine) {
  EXPECT_EQ(render(at(0, 0, 1, "")), "case.toml: something is wrong\n");
  EXPECT_EQ(render(at(3, 1, 1, "")), "case.toml:3:1: something is wrong\n");
}

TEST(Render, PutsTheCaretUnderWideAndCombiningCharacters) {
  // Two-cell characters before the place move the caret two cells each.
  EXPECT_EQ(render(at(1, 4, 2, "日本 xy")),
            "case.toml:1:4: something is wrong\n  日本 xy\n       ^^\n");
  // A wide character under the span gets two carets.
  EXPECT_EQ(render(at(1, 2, 1, "a本b")), "case.toml:1:2: something is wrong\n  a本b\n   ^^\n");
  // A combining mark takes no cell: e with acute, decomposed.
  EXPECT_EQ(render(at(1, 3, 1, "e\u0301x")), "case.toml:1:3: something is wrong\n  e\u0301x\n   ^\n");
  // A span that is a combining mark alone still gets a caret.
  EXPECT_EQ(render(at(1, 2, 1, "e\u0301x")), "case.toml:1:2: something is wrong\n  e\u0301x\n   ^\n");
}

TEST(Render, LetsNothingDriveTheTerminal) {
  Diagnostic d = at(1, 1, 1, "a\x1b[31mb\tc\x7f\u009b\u202e\ufeff");
  d.file = "ca\x1bse.toml";
  d.message = "key '\x1b]0;x\x07'";
  d.note = "\u2066";
  const std::string text = render(d);
  for (const char c : text) EXPECT_TRUE(c == '\n' || static_cast<unsigned char>(c) >= 0x20) << text;
  EXPECT_EQ(text,
            "ca\uFFFDse.toml:1:1: key '\uFFFD]0;x\uFFFD'\n"
            "  a\uFFFD[31mb c\uFFFD\uFFFD\uFFFD\uFFFD\n  ^\n  note: \uFFFD\n");
}

TEST(Render, CountsATabAsOneCell) {
  EXPECT_EQ(render(at(1, 3, 1, "\t\tx")), "case.toml:1:3: something is wrong\n    x\n    ^\n");
}

TEST(Render, ShowsAPieceOfAVeryLongLine) {
  const std::string text = render(at(1, 5001, 3, std::string(5000, 'a') + "XYZ" + std::string(5000, 'b')));
  EXPECT_EQ(text, "case.toml:1:5001: something is wrong\n  ... " + std::string(40, 'a') + "XYZ" + std::string(57, 'b') + "\n      " +
                      std::string(40, ' ') + "^^^\n");
}

TEST(Render, KeepsTheCaretInSightPastTheEnd) {
  EXPECT_EQ(render(at(1, 99, 1, "ab")), "case.toml:1:99: something is wrong\n  ab\n    ^\n");
  EXPECT_EQ(render(at(1, 2, 99, "abc")), "case.toml:1:2: something is wrong\n  abc\n   ^^\n");
  EXPECT_EQ(render(at(1, 0, 0, "abc")), "case.toml:1:0: something is wrong\n  abc\n  ^\n");
}

TEST(Render, ReplacesInvalidUtf8) {
  EXPECT_EQ(render(at(1, 3, 1, "a\xff" "b\xc3")), "case.toml:1:3: something is wrong\n  a\uFFFD" "b\uFFFD\n    ^\n");
}

TEST(Diagnostics, AreSortedAndSaidOnce) {
  Diagnostics d;
  d.add({"b.toml", 1, 1, 1, "m", {}, {}});
  d.add({"a.toml", 9, 1, 1, "m", {}, {}});
  d.add({"a.toml", 2, 7, 1, "m", {}, {}});
  d.add({"a.toml", 2, 7, 1, "l", {}, {}});
  d.add({"a.toml", 2, 7, 1, "m", {}, {}});
  d.add({"a.toml", 2, 10, 1, "m", {}, {}});
  std::string order;
  for (const Diagnostic& one : d.sorted()) order += one.file + ":" + std::to_string(one.line) + ":" + std::to_string(one.column) + one.message + " ";
  EXPECT_EQ(order, "a.toml:2:7l a.toml:2:7m a.toml:2:10m a.toml:9:1m b.toml:1:1m ");
  EXPECT_FALSE(d.empty());
}

TEST(DisplayWidth, CountsCells) {
  EXPECT_EQ(display_width("abc"), 3u);
  EXPECT_EQ(display_width("°F"), 2u);
  EXPECT_EQ(display_width("日本"), 4u);
  EXPECT_EQ(display_width("e\u0301"), 1u);
  EXPECT_EQ(display_width(""), 0u);
  EXPECT_EQ(display_width("\xff"), 1u);
}

}  // namespace
}  // namespace pullproof
