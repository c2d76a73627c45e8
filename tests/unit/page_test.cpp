#include "report/page.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "core/diagnostic.hpp"

namespace pullproof::report {
namespace {

std::string paragraph(std::string_view text, std::size_t width, std::size_t indent = 0) {
  Page page(width, false);
  page.paragraph(indent, text);
  return page.take();
}

std::vector<std::string> lines(const std::string& text) {
  std::vector<std::string> out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) out.push_back(line);
  return out;
}

TEST(Page, WrapsAtSpacesWithAHangingIndent) {
  EXPECT_EQ(paragraph("one two three four five", 20, 2), "  one two three four\n    five\n");
  EXPECT_EQ(paragraph("", 20), "\n");
}

TEST(Page, KeepsANumberWithItsUnit) {
  EXPECT_EQ(paragraph("the usable current 20 A", 22), "the usable current\n  20 A\n");
  EXPECT_EQ(paragraph("the usable current 20 Amp", 22), "the usable current 20\n  Amp\n");
}

TEST(Page, NoLineIsWiderThanThePageWhateverIsInIt) {
  const std::vector<std::string> hostile{
      std::string(500, 'x'),                       // one word of 500 characters
      "電気温水器の回路を確認する電気温水器の回路",       // two cells for each character
      "مرحبا بالعالم مرحبا بالعالم مرحبا",         // right to left
      "👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦",                   // joined emoji
      "e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301e\u0301",
      "<b>&amp;</b> **bold** `x` {0} %s \\n",      // markup of all sorts
      "\033[31mred\033[0m \a\b\x7f \u202Eesrever \u009B2J",
      "\xff\xfe\xc0\x80 broken",
  };
  for (const std::string& text : hostile)
    for (const std::size_t width : {20u, 21u, 40u, 80u})
      for (const std::size_t indent : {0u, 4u, 30u}) {
        const std::string out = paragraph(text, width, indent);
        for (const std::string& line : lines(out)) EXPECT_LE(display_width(line), width) << line;
        EXPECT_EQ(out.find('\033'), std::string::npos);
        EXPECT_EQ(out.find("\u202E"), std::string::npos);
        EXPECT_EQ(out.find("\u009B"), std::string::npos);
        EXPECT_EQ(printable(lines(out).front()), lines(out).front());
      }
}

TEST(Page, LosesNoCharacterOfALongWord) {
  std::string word, back;
  for (int i = 0; i < 100; ++i) word += "abcde\u00B0";
  for (const std::string& line : lines(paragraph(word, 31))) back += line.substr(line.find_first_not_of(' '));
  EXPECT_EQ(back, word);
}

TEST(Page, ColoursEachLineByItself) {
  Page page(20, true);
  page.paragraph(0, {{"plain"}, {" one two three four five", Ink::bad}});
  for (const std::string& line : lines(page.take())) {
    EXPECT_EQ(line.find("\033[1;31m") == std::string::npos, line.find("\033[0m") == std::string::npos) << line;
    EXPECT_TRUE(line.ends_with("\033[0m")) << line;
  }
}

TEST(Page, PutsAnItemBesideItsLabel) {
  Page page(30, false);
  page.item(0, {"us-2017"}, 8, {{"a title that takes two lines"}});
  page.item(0, {"a-very-long-label-indeed"}, 8, {{"text"}});
  EXPECT_EQ(page.take(), "us-2017   a title that takes\n          two lines\na-very-long-label-indeed\n          text\n");
}

TEST(Page, GapsNeitherStackNorLead) {
  Page page(30, false);
  page.gap();
  page.paragraph(0, "one");
  page.gap();
  page.gap();
  page.paragraph(0, "two");
  EXPECT_EQ(page.take(), "one\n\ntwo\n");
}

}  // namespace
}  // namespace pullproof::report
