#include "report/html.hpp"

#include <fmt/format.h>

#include "core/diagnostic.hpp"
#include "draw/svg.hpp"

namespace pullproof::report {
namespace {

using namespace doc;

using draw::escaped;

class Writer {
 public:
  explicit Writer(const Document& d) : d_(d) {}

  std::string run(Paper paper) {
    head(paper);
    contents();
    out_ += "<main>\n";
    all(d_.blocks);
    if (in_section_) out_ += "</section>\n";
    out_ += fmt::format("</main>\n<footer><p>{}</p></footer>\n</body>\n</html>\n", escaped(d_.program));
    return std::move(out_);
  }

 private:
  void head(Paper paper) {
    out_ += fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n"
        "<meta name=\"generator\" content=\"{}\">\n<title>{}</title>\n<style>\n",
        escaped(d_.language), escaped(d_.program), escaped(d_.title == d_.kind ? d_.title : fmt::format("{}: {}", d_.kind, d_.title)));
    out_ += html_style();
    out_ += fmt::format("@page {{ size: {}; margin: 16mm 15mm; }}\n", paper == Paper::a4 ? "A4" : "letter");
    out_ += draw::svg_style();
    out_ += "</style>\n</head>\n<body>\n<header>\n";
    if (d_.title != d_.kind) out_ += fmt::format("<p class=\"kind\">{}</p>\n", escaped(d_.kind));
    out_ += fmt::format("<h1>{}</h1>\n", escaped(d_.title));
    if (!d_.permit.empty()) out_ += fmt::format("<p class=\"kind\">Permit {}</p>\n", escaped(d_.permit));
    out_ += "</header>\n";
  }

  void contents() {
    out_ += "<nav aria-label=\"Contents\">\n<ul>\n";
    for (const Block& b : d_.blocks)
      if (const auto* h = std::get_if<Heading>(&b.is); h != nullptr && h->level == 2 && !h->anchor.empty())
        out_ += fmt::format("<li><a href=\"#{}\">{}</a></li>\n", h->anchor, escaped(h->text));
    out_ += "</ul>\n</nav>\n";
  }

  /// Blocks one after another; figures that follow one another stand side by side where there is room.
  void all(const std::vector<Block>& blocks) {
    bool figures = false;
    for (const Block& b : blocks) {
      const bool figure = std::holds_alternative<Figure>(b.is);
      if (figure != figures) out_ += figure ? "<div class=\"figures\">\n" : "</div>\n";
      figures = figure;
      write(b);
    }
    if (figures) out_ += "</div>\n";
  }

  void write(const Block& b) {
    std::visit([this](const auto& x) { block(x); }, b.is);
  }

  static std::string id(const std::string& anchor) { return anchor.empty() ? std::string{} : fmt::format(" id=\"{}\"", anchor); }

  void inlines(const Spans& spans) {
    for (const Span& s : spans) {
      std::string text = escaped(s.text);
      if (s.role == Role::code) text = fmt::format("<code>{}</code>", text);
      else if (s.role == Role::strong) text = fmt::format("<strong>{}</strong>", text);
      else if (s.role == Role::faint) text = fmt::format("<span class=\"faint\">{}</span>", text);
      else if (s.role != Role::plain) text = fmt::format("<strong class=\"{}\">{}</strong>", name(s.role), text);
      if (s.to.empty()) out_ += text;
      else out_ += fmt::format("<a href=\"#{}\">{}</a>", s.to, text);
    }
  }

