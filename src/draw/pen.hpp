#pragma once
// Drawing from top to bottom: what the figures beside this file share.
#include <string>
#include <string_view>
#include <vector>

#include "draw/drawing.hpp"

namespace pullproof::draw {

inline constexpr double text_size = 9, small_size = 8, head_size = 10;

/// How lines of text are set.
struct Lettering {
  double size = text_size;
  Ink ink = Ink::ink;
  bool strong = false;
  std::size_t most = 4;  ///< lines
};

/// Adds shapes to a drawing. `y` is the lower edge of what was drawn last by the members that go down the sheet.
class Pen {
 public:
  explicit Pen(Drawing& drawing) : drawing_(&drawing) {}

  double y = 0;

  void add(Shape shape) { drawing_->shapes.push_back(std::move(shape)); }
  void line(Point a, Point b, const Stroke& stroke = {}) { add(Polyline{{a, b}, false, stroke}); }
  /// One line of text, cut to `width`.
  void label(Point at, std::string_view text, double width, const Lettering& l = {}, Anchor anchor = Anchor::start);
  /// Text below what was drawn last, between `left` and `right`, in lines.
  void paragraph(double left, double right, std::string_view text, const Lettering& l = {});
  /// A mark for something that fails, as high as text of `size`: a cross in a circle, its left edge and base line at `at`.
  void cross(Point at, double size);
  void space(double by) { y += by; }
  /// Ends the drawing at `y`.
  void finish() { drawing_->height = y; }

 private:
  Drawing* drawing_;
};

/// Lines at 45° across a circle, `gap` apart, as a hatch.
void hatch(Pen& pen, const Circle& circle, double gap, const Stroke& stroke);

}  // namespace pullproof::draw
