#include "report/page.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/diagnostic.hpp"

namespace pullproof::report {
namespace {

std::string_view code_of(Ink ink) {
  switch (ink) {
    case Ink::plain: return "";
    case Ink::strong: return "1";
    case Ink::faint: return "2";
    case Ink::good: return "32";
    case Ink::bad: return "1;31";
    case Ink::warn: return "33";
  }
  return "";
}

/// A run of text that is not broken, with its cells. A word may be made of several of them.
struct Piece {
  std::string text;
  std::size_t cells = 0;
  Ink ink = Ink::plain;
  bool space_before = false;
};

std::size_t point_size(std::string_view valid_utf8) {
  std::size_t n = 1;
  while (n < valid_utf8.size() && (static_cast<unsigned char>(valid_utf8[n]) & 0xc0u) == 0x80u) ++n;
  return n;
}

/// The leading bytes of `text` that fit into `cells`, at least one point, with the marks that belong to the last.
std::size_t that_fit(std::string_view text, std::size_t cells) {
  std::size_t at = 0, used = 0;
  while (at < text.size()) {
    const std::size_t size = point_size(text.substr(at));
    const std::size_t w = display_width(text.substr(at, size));
    if (at > 0 && used + w > cells) break;
    used += w;
    at += size;
  }
  return at;
}

bool is_unit(std::string_view word) {
  static constexpr std::string_view all[] = {"A",   "mA", "kA", "V",  "W",  "kW",  "VA",  "ohm", "ohm/kft", "ohm/km", "ft", "in",
                                             "in²", "m",  "mm", "mm²", "AWG", "kcmil", "°C", "°F", "cmil", "in³",   "%",  "h"};
  while (!word.empty() && std::string_view(",;.:)]").find(word.back()) != std::string_view::npos) word.remove_suffix(1);
  return std::find(std::begin(all), std::end(all), word) != std::end(all);
}

/// A mark on what stands before it ("~]", "*").
bool is_mark(std::string_view word) { return word == "*" || word == "~" || word == "*]" || word == "~]"; }

bool ends_in_digit(std::string_view word) { return !word.empty() && word.back() >= '0' && word.back() <= '9'; }

std::vector<std::vector<Piece>> words_of(const std::vector<Span>& spans) {
  std::vector<std::vector<Piece>> words;
  bool open = false;  // the last word goes on
  for (const Span& span : spans) {
    const std::string clean = printable(span.text);
    for (std::size_t at = 0; at < clean.size();) {
      if (clean[at] == ' ') {
        open = false;
        ++at;
        continue;
      }
      const std::size_t end = std::min(clean.find(' ', at), clean.size());
      Piece piece{clean.substr(at, end - at), 0, span.ink, false};
      piece.cells = display_width(piece.text);
      if (open) {
        words.back().push_back(std::move(piece));
      } else if (!words.empty() && (is_mark(piece.text) || (is_unit(piece.text) && ends_in_digit(words.back().back().text)))) {
        piece.space_before = true;
        words.back().push_back(std::move(piece));
      } else {
        words.push_back({std::move(piece)});
      }
      open = end == clean.size();
      at = end;
    }
  }
  return words;
}

}  // namespace

void Page::paragraph(std::size_t indent, const std::vector<Span>& spans, std::size_t hang) {
  const std::size_t deepest = width_ / 2;
  const std::size_t first = std::min(indent, deepest), further = std::min(indent + hang, deepest);
  Ink ink = Ink::plain;
  std::size_t column = first;
  bool empty_line = true;
  const auto paint = [&](Ink wanted) {
    if (!color_ || wanted == ink) return;
    if (ink != Ink::plain) out_ += "\033[0m";
    if (wanted != Ink::plain) out_ += fmt::format("\033[{}m", code_of(wanted));
    ink = wanted;
  };
  const auto break_line = [&] {
    paint(Ink::plain);
    out_ += '\n';
    out_.append(further, ' ');
    column = further;
    empty_line = true;
  };
  out_.append(first, ' ');
  for (const auto& word : words_of(spans)) {
    std::size_t cells = 0;
    for (const Piece& p : word) cells += p.cells + (p.space_before ? 1 : 0);
    if (!empty_line) {
      if (column + 1 + cells > width_) {
        break_line();
      } else {
        out_ += ' ';
        ++column;
      }
    }
    for (const Piece& p : word) {
      if (p.space_before) {
        out_ += ' ';
        ++column;
      }
      paint(p.ink);
      std::string_view rest = p.text;
      while (column + display_width(rest) > width_) {  // wider than a whole line
        const std::size_t n = that_fit(rest, width_ - std::min(column, width_ - 1));
        out_ += rest.substr(0, n);
        rest.remove_prefix(n);
        if (rest.empty()) break;
        break_line();
        paint(p.ink);
      }
      out_ += rest;
      column += display_width(rest);
      empty_line = false;
    }
  }
  paint(Ink::plain);
  out_ += '\n';
}

void Page::item(std::size_t indent, const Span& label, std::size_t label_cells, const std::vector<Span>& spans) {
  const std::string clean = printable(label.text);
  const std::size_t gap = 2, text_at = indent + label_cells + gap;
  Page beside(width_, color_);
  beside.paragraph(text_at, spans, 0);
  std::string text = beside.take();
  const bool painted = color_ && label.ink != Ink::plain;
  const std::string front = std::string(indent, ' ') + (painted ? fmt::format("\033[{}m{}\033[0m", code_of(label.ink), clean) : clean);
  if (text_at > width_ / 2 || display_width(clean) > label_cells) {  // no room beside it
    out_ += front + '\n' + text;
    return;
  }
  text.replace(0, text_at, front + std::string(label_cells + gap - display_width(clean), ' '));
  out_ += text;
}

void Page::gap() {
  if (!out_.empty() && !out_.ends_with("\n\n")) out_ += '\n';
}

void Page::line(std::string_view text) {
  out_ += text;
  while (!out_.empty() && out_.back() == ' ') out_.pop_back();
  out_ += '\n';
}

std::string padded(std::string_view text, std::size_t cells, bool right) {
  const std::size_t width = display_width(text);
  const std::string fill(cells > width ? cells - width : 0, ' ');
  return right ? fill + std::string(text) : std::string(text) + fill;
}

}  // namespace pullproof::report
