#include "report/markdown.hpp"

#include <fmt/format.h>

#include "core/diagnostic.hpp"

namespace pullproof::report {
namespace {

using namespace doc;

/// Makes a text plain: everything that CommonMark, its tables or a mailer could take for markup is escaped, or, for
/// signs that begin a link by themselves, written as an entity.
std::string escaped(std::string_view text) {
  std::string out;
  const std::string clean = printable(text);
  for (std::size_t i = 0; i < clean.size(); ++i) {
    const char c = clean[i];
    const bool begins = out.empty();
    if (std::string_view("\\`*_{}[]<>|~^$").find(c) != std::string_view::npos) out += '\\', out += c;
    else if (c == '&') out += "&amp;";
    else if (c == '@') out += "&#64;";
    else if (c == ':' && clean.compare(i, 3, "://") == 0) out += "&#58;";
    else if (c == '!' && i + 1 < clean.size() && clean[i + 1] == '[') out += "\\!";
    else if (begins && std::string_view("#+-=").find(c) != std::string_view::npos) out += '\\', out += c;
    else if ((c == '.' || c == ')') && (i + 1 == clean.size() || clean[i + 1] == ' ') && !out.empty() && out.find_first_not_of("0123456789") == std::string::npos)
      out += '\\', out += c;
    else out += c;
  }
  return out;
}

/// A run of code: fenced by more backticks than it holds.
std::string code(std::string_view text) {
  std::string clean = printable(text);
  std::size_t longest = 0, run = 0;
  for (const char c : clean) {
    run = c == '`' ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  const std::string fence(longest + 1, '`');
  std::string inside;
  for (const char c : clean) inside += c == '|' ? std::string("\\|") : std::string(1, c);  // tables split at bars even in code
  const bool pad = inside.starts_with('`') || inside.ends_with('`');
  return fence + (pad ? " " : "") + inside + (pad ? " " : "") + fence;
}

std::string inlines(const Spans& spans) {
  std::string out;
  for (const Span& s : spans) {
    if (s.text.empty()) continue;
    // Emphasis may not begin or end with a space.
    const std::size_t first = s.text.find_first_not_of(' ');
    if (first == std::string::npos) {
      out += s.text;
      continue;
    }
    const std::size_t last = s.text.find_last_not_of(' ');
    const std::string core = s.text.substr(first, last - first + 1);
    out += s.text.substr(0, first);
    switch (s.role) {
      case Role::strong:
      case Role::good:
      case Role::bad:
      case Role::warn: out += fmt::format("**{}**", escaped(core)); break;
      case Role::code: out += code(core); break;
      case Role::plain:
      case Role::faint: out += escaped(core); break;
    }
    out += s.text.substr(last + 1);
  }
  return out;
}

std::string blank(std::size_t width = 12) { return std::string(width, '_'); }

class Writer {
 public:
  std::string run(const Document& d) {
    out_ = fmt::format("# {}\n\n{}\n", escaped(d.title), escaped(d.kind));
    for (const Block& b : d.blocks) write(b);
    return std::move(out_);
  }

 private:
  void write(const Block& b) {
    std::visit([this](const auto& x) { block(x); }, b.is);
  }
  void block(const Heading& h) { out_ += fmt::format("\n{} {}\n", std::string(static_cast<std::size_t>(h.level), '#'), escaped(h.text)); }
  void block(const Paragraph& p) { out_ += fmt::format("\n{}\n", inlines(p.spans)); }
  void block(const List& l) {
    out_ += '\n';
    for (std::size_t i = 0; i < l.items.size(); ++i)
      out_ += fmt::format("{} {}\n", l.numbered ? fmt::format("{}.", i + 1) : std::string("-"), inlines(l.items[i]));
  }
  void block(const Fields& f) {
    out_ += "\n| | |\n| --- | --- |\n";
    for (const auto& row : f.rows) out_ += fmt::format("| {} | {} |\n", escaped(row.label), row.value.empty() ? blank() : inlines(row.value));
  }
  void block(const Table& t) {
    out_ += folded_ ? std::string("\n|") : fmt::format("\n**{}**\n\n|", escaped(t.caption));
    for (const auto& c : t.columns) out_ += fmt::format(" {} |", escaped(c.head));
    out_ += "\n|";
    for (const auto& c : t.columns) out_ += c.align == Table::Align::end ? " ---: |" : " --- |";
    out_ += '\n';
    for (const auto& row : t.rows) {
      out_ += '|';
      for (std::size_t i = 0; i < row.size(); ++i) {
        const bool fill = row[i].empty() && i < t.columns.size() && t.columns[i].fill_in;
        out_ += fmt::format(" {} |", fill ? blank() : inlines(row[i]));
      }
      out_ += '\n';
    }
  }
  void block(const Figure& f) {
    out_ += fmt::format("\n**{}**\n\n{}\n", escaped(f.caption.empty() ? f.drawing.title : f.caption), escaped(f.drawing.description));
  }
  void block(const Entry& e) {
    out_ += fmt::format("\n**{}** {}\n", escaped(e.label), inlines(e.title));
    for (const Spans& line : e.lines) out_ += fmt::format("\n{}\n", inlines(line));
  }
  void block(const Fold& f) {
    out_ += fmt::format("\n**{}**\n", escaped(text_of(f.summary)));
    folded_ = true;  // its tables need no other name
    for (const Block& b : f.blocks) write(b);
    folded_ = false;
  }
  void block(const Signature& s) {
    out_ += fmt::format("\n**{}**\n\n", escaped(s.who));
    for (const std::string& line : s.lines) out_ += fmt::format("- {}: {}\n", escaped(line), blank(30));
  }

  std::string out_;
  bool folded_ = false;
};

}  // namespace

std::string as_markdown(const Document& document) { return Writer().run(document); }

}  // namespace pullproof::report
