#include "pdf/blocks.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "draw/drawing.hpp"
#include "pdf/figure.hpp"
#include "pdf/table.hpp"

namespace pullproof::pdf {
namespace {

using namespace doc;

constexpr double body = 9, small = 8;
constexpr std::size_t kept_lines = 5;  ///< a paragraph of so many lines is not divided

std::string_view rule_ink() { return draw::colour(draw::Ink::rule).light; }
std::string_view text_ink() { return draw::colour(draw::Ink::ink).light; }

void rule(cairo_t* cr, double x0, double x1, double y, double width, std::string_view ink) {
  use_ink(cr, ink);
  cairo_set_dash(cr, nullptr, 0, 0);
  cairo_set_line_width(cr, width);
  cairo_move_to(cr, x0, y);
  cairo_line_to(cr, x1, y);
  cairo_stroke(cr);
}

class Maker {
 public:
  Maker(const Document& d, const Type& type, const Sheet& sheet) : d_(d), type_(type), sheet_(sheet) {}

  Pieces run() {
    title();
    for (std::size_t i = 0; i < d_.blocks.size();) i = block_at(d_.blocks, i);
    if (!out_.all.empty()) out_.all.back().keep = false;
    return std::move(out_);
  }

 private:
  // --- putting pieces down ---

  Tag tag(const char* name, bool leaf = false) { return {name, ++last_id_, leaf}; }
  std::vector<Tag> within(Tag t) const {
    std::vector<Tag> tags = outer_;
    tags.push_back(t);
    return tags;
  }

  /// A set text as pieces: all in one, or line by line with two lines at least on either page.
  void text(Setting s, double indent, double before, const char* name, bool keep_with_next) {
    const auto tags = within(tag(name, true));
    const auto shared = std::make_shared<Setting>(std::move(s));
    const std::size_t n = shared->lines().size();
    const auto piece = [&](std::size_t from, std::size_t to, bool keep) {
      Piece p;
      p.height = shared->lines()[to - 1].bottom - shared->lines()[from].top;
      p.before = from == 0 ? before : 0;
      p.keep = keep;
      p.tags = tags;
      p.draw = [shared, from, to, indent](const Canvas& on, double x, double y) { shared->draw(on.cr, x + indent, y, from, to); };
      out_.all.push_back(std::move(p));
    };
    if (n <= kept_lines) return piece(0, n, keep_with_next);
    for (std::size_t i = 0; i < n; ++i) piece(i, i + 1, i == 0 || i + 2 == n || (i + 1 == n && keep_with_next));
  }

  double width() const { return sheet_.text_width() - indent_; }

  void title() {
    if (d_.title != d_.kind) text(type_.set(d_.kind, width(), {.size = body, .tone = Role::faint}), 0, 0, "P", true);
    out_.all.reserve(256);
    const std::size_t at = out_.all.size();
    text(type_.set(d_.title, width(), {.size = 17, .strong = true}), 0, 1, "H1", true);
    out_.all[at].outline = d_.title;
    out_.all[at].outline_level = 1;
    if (!d_.permit.empty()) text(type_.set(fmt::format("Permit {}", d_.permit), width(), {.size = 10}), 0, 2, "P", true);
  }

  // --- blocks ---

  std::size_t block_at(const std::vector<Block>& blocks, std::size_t i) {
    if (std::holds_alternative<Figure>(blocks[i].is)) return figures(blocks, i);
    std::visit([this](const auto& b) { block(b); }, blocks[i].is);
    return i + 1;
  }

  void block(const Figure&) {}  // see `figures`

  void block(const Heading& h) {
    const double size = h.level <= 2 ? 13 : h.level == 3 ? 10.5 : 9.5;
    const double before = h.level <= 2 ? 20 : h.level == 3 ? 13 : 9;
    const std::size_t at = out_.all.size();
    text(type_.set(h.text, width(), {.size = size, .strong = true}), indent_, before, h.level <= 2 ? "H2" : h.level == 3 ? "H3" : "H4", true);
    for (std::size_t i = at; i < out_.all.size(); ++i) out_.all[i].keep = true;
    if (h.level <= 3) {
      out_.all[at].outline = h.text;
      out_.all[at].outline_level = std::max(h.level, 2);
    }
    if (h.level > 2) return;
    Piece line;
    line.height = 4;
    line.keep = true;
    line.tags = outer_;
    line.draw = [w = width()](const Canvas& on, double x, double y) { rule(on.cr, x, x + w, y + 2.5, 0.75, text_ink()); };
    out_.all.push_back(std::move(line));
  }

