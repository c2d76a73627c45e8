#pragma once
// Type on the page: fonts, sizes and set paragraphs, by pango.
#include <pango/pangocairo.h>

#include <memory>
#include <string_view>
#include <vector>

#include "report/document.hpp"

namespace pullproof::pdf {

/// How a piece of text is set. Sizes are points.
struct Style {
  double size = 9;
  bool strong = false;
  bool end = false;  ///< flush right
  doc::Role tone = doc::Role::plain;  ///< colour of what has none of its own
};

struct Release {
  void operator()(void* object) const { g_object_unref(object); }
};
template <class T>
using Shared = std::shared_ptr<T>;
template <class T>
Shared<T> owned(T* object) { return Shared<T>(object, Release{}); }

/// A paragraph that is set to a width.
class Setting {
 public:
  struct Line {
    double top = 0, bottom = 0, base = 0;  ///< below the paragraph's top
    double left = 0;                       ///< where it begins
  };
  Setting(Shared<PangoLayout> layout, double width);
  double height() const { return lines_.empty() ? 0 : lines_.back().bottom; }
  double width() const { return width_; }
  /// The width that the text takes.
  double text_width() const;
  const std::vector<Line>& lines() const { return lines_; }
  /// Draws lines `from` up to `to`, the first one's top at `y`.
  void draw(cairo_t* cr, double x, double y, std::size_t from, std::size_t to) const;

 private:
  Shared<PangoLayout> layout_;
  double width_;
  std::vector<Line> lines_;
};

/// Sets texts. One of it for a document.
class Type {
 public:
  explicit Type(std::string_view language);
  /// Every text is made harmless: control and direction characters come out as U+FFFD.
  Setting set(const doc::Spans& spans, double width, const Style& style) const;
  Setting set(std::string_view text, double width, const Style& style) const;
  /// One line, cut with "…" at `width`.
  Setting line(std::string_view text, double width, const Style& style) const;

 private:
  Shared<PangoLayout> layout(const doc::Spans& spans, const Style& style) const;
  Shared<PangoContext> context_;
  Shared<PangoFontDescription> plain_, strong_;
};

/// Sets the colour of a role of text.
void use_ink(cairo_t* cr, std::string_view hex);
std::string_view ink_of(doc::Role role);

}  // namespace pullproof::pdf
