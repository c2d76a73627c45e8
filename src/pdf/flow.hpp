#pragma once
// From pieces in a row to pages: what stays together, where pages end, and the structure that screen readers follow.
#include <cairo.h>

#include <functional>
#include <string>
#include <vector>

namespace pullproof::pdf {

/// The sheet and what is printed on of it, in points. The text is as wide as two figures beside one another.
struct Sheet {
  double width = 612, height = 792;
  double left = 54, right = 558, top = 66, bottom = 732;
  static Sheet letter() { return {}; }
  static Sheet a4() { return {595.28, 841.89, 45.64, 549.64, 66, 781}; }
  double text_width() const { return right - left; }
  double text_height() const { return bottom - top; }
};

/// A structure element of PDF: "P", "Table". Pieces with the same id in the same place share one.
struct Tag {
  const char* name = "P";
  int id = 0;
  bool leaf = false;  ///< what is drawn is its content; it ends with the page
};

/// What pieces are drawn on.
struct Canvas {
  cairo_t* cr = nullptr;
  bool tagged = true;  ///< false for what is repeated: it is no content of the structure
  /// Draws the content of an element within the piece's own.
  void leaf(const char* name, const std::function<void()>& draw) const;
};

/// Something that is not divided between pages.
struct Piece {
  double height = 0;
  double before = 0;  ///< space above, none at the top of a page
  bool keep = false;  ///< on the page of the next piece
  std::vector<Tag> tags;  ///< from the outside in
  std::function<void(const Canvas& on, double x, double y)> draw;
  int head = -1;      ///< the piece that is repeated above this one where a page begins with it
  std::string outline;  ///< an entry of the outline leads here
  int outline_level = 0;
};

struct Placed {
  const Piece* piece = nullptr;
  double y = 0;
  bool again = false;  ///< a head that is repeated: no content of the structure
};
using Page = std::vector<Placed>;

/// Puts pieces on pages, from the top down. What is kept together and higher than a page is divided after all.
std::vector<Page> paginate(const std::vector<Piece>& pieces, const Sheet& sheet);

/// Opens and closes structure elements so that those of `tags` are open, and no others.
class Structure {
 public:
  explicit Structure(cairo_t* cr) : cr_(cr) {}
  void open(const std::vector<Tag>& tags);
  /// Closes those that end with the page.
  void end_page();
  void close() { open({}); }

 private:
  cairo_t* cr_;
  std::vector<Tag> open_;
};

}  // namespace pullproof::pdf