  void block(const Paragraph& p) { text(type_.set(p.spans, width(), {.size = body}), indent_, 5, "P", false); }

  void block(const List& l) {
    const double mark = l.numbered ? 18 : 11;
    outer_.push_back(tag("L"));
    for (std::size_t i = 0; i < l.items.size(); ++i) {
      outer_.push_back(tag("LI"));
      const auto label = std::make_shared<Setting>(type_.set(l.numbered ? fmt::format("{}.", i + 1) : "\u2022", mark, {.size = body}));
      const std::size_t at = out_.all.size();
      text(type_.set(l.items[i], width() - mark, {.size = body}), indent_ + mark, i == 0 ? 5 : 2.5, "LBody", false);
      Piece& first = out_.all[at];
      first.draw = [inner = first.draw, label, left = indent_](const Canvas& on, double x, double y) {
        label->draw(on.cr, x + left, y, 0, 1);
        inner(on, x, y);
      };
      outer_.pop_back();
    }
    outer_.pop_back();
  }

  void block(const Fields& f) {
    const double label_width = std::min(150.0, width() * 0.32), value_width = width() - label_width - 8;
    outer_.push_back(tag("Table"));
    for (const auto& row : f.rows) {
      const auto label = std::make_shared<Setting>(type_.set(row.label, label_width, {.size = body, .tone = Role::faint}));
      const auto value = std::make_shared<Setting>(type_.set(row.value, value_width, {.size = body}));
      const bool blank = row.value.empty();
      Piece p;
      p.height = std::max(label->height(), value->height()) + (blank ? 4 : 0);
      p.before = &row == &f.rows.front() ? 7 : 2.5;
      p.tags = within(tag("TR"));
      p.draw = [label, value, blank, label_width, left = indent_, value_width, h = p.height](const Canvas& on, double x, double y) {
        on.leaf("TH", [&] { label->draw(on.cr, x + left, y + (blank ? 4 : 0), 0, label->lines().size()); });
        on.leaf("TD", [&] { value->draw(on.cr, x + left + label_width + 8, y, 0, value->lines().size()); });
        if (blank) rule(on.cr, x + left + label_width + 8, x + left + label_width + 8 + std::min(value_width, 240.0), y + h - 1, 0.6, text_ink());
      };
      out_.all.push_back(std::move(p));
    }
    outer_.pop_back();
  }

  /// Lines of a cell that fit into `room` from line `from` on, one at least.
  static std::size_t lines_in(const Setting& s, std::size_t from, double room) {
    std::size_t to = std::min(from + 1, s.lines().size());
    while (to < s.lines().size() && s.lines()[to].bottom - s.lines()[from].top <= room) ++to;
    return to;
  }

  void block(const Table& t) {
    if (t.columns.empty()) return;
    const auto widths = std::make_shared<std::vector<double>>(column_widths(t, width(), small));
    if (!t.caption.empty()) text(type_.set(t.caption, width(), {.size = body, .strong = true}), indent_, 9, "P", true);
    outer_.push_back(tag("Table"));
    const int head = static_cast<int>(out_.all.size());
    std::vector<Spans> heads;
    for (const auto& c : t.columns) heads.push_back({{c.head, Role::plain, {}}});
    row(t, widths, heads, true, -1);
    out_.all.back().keep = true;
    for (const auto& r : t.rows) row(t, widths, r, false, head);
    outer_.pop_back();
  }

