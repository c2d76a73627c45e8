#include "draw/svg.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "core/diagnostic.hpp"
#include "core/text.hpp"

namespace pullproof::draw {
namespace {

std::string n(double value) { return number_text(value, 2); }

/// Colours are classes, so that a style sheet can change them: "s-ink" strokes, "f-ink" fills.
std::string paint(const Stroke& s, Ink fill) {
  std::string out = fmt::format(" class=\"f-{}{}\"", name(fill), s.ink == Ink::none ? "" : fmt::format(" s-{}", name(s.ink)));
  if (s.ink == Ink::none) return out;
  out += fmt::format(" stroke-width=\"{}\"", n(s.width));
  std::string dashes;
  for (const double d : pattern(s)) dashes += (dashes.empty() ? "" : " ") + n(d);
  return dashes.empty() ? out : out + fmt::format(" stroke-dasharray=\"{}\"", dashes);
}

std::string element(const Polyline& l) {
  std::string points;
  for (const Point p : l.points) points += fmt::format("{}{},{}", points.empty() ? "" : " ", n(p.x), n(p.y));
  return fmt::format("<{} points=\"{}\"{}/>", l.closed ? "polygon" : "polyline", points, paint(l.stroke, l.fill));
}
std::string element(const Rectangle& r) {
  const std::string round = r.radius > 0 ? fmt::format(" rx=\"{}\"", n(r.radius)) : "";
  return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"{}{}/>", n(r.corner.x), n(r.corner.y), n(r.width),
                     n(r.height), round, paint(r.stroke, r.fill));
}
std::string element(const Circle& c) {
  return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"{}/>", n(c.centre.x), n(c.centre.y), n(c.radius), paint(c.stroke, c.fill));
}
std::string element(const Arc& a) {
  const auto at = [&](double degrees) {
    const double t = degrees * std::numbers::pi / 180;
    return fmt::format("{} {}", n(a.centre.x + a.radius * std::cos(t)), n(a.centre.y + a.radius * std::sin(t)));
  };
  return fmt::format("<path d=\"M{} A{} {} 0 {} 1 {}\"{}/>", at(a.from), n(a.radius), n(a.radius), a.to - a.from > 180 ? 1 : 0,
                     at(a.to), paint(a.stroke, Ink::none));
}
std::string element(const Text& t) {
  const std::string_view anchor = t.anchor == Anchor::start ? "" : t.anchor == Anchor::middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
  return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\"{}{} class=\"f-{}\">{}</text>", n(t.at.x), n(t.at.y), n(t.size), anchor,
                     t.strong ? " font-weight=\"700\"" : "", name(t.ink), escaped(t.text));
}

std::string svg(const Drawing& d, std::string_view id, std::string_view attributes, std::string_view style) {
  std::string out = fmt::format(
      "<svg class=\"drawing\" role=\"img\" aria-labelledby=\"{0}-title {0}-desc\"{1} width=\"{2}pt\" height=\"{3}pt\" "
      "viewBox=\"0 0 {2} {3}\">\n<title id=\"{0}-title\">{4}</title>\n<desc id=\"{0}-desc\">{5}</desc>\n",
      escaped(id), attributes, n(d.width), n(d.height), escaped(d.title), escaped(d.description));
  if (!style.empty()) out += fmt::format("<style>{}</style>\n", style);
  for (const Shape& s : d.shapes) out += std::visit([](const auto& shape) { return element(shape); }, s) + '\n';
  return out + "</svg>\n";
}

std::string variables(bool dark) {
  std::string out;
  for (int i = 1; i < inks; ++i) {
    const Ink ink = static_cast<Ink>(i);
    out += fmt::format("--draw-{}:{};", name(ink), dark ? colour(ink).dark : colour(ink).light);
  }
  return out;
}

}  // namespace

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : printable(text)) {
    switch (c) {
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '"': out += "&quot;"; break;
      case '\'': out += "&#39;"; break;
      default: out += c;
    }
  }
  return out;
}

std::string svg_style() {
  std::string out = fmt::format(":root{{{}}}\n@media (prefers-color-scheme:dark){{:root{{{}}}}}\n@media print{{:root{{{}}}}}\n",
                                variables(false), variables(true), variables(false));
  out += ".drawing{max-width:100%;height:auto;font-family:\"DejaVu Sans\",Arial,Helvetica,sans-serif}\n";
  out += ".drawing .f-none{fill:none}\n";
  for (int i = 1; i < inks; ++i)
    out += fmt::format(".drawing .f-{0}{{fill:var(--draw-{0})}}.drawing .s-{0}{{stroke:var(--draw-{0})}}\n", name(static_cast<Ink>(i)));
  return out;
}

std::string as_svg(const Drawing& drawing, std::string_view id) { return svg(drawing, id, {}, {}); }

std::string svg_file(const Drawing& drawing) {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n" +
         svg(drawing, "drawing", " xmlns=\"http://www.w3.org/2000/svg\"", svg_style() + "svg{background:var(--draw-paper)}\n");
}

}  // namespace pullproof::draw
