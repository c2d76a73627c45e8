#include "core/diagnostic.hpp"

#include <fmt/format.h>
#include <utf8proc.h>

#include <algorithm>
#include <tuple>

namespace pullproof {
namespace {

struct Point {
  utf8proc_int32_t code = -1;  ///< -1 for a byte that is no UTF-8
  std::size_t bytes = 1;
};

Point first_point(std::string_view s) {
  Point p;
  if (static_cast<unsigned char>(s[0]) < 0x80) {  // nearly all of it
    p.code = static_cast<unsigned char>(s[0]);
    p.bytes = 1;
    return p;
  }
  const auto n = utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(s.data()),
                                  static_cast<utf8proc_ssize_t>(s.size()), &p.code);
  if (n <= 0) return {-1, 1};
  p.bytes = static_cast<std::size_t>(n);
  return p;
}

bool drives_terminal(utf8proc_int32_t code) {
  return code < 0x20 || (code >= 0x7f && code < 0xa0) || (code >= 0x202a && code <= 0x202e) ||
         (code >= 0x2066 && code <= 0x2069) || code == 0x061c || code == 0x200e || code == 0x200f ||
         code == 0x2028 || code == 0x2029 || code == 0xfeff ||
         (code & 0xfffe) == 0xfffe || (code >= 0xfdd0 && code <= 0xfdef);  // the last two: no characters at all
}

}  // namespace

std::string printable(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const Point p = first_point(text);
    if (p.code == '\t') out += ' ';
    else if (p.code < 0 || drives_terminal(p.code)) out += "\uFFFD";
    else out.append(text.substr(0, p.bytes));
    text.remove_prefix(p.bytes);
  }
  return out;
}

std::string well_formed(std::string_view text) {
  if (std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; })) return std::string(text);
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const Point p = first_point(text);
    if (p.code < 0) out += "\uFFFD";
    else out.append(text.substr(0, p.bytes));
    text.remove_prefix(p.bytes);
  }
  return out;
}

std::size_t display_width(std::string_view utf8) {
  std::size_t cells = 0;
  while (!utf8.empty()) {
    const Point p = first_point(utf8);
    cells += p.code < 0 ? 1 : static_cast<std::size_t>(std::max(0, utf8proc_charwidth(p.code)));
    utf8.remove_prefix(p.bytes);
  }
  return cells;
}

std::string shortened(std::string_view text, std::size_t most) {
  std::size_t bytes = 0;
  for (std::size_t n = 0; n < most && bytes < text.size(); ++n) bytes += first_point(text.substr(bytes)).bytes;
  return fmt::format("{}{}", text.substr(0, bytes), bytes < text.size() ? "..." : "");
}

std::string quoted(std::string_view text) { return fmt::format("'{}'", shortened(text, 60)); }

void Diagnostics::add(Diagnostic d) {
  if (full()) {
    ++dropped_;
    return;
  }
  constexpr std::size_t longest = 1000, before = 60, after = 200;  // bytes; code points before and after the place
  if (d.source_line.size() > longest) {
    const std::uint32_t from = d.column > before ? d.column - static_cast<std::uint32_t>(before) : 1;
    std::string_view rest = d.source_line;
    for (std::uint32_t n = 1; n < from && !rest.empty(); ++n) rest.remove_prefix(first_point(rest).bytes);
    std::size_t bytes = 0;
    for (std::size_t n = 0; n < before + after && bytes < rest.size(); ++n) bytes += first_point(rest.substr(bytes)).bytes;
    d.source_line = std::string(rest.substr(0, bytes));
    d.source_from = from;
  }
  all_.push_back(std::move(d));
}

std::vector<Diagnostic> Diagnostics::sorted() const {
  std::vector<Diagnostic> out = all_;
  const auto key = [](const Diagnostic& d) { return std::tie(d.file, d.line, d.column, d.message); };
  std::stable_sort(out.begin(), out.end(), [&](const auto& a, const auto& b) { return key(a) < key(b); });
  out.erase(std::unique(out.begin(), out.end(), [&](const auto& a, const auto& b) { return key(a) == key(b); }),
            out.end());
  if (dropped_ > 0)
    out.push_back({out.back().file, 0, 0, 1, fmt::format("there is more like this: {} complaints are not shown", dropped_), {}, {}});
  return out;
}

std::string render(const Diagnostic& d) {
  const std::string file = printable(d.file);
  std::string out = d.line == 0 ? fmt::format("{}: {}\n", file, printable(d.message))
                                : fmt::format("{}:{}:{}: {}\n", file, d.line, d.column, printable(d.message));
  if (d.line != 0 && !d.source_line.empty()) {
    constexpr std::size_t before = 40, most = 100;  // code points kept around the place on a very long line
    std::vector<std::string> points;
    for (std::string_view rest = d.source_line; !rest.empty();) {
      const Point p = first_point(rest);
      points.push_back(printable(rest.substr(0, p.bytes)));
      rest.remove_prefix(p.bytes);
    }
    const std::size_t at = std::min<std::size_t>(d.column < d.source_from ? 0 : d.column - d.source_from, points.size());
    const std::size_t from = at > before && points.size() > most ? at - before : 0;
    const std::size_t to = std::min(points.size(), from + most);
    std::string line, caret;
    for (std::size_t i = from; i < to; ++i) {
      line += points[i];
      const std::size_t cells = display_width(points[i]);
      if (i < at) caret.append(cells, ' ');
      else if (i < at + std::max<std::uint32_t>(1, d.length)) caret.append(cells, '^');
    }
    if (!caret.ends_with('^')) caret += '^';  // past the end, or a span of combining marks alone
    const bool cut = from > 0 || d.source_from > 1;
    out += fmt::format("  {}{}\n  {}{}\n", cut ? "... " : "", line, cut ? "    " : "", caret);
  }
  if (!d.note.empty()) out += fmt::format("  note: {}\n", printable(d.note));
  return out;
}

}  // namespace pullproof
