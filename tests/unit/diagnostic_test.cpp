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

/// A code point as UTF-8 (RFC 3629).
std::string utf8(unsigned c) {
  const auto tail = [](unsigned bits) { return static_cast<char>(0x80u | (bits & 0x3fu)); };
  if (c < 0x80) return {static_cast<char>(c)};
  if (c < 0x800) return {static_cast<char>(0xc0u | c >> 6), tail(c)};
  if (c < 0x10000) return {static_cast<char>(0xe0u | c >> 12), tail(c >> 6), tail(c)};
  return {static_cast<char>(0xf0u | c >> 18), tail(c >> 12), tail(c >> 6), tail(c)};
}

// Unicode: the C0 and C1 controls, the characters of UAX 9 that turn the direction of text, the line and paragraph
// separators, the byte order mark and the 66 noncharacters.
TEST(Printable, ReplacesWhatDrivesATerminalAndNothingBesideIt) {
  const std::pair<unsigned, unsigned> replaced[] = {{0x01, 0x08}, {0x0a, 0x1f}, {0x7f, 0x9f}, {0x61c, 0x61c}, {0x200e, 0x200f}, {0x2028, 0x202e},
                                                    {0x2066, 0x2069}, {0xfdd0, 0xfdef}, {0xfeff, 0xfeff}, {0xfffe, 0xffff}, {0x1fffe, 0x1ffff}, {0x10fffe, 0x10ffff}};
  unsigned last = 0;
  for (const auto& [from, to] : replaced) {
    for (unsigned c = from; c <= to; ++c) EXPECT_EQ(printable("a" + utf8(c) + "b"), "a\uFFFDb") << c;
    for (const unsigned c : {from - 1, to + 1}) {
      const bool stays = c != 0 && c != '\t' && c < 0x110000 && c > last;
      EXPECT_EQ(printable(utf8(c)) == utf8(c), stays) << c;
    }
    last = to;
  }
  EXPECT_EQ(printable("\t"), " ");
  EXPECT_EQ(printable(std::string(1, '\0')), "\uFFFD");
}

TEST(WellFormed, ReplacesWhatIsNoUtf8Alone) {
  EXPECT_EQ(well_formed("10 °C\x1b"), "10 °C\x1b");
  EXPECT_EQ(well_formed("\xc2 °\xff"), "\uFFFD °\uFFFD");
  EXPECT_EQ(well_formed("\xed\xa0\x80"), "\uFFFD\uFFFD\uFFFD");  // half of a pair of UTF-16
}

TEST(Shortened, CutsBetweenCharacters) {
  EXPECT_EQ(shortened("10 °C", 5), "10 °C");
  EXPECT_EQ(shortened("10 °C", 4), "10 °...");
  EXPECT_EQ(pullproof::quoted(std::string(59, 'a') + "°b"), "'" + std::string(59, 'a') + "°...'");
}

TEST(Diagnostics, KeepAPieceOfAVeryLongLine) {
  Diagnostics d;
  std::string line;
  for (int i = 0; i < 1000; ++i) line += "°";
  d.add(at(1, 501, 1, line));
  d.add(at(2, 5, 1, line));
  const auto both = d.sorted();
  ASSERT_EQ(both.size(), 2u);
  EXPECT_EQ(both[0].source_from, 441u);  // 60 characters before the place, 200 from it on
  EXPECT_EQ(both[0].source_line, line.substr(0, 2 * 260));
  EXPECT_EQ(both[1].source_from, 1u);
  EXPECT_EQ(both[1].source_line, line.substr(0, 2 * 260));
}

TEST(Diagnostics, CountWhatTheyDoNotKeep) {
  Diagnostics d;
  for (unsigned i = 1; i <= Diagnostics::most + 7; ++i) d.add({"a.toml", i, 1, 1, "m", {}, {}});
  EXPECT_TRUE(d.full());
  EXPECT_EQ(d.size(), Diagnostics::most + 7);
  const auto all = d.sorted();
  ASSERT_EQ(all.size(), Diagnostics::most + 1);
  EXPECT_EQ(all.back().message, "there is more like this: 7 complaints are not shown");
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
