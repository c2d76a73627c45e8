#include "pdf/flow.hpp"

#include <algorithm>

namespace pullproof::pdf {
namespace {

class Paginator {
 public:
  Paginator(const std::vector<Piece>& pieces, const Sheet& sheet) : pieces_(pieces), sheet_(sheet), y_(sheet.top) {}

  std::vector<Page> run() {
    pages_.emplace_back();
    for (std::size_t i = 0; i < pieces_.size();) {
      std::size_t end = i + 1;
      while (end < pieces_.size() && pieces_[end - 1].keep) ++end;
      if (height_of(i, end) > sheet_.text_height()) end = i + 1;  // kept together it would fit on no page
      if (y_ + height_of(i, end) > sheet_.bottom + 0.01 && !pages_.back().empty()) turn();
      for (; i < end; ++i) place(pieces_[i]);
    }
    return std::move(pages_);
  }

 private:
  double height_of(std::size_t from, std::size_t to) const {
    double sum = 0;
    bool top = pages_.back().empty();
    for (std::size_t i = from; i < to; ++i, top = false) sum += pieces_[i].height + (top ? 0 : pieces_[i].before);
    return sum;
  }

  void turn() {
    pages_.emplace_back();
    y_ = sheet_.top;
  }

  void place(const Piece& p) {
    if (pages_.back().empty() && p.head >= 0) {
      const Piece& head = pieces_[static_cast<std::size_t>(p.head)];
      if (head.height + p.height <= sheet_.text_height()) {
        pages_.back().push_back({&head, y_, true});
        y_ += head.height;
      }
    }
    if (!pages_.back().empty()) y_ += p.before;
    pages_.back().push_back({&p, y_, false});
    y_ += p.height;
  }

  const std::vector<Piece>& pieces_;
  const Sheet& sheet_;
  double y_;
  std::vector<Page> pages_;
};

}  // namespace

std::vector<Page> paginate(const std::vector<Piece>& pieces, const Sheet& sheet) { return Paginator(pieces, sheet).run(); }

void Canvas::leaf(const char* name, const std::function<void()>& draw) const {
  if (tagged) cairo_tag_begin(cr, name, nullptr);
  draw();
  if (tagged) cairo_tag_end(cr, name);
}

void Structure::open(const std::vector<Tag>& tags) {
  std::size_t same = 0;
  while (same < tags.size() && same < open_.size() && tags[same].id == open_[same].id) ++same;
  while (open_.size() > same) {
    cairo_tag_end(cr_, open_.back().name);
    open_.pop_back();
  }
  for (; open_.size() < tags.size(); open_.push_back(tags[open_.size()])) cairo_tag_begin(cr_, tags[open_.size()].name, nullptr);
}

void Structure::end_page() {
  while (!open_.empty() && open_.back().leaf) {
    cairo_tag_end(cr_, open_.back().name);
    open_.pop_back();
  }
}

}  // namespace pullproof::pdf
