#include "draw/pen.hpp"

#include <cmath>
#include <numbers>

#include "draw/lettering.hpp"

namespace pullproof::draw {

void Pen::label(Point at, std::string_view text, double width, const Lettering& l, Anchor anchor) {
  add(Text{at, fitted(text, l.size, width, l.strong), l.size, anchor, l.strong, l.ink});
}

void Pen::paragraph(double left, double right, std::string_view text, const Lettering& l) {
  for (std::string& line : wrapped(text, l.size, right - left, l.most, l.strong)) {
    add(Text{{left, y + ascent * l.size}, std::move(line), l.size, Anchor::start, l.strong, l.ink});
    y += leading * l.size;
  }
}

void Pen::cross(Point at, double size) {
  const double r = size * 0.42, arm = r * 0.5;
  const Point c{at.x + r + 0.6, at.y - size * 0.36};
  const Stroke stroke{Ink::bad, 1.1};
  add(Circle{c, r, stroke, Ink::paper});
  line({c.x - arm, c.y - arm}, {c.x + arm, c.y + arm}, stroke);
  line({c.x - arm, c.y + arm}, {c.x + arm, c.y - arm}, stroke);
}

void hatch(Pen& pen, const Circle& circle, double gap, const Stroke& stroke) {
  // A chord at distance d from the middle, along the direction (1, -1).
  const double across = std::numbers::sqrt2 / 2;
  const double first = -std::floor((circle.radius - 1e-9) / gap) * gap;
  for (double d = first; d < circle.radius; d += gap) {
    const double half = std::sqrt(circle.radius * circle.radius - d * d);
    const Point foot{circle.centre.x + d * across, circle.centre.y + d * across};
    pen.line({foot.x - half * across, foot.y + half * across}, {foot.x + half * across, foot.y - half * across}, stroke);
  }
}

}  // namespace pullproof::draw