  void block(const Heading& h) {
    if (h.level == 2) {
      if (in_section_) out_ += "</section>\n";
      in_section_ = true;
      out_ += h.anchor.empty() ? std::string("<section>\n") : fmt::format("<section aria-labelledby=\"{}\">\n", h.anchor);
    }
    out_ += fmt::format("<h{0}{1}>{2}</h{0}>\n", h.level, id(h.anchor), escaped(h.text));
  }
  void block(const Paragraph& p) {
    out_ += "<p>";
    inlines(p.spans);
    out_ += "</p>\n";
  }
  void block(const List& l) {
    const char* tag = l.numbered ? "ol" : "ul";
    out_ += fmt::format("<{}>\n", tag);
    for (const Spans& item : l.items) {
      out_ += "<li>";
      inlines(item);
      out_ += "</li>\n";
    }
    out_ += fmt::format("</{}>\n", tag);
  }
  void block(const Fields& f) {
    out_ += "<dl>\n";
    for (const auto& row : f.rows) {
      out_ += fmt::format("<div><dt>{}</dt><dd{}>", escaped(row.label), row.value.empty() ? " class=\"blank\"" : "");
      if (row.value.empty()) out_ += to_fill_in;
      inlines(row.value);
      out_ += "</dd></div>\n";
    }
    out_ += "</dl>\n";
  }
  void block(const Table& t) {
    out_ += fmt::format("<table>\n<caption>{}</caption>\n<thead><tr>", escaped(t.caption));
    for (const auto& c : t.columns) out_ += fmt::format("<th scope=\"col\"{}>{}</th>", c.align == Table::Align::end ? " class=\"end\"" : "", escaped(c.head));
    out_ += "</tr></thead>\n<tbody>\n";
    for (const auto& row : t.rows) {
      out_ += "<tr>";
      for (std::size_t i = 0; i < row.size() && i < t.columns.size(); ++i) cell(t.columns[i], row[i], i == 0);
      out_ += "</tr>\n";
    }
    out_ += "</tbody>\n</table>\n";
  }
  /// On a phone a row stands as lines, each with the head of its column before it.
  void cell(const Table::Column& c, const Spans& spans, bool heads) {
    const bool empty = text_of(spans).empty();
    std::string classes = c.align == Table::Align::end ? "end" : "";
    if (empty) classes += fmt::format("{}{}", classes.empty() ? "" : " ", c.fill_in ? "blank" : "none");
    const std::string attribute = classes.empty() ? std::string{} : fmt::format(" class=\"{}\"", classes);
    if (heads) out_ += fmt::format("<th scope=\"row\"{}>", attribute);
    else out_ += fmt::format("<td data-head=\"{}\"{}>", escaped(c.head), attribute);
    if (empty && c.fill_in) out_ += to_fill_in;
    inlines(spans);
    out_ += heads ? "</th>" : "</td>";
  }
  void block(const Figure& f) {
    out_ += fmt::format("<figure{}>\n{}", id(f.anchor), draw::as_svg(f.drawing, fmt::format("drawing-{}", ++drawings_)));
    if (!f.caption.empty()) out_ += fmt::format("<figcaption>{}</figcaption>\n", escaped(f.caption));
    out_ += "</figure>\n";
  }
  void block(const Entry& e) {
    out_ += fmt::format("<div class=\"entry {}{}\"{}>\n<p class=\"head\"><strong class=\"label\">{}</strong> ", e.lead ? "lead " : "", name(e.tone), id(e.anchor), escaped(e.label));
    inlines(e.title);
    out_ += "</p>\n";
    for (const Spans& line : e.lines) block(Paragraph{line});
    out_ += "</div>\n";
  }
  /// The anchor is inside, so that following a link to it unfolds it.
  void block(const Fold& f) {
    out_ += "<details>\n<summary>";
    inlines(f.summary);
    out_ += fmt::format("</summary>\n<div{}>\n", id(f.anchor));
    all(f.blocks);
    out_ += "</div>\n</details>\n";
  }
  void block(const Signature& s) {
    out_ += fmt::format("<div class=\"signature\">\n<p class=\"who\">{}</p>\n<ul>\n", escaped(s.who));
    for (const std::string& line : s.lines) out_ += fmt::format("<li>{}</li>\n", escaped(line));
    out_ += "</ul>\n</div>\n";
  }

  static constexpr std::string_view to_fill_in = "<span class=\"hidden\">to fill in</span>";
  const Document& d_;
  std::string out_;
  bool in_section_ = false;
  int drawings_ = 0;
};

}  // namespace

std::string as_html(const Document& document, Paper paper) { return Writer(document).run(paper); }

}  // namespace pullproof::report