  void row(const Table& t, const std::shared_ptr<std::vector<double>>& widths, const std::vector<Spans>& spans, bool is_head, int head) {
    constexpr double pad = 2.5;
    const auto cells = std::make_shared<std::vector<Setting>>();
    double height = 0;
    for (std::size_t c = 0; c < t.columns.size(); ++c) {
      const Style style{.size = small, .strong = is_head, .end = t.columns[c].align == Table::Align::end};
      cells->push_back(type_.set(c < spans.size() ? spans[c] : Spans{}, (*widths)[c] - 2 * cell_pad, style));
      height = std::max(height, cells->back().height());
    }
    // A row higher than half a page is divided.
    const double most = sheet_.text_height() / 2;
    std::vector<std::size_t> from(cells->size(), 0);
    bool first = true;
    const Tag tr = tag("TR");
    do {
      std::vector<std::size_t> to(cells->size());
      double h = 0;
      bool done = true;
      for (std::size_t c = 0; c < cells->size(); ++c) {
        const Setting& s = (*cells)[c];
        to[c] = from[c] < s.lines().size() ? lines_in(s, from[c], most) : from[c];
        if (to[c] > from[c]) h = std::max(h, s.lines()[to[c] - 1].bottom - s.lines()[from[c]].top);
        done = done && to[c] == s.lines().size();
      }
      Piece p;
      const bool blank = std::any_of(t.columns.begin(), t.columns.end(), [](const Table::Column& c) { return c.fill_in; });
      p.height = h + 2 * pad + (blank && !is_head ? 5 : 0);
      p.before = is_head ? 3 : 0;
      p.head = head;
      p.tags = within(tr);
      std::vector<bool> blanks;
      for (std::size_t c = 0; c < t.columns.size(); ++c) blanks.push_back(!is_head && first && t.columns[c].fill_in && (c >= spans.size() || text_of(spans[c]).empty()));
      p.draw = [cells, widths, from, to, blanks, is_head, left = indent_, total = width(), hh = p.height](const Canvas& on, double x, double y) {
        double at = x + left;
        if (is_head) {
          use_ink(on.cr, draw::colour(draw::Ink::panel).light);
          cairo_rectangle(on.cr, at, y, total, hh);
          cairo_fill(on.cr);
        }
        for (std::size_t c = 0; c < cells->size(); ++c) {
          if (to[c] > from[c]) on.leaf(is_head || c == 0 ? "TH" : "TD", [&] { (*cells)[c].draw(on.cr, at + cell_pad, y + pad, from[c], to[c]); });
          if (blanks[c]) rule(on.cr, at + cell_pad, at + (*widths)[c] - cell_pad, y + hh - 3, 0.6, text_ink());
          at += (*widths)[c];
        }
        rule(on.cr, x + left, x + left + total, y + hh, is_head ? 0.9 : 0.4, is_head ? text_ink() : rule_ink());
      };
      out_.all.push_back(std::move(p));
      from = to;
      first = false;
      if (done) break;
    } while (true);
  }

  /// Figures side by side, two of them where both are narrow.
  std::size_t figures(const std::vector<Block>& blocks, std::size_t i) {
    if (i > 0 && std::holds_alternative<Paragraph>(blocks[i - 1].is)) out_.all.back().keep = true;  // what introduces it
    const double gap = width() - 2 * draw::column;
    const auto* left = std::get_if<Figure>(&blocks[i].is);
    const auto* right = i + 1 < blocks.size() ? std::get_if<Figure>(&blocks[i + 1].is) : nullptr;
    if (gap < 0 || left->drawing.width > draw::column || (right != nullptr && right->drawing.width > draw::column)) right = nullptr;
    std::vector<const Figure*> row{left};
    if (right != nullptr) row.push_back(right);
    const double most = sheet_.text_height() - 30;
    struct Part {
      const Figure* figure;
      double scale;
      std::shared_ptr<Setting> caption;
    };
    auto parts = std::make_shared<std::vector<Part>>();
    Piece p;
    for (const Figure* f : row) {
      const double scale = std::min({1.0, width() / f->drawing.width, most / std::max(1.0, f->drawing.height)});
      std::shared_ptr<Setting> caption;
      if (!f->caption.empty()) caption = std::make_shared<Setting>(type_.set(f->caption, std::min(width(), draw::column), {.size = small, .tone = Role::faint}));
      p.height = std::max(p.height, f->drawing.height * scale + (caption ? caption->height() + 5 : 0));
      parts->push_back({f, scale, std::move(caption)});
      out_.figures.push_back(fmt::format("{}. {}", f->drawing.title, f->drawing.description));
    }
    p.before = 12;
    p.tags = outer_;
    p.draw = [parts, &type = type_, left_edge = indent_, gap](const Canvas& on, double x, double y) {
      double at = x + left_edge;
      for (const Part& part : *parts) {
        on.leaf("Figure", [&] { draw_figure(on.cr, type, part.figure->drawing, at, y, part.scale); });
        if (part.caption) on.leaf("Caption", [&] { part.caption->draw(on.cr, at, y + part.figure->drawing.height * part.scale + 5, 0, part.caption->lines().size()); });
        at += draw::column + gap;
      }
    };
    out_.all.push_back(std::move(p));
    return i + row.size();
  }

