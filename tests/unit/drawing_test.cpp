#include "draw/drawing.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <regex>

#include "draw/lettering.hpp"
#include "draw/svg.hpp"

namespace pullproof::draw {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

// Advances of DejaVu Sans 2.37, from the font file: "A" 1401 of 2048 units, "m" 1995, space 651.
TEST(Lettering, ReckonsAsInDejaVuSans) {
  EXPECT_NEAR(text_width("A", 2048), 1401, 2.1);
  EXPECT_NEAR(text_width("A m", 2048), 1401 + 651 + 1995, 6.2);
  EXPECT_GT(text_width("A", 10, true), text_width("A", 10));
  EXPECT_EQ(text_width("", 10), 0);
  EXPECT_EQ(text_width("e\u0301", 10), text_width("e", 10));  // a mark takes no room of its own
}

TEST(Lettering, BreaksLinesAtSpacesAndKeepsUnits) {
  const double size = 10;
  EXPECT_THAT(wrapped("two words", size, 500), ElementsAre("two words"));
  EXPECT_THAT(wrapped("two words", size, text_width("words", size)), ElementsAre("two", "words"));
  EXPECT_THAT(wrapped("a run of 62 ft", size, text_width("a run of 62", size)), ElementsAre("a run of", "62 ft"));
  EXPECT_THAT(wrapped("", size, 100), ElementsAre(""));
  EXPECT_THAT(wrapped("one two three four", size, text_width("one two", size), 1), ElementsAre(testing::EndsWith("\u2026")));
}

TEST(Lettering, NothingIsWiderThanItMayBe) {
  for (const std::string& text : {std::string(500, 'W'), std::string("電気温水器の回路を確認する電気温水器の回路"), std::string("مرحبا بالعالم"),
                                  std::string("👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦"), std::string("\033[31m red \xff\xfe")})
    for (const double width : {40.0, 90.0, 246.0})
      for (const bool strong : {false, true}) {
        for (const std::string& line : wrapped(text, 9, width, 4, strong)) EXPECT_LE(text_width(line, 9, strong), width) << line;
        EXPECT_LE(text_width(fitted(text, 9, width, strong), 9, strong), width);
        EXPECT_EQ(fitted(text, 9, width, strong).find('\033'), std::string::npos);
      }
}

TEST(Drawing, KnowsWhatAShapeCovers) {
  const Extent c = extent(Circle{{10, 20}, 5, {Ink::ink, 2}});
  EXPECT_EQ(c.left, 4);
  EXPECT_EQ(c.bottom, 26);
  const Extent upper = extent(Arc{{0, 0}, 10, 180, 360, {Ink::ink, 0}});
  EXPECT_NEAR(upper.top, -10, 1e-9);
  EXPECT_NEAR(upper.bottom, 0, 1e-9);
  const Extent t = extent(Text{{100, 50}, "A", 10, Anchor::end});
  EXPECT_EQ(t.right, 100);
  EXPECT_LT(t.left, 94);
}

TEST(Svg, EscapesWhatPeopleTyped) {
  Drawing d{"<script>", "a & b \"c\" \033]0;", 100, 50, {}};
  d.shapes.push_back(Text{{0, 10}, "</text><b>x</b> \u202E & \xff"});
  const std::string out = as_svg(d, "fig");
  EXPECT_THAT(out, HasSubstr("<title id=\"fig-title\">&lt;script&gt;</title>"));
  EXPECT_THAT(out, HasSubstr("a &amp; b &quot;c&quot; \uFFFD]0;"));
  EXPECT_THAT(out, HasSubstr("&lt;/text&gt;&lt;b&gt;x&lt;/b&gt; \uFFFD &amp; \uFFFD</text>"));
}

TEST(Svg, WritesEveryShape) {
  Drawing d{"t", "d", 100, 50, {}};
  d.shapes.push_back(Polyline{{{0, 0}, {10.125, 5}}, false, {Ink::faint, 1, Dash::dashed}});
  d.shapes.push_back(Rectangle{{1, 2}, 3, 4, 1, {Ink::none}, Ink::panel});
  d.shapes.push_back(Circle{{5, 6}, 2, {}, Ink::live});
  d.shapes.push_back(Arc{{5, 6}, 2, 0, 90});
  d.shapes.push_back(Text{{5, 6}, "V", 9, Anchor::middle, true});
  const std::string out = as_svg(d, "f");
  EXPECT_THAT(out, HasSubstr("width=\"100pt\" height=\"50pt\" viewBox=\"0 0 100 50\""));
  EXPECT_THAT(out, HasSubstr("<polyline points=\"0,0 10.13,5\" class=\"f-none s-faint\" stroke-width=\"1\" stroke-dasharray=\"5 3\"/>"));
  EXPECT_THAT(out, HasSubstr("<rect x=\"1\" y=\"2\" width=\"3\" height=\"4\" rx=\"1\" class=\"f-panel\"/>"));
  EXPECT_THAT(out, HasSubstr("<circle cx=\"5\" cy=\"6\" r=\"2\" class=\"f-live s-ink\" stroke-width=\"0.75\"/>"));
  EXPECT_THAT(out, HasSubstr("<path d=\"M7 6 A2 2 0 0 1 5 8\""));
  EXPECT_THAT(out, HasSubstr("text-anchor=\"middle\" font-weight=\"700\" class=\"f-ink\">V</text>"));
}

/// WCAG 2.2, "relative luminance" and "contrast ratio".
double luminance(const std::string& hex) {
  const auto part = [&](std::size_t at) {
    const double c = std::stoi(hex.substr(at, 2), nullptr, 16) / 255.0;
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5);
}
double contrast(const std::string& a, const std::string& b) {
  const double la = luminance(a), lb = luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

TEST(Svg, TextCanBeReadOnEveryFillByDayAndByNight) {
  EXPECT_NEAR(contrast("#000000", "#ffffff"), 21, 1e-9);
  const std::string style = svg_style();
  const std::regex variable("--draw-([a-z]+):(#[0-9a-f]{6});");
  std::vector<std::map<std::string, std::string>> themes;
  for (std::sregex_iterator it(style.begin(), style.end(), variable), end; it != end; ++it) {
    if ((*it)[1] == "ink") themes.emplace_back();
    themes.back()[(*it)[1]] = (*it)[2];
  }
  ASSERT_EQ(themes.size(), 3u);  // light, dark, print
  EXPECT_EQ(themes[0], themes[2]);
  EXPECT_NE(themes[0], themes[1]);
  for (auto& theme : themes) {
    ASSERT_EQ(theme.size(), static_cast<std::size_t>(inks - 1));
    for (const char* text : {"ink", "faint"})
      for (const char* under : {"paper", "panel", "live", "neutral", "earth", "control", "other"})
        EXPECT_GE(contrast(theme[text], theme[under]), 4.5) << text << " on " << under << ' ' << theme["paper"];
    for (const char* text : {"good", "bad", "warn"})
      for (const char* under : {"paper", "panel"}) EXPECT_GE(contrast(theme[text], theme[under]), 4.5) << text << " on " << under;
  }
}

}  // namespace
}  // namespace pullproof::draw
