#pragma once
// A figure as shapes on a sheet, made once and laid down by every output that can show it: SVG in the HTML page, cairo
// in the PDF. It knows nothing of either, nor of checks: the files beside this one make drawings of a report.
//
// All lengths are typographic points (1/72 in) on the printed sheet, x to the right, y down from the upper left corner.
// A drawing is at most `column` wide, which is 328 CSS pixels: it stands at its full size on a phone of 360 pixels and
// two stand beside one another on a printed page, so text never has to shrink.
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace pullproof::draw {

inline constexpr double column = 246;     ///< widest drawing
inline constexpr double smallest_text = 8;  ///< no text is smaller

/// What something is drawn with; each output has its own colours for them. Meaning never rests on an ink alone.
enum class Ink : std::uint8_t {
  none,
  ink,    ///< text and outlines
  faint,  ///< secondary text and lines, still readable
  rule,   ///< grids and other helps to the eye
  paper,  ///< what is behind the drawing
  panel,  ///< a pale ground for a box
  good, bad, warn,
  // Pale fills that text in `ink` can be read on.
  live, neutral, earth, control, other,
};
inline constexpr int inks = static_cast<int>(Ink::other) + 1;
/// Its name, for style sheets: "ink", "faint".
std::string_view name(Ink ink);

/// Colours as "#rrggbb", by day (and on paper) and by night. Text in ink and faint has a contrast of at least 4.5 to 1
/// on paper, panel and every pale fill; so have good, bad and warn on paper and panel.
struct Colour {
  std::string_view light, dark;
};
Colour colour(Ink ink);

enum class Dash : std::uint8_t { solid, dashed, dotted };
struct Stroke {
  Ink ink = Ink::ink;
  double width = 0.75;
  Dash dash = Dash::solid;
};
/// Dashes and gaps by turns, in points; empty for a solid line.
std::vector<double> pattern(const Stroke& stroke);

struct Point {
  double x = 0, y = 0;
};

struct Polyline {
  std::vector<Point> points;
  bool closed = false;
  Stroke stroke = {};
  Ink fill = Ink::none;
};
struct Rectangle {
  Point corner;  ///< upper left
  double width = 0, height = 0;
  double radius = 0;  ///< of rounded corners
  Stroke stroke = {};
  Ink fill = Ink::none;
};
struct Circle {
  Point centre;
  double radius = 0;
  Stroke stroke = {};
  Ink fill = Ink::none;
};
/// Part of a circle, from one angle clockwise to the other, in degrees from three o'clock.
struct Arc {
  Point centre;
  double radius = 0;
  double from = 0, to = 0;
  Stroke stroke = {};
};

enum class Anchor : std::uint8_t { start, middle, end };
/// One line of text, left to right as a whole whatever script is in it.
struct Text {
  Point at;  ///< on the base line, at the end that `anchor` names
  std::string text;
  double size = 9;
  Anchor anchor = Anchor::start;
  bool strong = false;
  Ink ink = Ink::ink;
};

using Shape = std::variant<Polyline, Rectangle, Circle, Arc, Text>;

/// Later shapes lie over earlier ones.
struct Drawing {
  std::string title;        ///< "Circuit heater, one-line diagram"
  std::string description;  ///< what there is to see, in sentences, for those who do not see it
  double width = column, height = 0;
  std::vector<Shape> shapes;
};

/// What a shape covers, its strokes included; of a text, what it covers at most (see lettering.hpp).
struct Extent {
  double left = 0, top = 0, right = 0, bottom = 0;
};
Extent extent(const Shape& shape);

}  // namespace pullproof::draw
