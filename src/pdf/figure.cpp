#include "pdf/figure.hpp"

#include <numbers>

namespace pullproof::pdf {
namespace {

using namespace draw;

constexpr double radians(double degrees) { return degrees * std::numbers::pi / 180; }

class Painter {
 public:
  Painter(cairo_t* cr, const Type& type) : cr_(cr), type_(type) {}

  void operator()(const Polyline& l) const {
    cairo_new_path(cr_);
    for (const Point p : l.points) cairo_line_to(cr_, p.x, p.y);
    if (l.closed) cairo_close_path(cr_);
    paint(l.stroke, l.fill);
  }
  void operator()(const Rectangle& r) const {
    cairo_new_path(cr_);
    if (r.radius > 0) {
      const double x0 = r.corner.x, y0 = r.corner.y, x1 = x0 + r.width, y1 = y0 + r.height, q = r.radius;
      cairo_arc(cr_, x1 - q, y0 + q, q, radians(-90), 0);
      cairo_arc(cr_, x1 - q, y1 - q, q, 0, radians(90));
      cairo_arc(cr_, x0 + q, y1 - q, q, radians(90), radians(180));
      cairo_arc(cr_, x0 + q, y0 + q, q, radians(180), radians(270));
      cairo_close_path(cr_);
    } else {
      cairo_rectangle(cr_, r.corner.x, r.corner.y, r.width, r.height);
    }
    paint(r.stroke, r.fill);
  }
  void operator()(const Circle& c) const {
    cairo_new_path(cr_);
    cairo_arc(cr_, c.centre.x, c.centre.y, c.radius, 0, 2 * std::numbers::pi);
    paint(c.stroke, c.fill);
  }
  void operator()(const Arc& a) const {
    cairo_new_path(cr_);
    cairo_arc(cr_, a.centre.x, a.centre.y, a.radius, radians(a.from), radians(a.to));
    paint(a.stroke, Ink::none);
  }
  void operator()(const Text& t) const {
    const doc::Role tone = t.ink == Ink::faint  ? doc::Role::faint
                           : t.ink == Ink::good ? doc::Role::good
                           : t.ink == Ink::bad  ? doc::Role::bad
                           : t.ink == Ink::warn ? doc::Role::warn
                                                : doc::Role::plain;
    constexpr double wide = 2000;
    const Setting s = type_.set(t.text, wide, {.size = t.size, .strong = t.strong, .tone = tone});
    if (s.lines().empty()) return;
    const double w = s.text_width();
    const double left = t.anchor == Anchor::start ? t.at.x : t.anchor == Anchor::middle ? t.at.x - w / 2 : t.at.x - w;
    s.draw(cr_, left - s.lines().front().left, t.at.y - s.lines().front().base + s.lines().front().top, 0, 1);
  }

 private:
  void paint(const Stroke& s, Ink fill) const {
    if (fill != Ink::none) {
      use_ink(cr_, colour(fill).light);
      cairo_fill_preserve(cr_);
    }
    if (s.ink == Ink::none) return cairo_new_path(cr_);
    use_ink(cr_, colour(s.ink).light);
    const auto dashes = pattern(s);
    cairo_set_dash(cr_, dashes.data(), static_cast<int>(dashes.size()), 0);
    cairo_set_line_width(cr_, s.width);
    cairo_stroke(cr_);
  }

  cairo_t* cr_;
  const Type& type_;
};

}  // namespace

void draw_figure(cairo_t* cr, const Type& type, const Drawing& drawing, double x, double y, double scale) {
  cairo_save(cr);
  cairo_translate(cr, x, y);
  cairo_scale(cr, scale, scale);
  const Painter painter(cr, type);
  for (const Shape& s : drawing.shapes) std::visit(painter, s);
  cairo_restore(cr);
}

}  // namespace pullproof::pdf