  void block(const Entry& e) {
    const double inset = 9;
    const std::size_t first = out_.all.size();
    Spans head{{e.label, e.tone == Role::plain || e.tone == Role::faint ? Role::strong : e.tone, {}}, {"  ", Role::plain, {}}};
    head.insert(head.end(), e.title.begin(), e.title.end());
    outer_.push_back(tag("Sect"));
    indent_ += inset;
    text(type_.set(head, width(), {.size = e.lead ? 12.0 : body}), indent_, e.lead ? 8 : 7, "P", !e.lines.empty());
    for (std::size_t i = 0; i < e.lines.size(); ++i) text(type_.set(e.lines[i], width(), {.size = body}), indent_, 1.5, "P", i + 1 < e.lines.size());
    indent_ -= inset;
    outer_.pop_back();
    // A bar along all of it, in the colour of its verdict.
    for (std::size_t i = first; i < out_.all.size(); ++i) {
      Piece& p = out_.all[i];
      const double above = i == first ? 0 : p.before;
      p.draw = [inner = p.draw, ink = ink_of(e.tone), left = indent_, h = p.height, above](const Canvas& on, double x, double y) {
        use_ink(on.cr, ink);
        cairo_set_dash(on.cr, nullptr, 0, 0);
        cairo_rectangle(on.cr, x + left, y - above, 2.2, h + above);
        cairo_fill(on.cr);
        inner(on, x, y);
      };
    }
  }

  void block(const Fold& f) {
    Spans summary = f.summary;
    for (Span& s : summary)
      if (s.role == Role::plain) s.role = Role::strong;
    text(type_.set(summary, width(), {.size = body}), indent_, 10, "P", true);
    for (std::size_t i = 0; i < f.blocks.size();) {
      // What introduces a table or a list stays with it.
      if (std::holds_alternative<Table>(f.blocks[i].is) || std::holds_alternative<doc::List>(f.blocks[i].is)) out_.all.back().keep = true;
      i = block_at(f.blocks, i);
    }
  }

  void block(const Signature& s) {
    text(type_.set(s.who, width(), {.size = body, .strong = true}), indent_, 12, "P", true);
    const std::size_t n = std::max<std::size_t>(1, s.lines.size());
    const double gap = 14, each = (width() - gap * static_cast<double>(n - 1)) / static_cast<double>(n);
    const auto labels = std::make_shared<std::vector<Setting>>();
    double height = 0;
    for (const std::string& line : s.lines) {
      labels->push_back(type_.set(line, each, {.size = small, .tone = Role::faint}));
      height = std::max(height, labels->back().height());
    }
    constexpr double room = 26;
    Piece p;
    p.height = room + 3 + height;
    p.tags = within(tag("P", true));
    p.draw = [labels, each, gap, left = indent_](const Canvas& on, double x, double y) {
      double at = x + left;
      for (const Setting& l : *labels) {
        rule(on.cr, at, at + each, y + room, 0.7, text_ink());
        l.draw(on.cr, at, y + room + 2, 0, l.lines().size());
        at += each + gap;
      }
    };
    out_.all.push_back(std::move(p));
  }

  const Document& d_;
  const Type& type_;
  const Sheet& sheet_;
  Pieces out_;
  std::vector<Tag> outer_;
  double indent_ = 0;
  int last_id_ = 0;
};

}  // namespace

Pieces pieces_of(const Document& document, const Type& type, const Sheet& sheet) { return Maker(document, type, sheet).run(); }

}  // namespace pullproof::pdf
