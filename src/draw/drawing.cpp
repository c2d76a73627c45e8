#include "draw/drawing.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "draw/lettering.hpp"

namespace pullproof::draw {

std::string_view name(Ink ink) {
  switch (ink) {
    case Ink::none: return "none";
    case Ink::ink: return "ink";
    case Ink::faint: return "faint";
    case Ink::rule: return "rule";
    case Ink::paper: return "paper";
    case Ink::panel: return "panel";
    case Ink::good: return "good";
    case Ink::bad: return "bad";
    case Ink::warn: return "warn";
    case Ink::live: return "live";
    case Ink::neutral: return "neutral";
    case Ink::earth: return "earth";
    case Ink::control: return "control";
    case Ink::other: return "other";
  }
  return "";
}

Colour colour(Ink ink) {
  switch (ink) {
    case Ink::none: return {"none", "none"};
    case Ink::ink: return {"#1a1d21", "#e9ecef"};
    case Ink::faint: return {"#50575f", "#b4bcc4"};
    case Ink::rule: return {"#c6cbd1", "#4a5058"};
    case Ink::paper: return {"#ffffff", "#16181b"};
    case Ink::panel: return {"#f3f4f6", "#24282d"};
    case Ink::good: return {"#1d6b3a", "#7fd09b"};
    case Ink::bad: return {"#a8201a", "#ff9c92"};
    case Ink::warn: return {"#7a5200", "#efc26a"};
    case Ink::live: return {"#f2d2c4", "#6a3425"};
    case Ink::neutral: return {"#ffffff", "#3a3f45"};
    case Ink::earth: return {"#cfe8d0", "#1f4d2c"};
    case Ink::control: return {"#d5e1f5", "#25406b"};
    case Ink::other: return {"#e4e2dc", "#47443c"};
  }
  return {"none", "none"};
}

std::vector<double> pattern(const Stroke& stroke) {
  switch (stroke.dash) {
    case Dash::solid: return {};
    case Dash::dashed: return {5, 3};
    case Dash::dotted: return {1, 2.5};
  }
  return {};
}

namespace {

Extent around(Point p) { return {p.x, p.y, p.x, p.y}; }

Extent grown(Extent e, const Stroke& s) {
  const double by = s.ink == Ink::none ? 0 : s.width / 2;
  return {e.left - by, e.top - by, e.right + by, e.bottom + by};
}

void include(Extent& e, Point p) {
  e.left = std::min(e.left, p.x);
  e.right = std::max(e.right, p.x);
  e.top = std::min(e.top, p.y);
  e.bottom = std::max(e.bottom, p.y);
}

Extent of(const Polyline& l) {
  if (l.points.empty()) return {};
  Extent e = around(l.points.front());
  for (const Point p : l.points) include(e, p);
  return grown(e, l.stroke);
}
Extent of(const Rectangle& r) {
  return grown({r.corner.x, r.corner.y, r.corner.x + r.width, r.corner.y + r.height}, r.stroke);
}
Extent of(const Circle& c) {
  return grown({c.centre.x - c.radius, c.centre.y - c.radius, c.centre.x + c.radius, c.centre.y + c.radius}, c.stroke);
}
Extent of(const Arc& a) {
  const auto at = [&](double degrees) {
    const double t = degrees * std::numbers::pi / 180;
    return Point{a.centre.x + a.radius * std::cos(t), a.centre.y + a.radius * std::sin(t)};
  };
  Extent e = around(at(a.from));
  include(e, at(a.to));
  for (double quarter = std::ceil(a.from / 90) * 90; quarter < a.to; quarter += 90) include(e, at(quarter));
  return grown(e, a.stroke);
}
Extent of(const Text& t) {
  const double w = text_width(t.text, t.size, t.strong);
  const double left = t.anchor == Anchor::start ? t.at.x : t.anchor == Anchor::middle ? t.at.x - w / 2 : t.at.x - w;
  return {left, t.at.y - ascent * t.size, left + w, t.at.y + descent * t.size};
}

}  // namespace

Extent extent(const Shape& shape) {
  return std::visit([](const auto& s) { return of(s); }, shape);
}

}  // namespace pullproof::draw
