#pragma once
// A page of text for a terminal: paragraphs wrapped by the cells that characters take, with colour or without.
#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace pullproof::report {

/// What a piece of text is, for its colour. The words say the same without colour.
enum class Ink : std::uint8_t { plain, strong, faint, good, bad, warn };

struct Span {
  std::string text;
  Ink ink = Ink::plain;
};

class Page {
 public:
  /// `width` in terminal cells, at least 20.
  Page(std::size_t width, bool color) : width_(width < 20 ? 20 : width), color_(color) {}

  /// One paragraph: the first line `indent` cells in, further lines `hang` more. A word that is wider than the line
  /// is cut; a number keeps its unit beside it, and a word its mark. Control characters come out as U+FFFD.
  void paragraph(std::size_t indent, const std::vector<Span>& spans, std::size_t hang = 2);
  void paragraph(std::size_t indent, std::string_view text, std::size_t hang = 2) { paragraph(indent, {{std::string(text)}}, hang); }
  /// A label in a column of its own, `label_cells` wide, and a paragraph beside it.
  void item(std::size_t indent, const Span& label, std::size_t label_cells, const std::vector<Span>& spans);
  /// An empty line, but never two and never at the top.
  void gap();
  /// A line as it is, for tables that have been laid out already.
  void line(std::string_view text);

  std::size_t width() const { return width_; }
  std::string take() { return std::move(out_); }

 private:
  std::size_t width_;
  bool color_;
  std::string out_;
};

/// `text` padded with spaces to `cells`, before it when `right`.
std::string padded(std::string_view text, std::size_t cells, bool right = false);

}  // namespace pullproof::report
