// How close each check is to its limit, as bars.
#include <algorithm>
#include <cmath>

#include "draw/common.hpp"
#include "draw/figures.hpp"
#include "draw/lettering.hpp"
#include "draw/pen.hpp"

namespace pullproof::draw {
namespace {

constexpr std::size_t most_rows = 18;  ///< bars of one drawing, so that it stays within a printed page
constexpr double limit_at = 168;       ///< where a bar reaches its limit
constexpr double bar_height = 5;

Ink ink_of(Verdict v) { return v == Verdict::fail ? Ink::bad : v == Verdict::advice ? Ink::warn : Ink::good; }

std::string percent_text(const Finding& f) { return fmt::format("{}%", brief_number(*f.used * 100, 100)); }

void row(Pen& pen, const Report& report, const Finding& f, Drawing& d) {
  const std::string percent = percent_text(f);
  const double base = pen.y + ascent * text_size, room = column - text_width(percent, text_size, true) - 6;
  const bool bad = f.verdict == Verdict::fail;
  if (bad) pen.cross({0, base}, text_size);
  const double left = bad ? 12 : 0;
  pen.label({column, base}, percent, column, {.strong = true}, Anchor::end);
  pen.paragraph(left, room, f.title, {.most = 2});
  pen.label({0, pen.y + ascent * small_size}, f.subject, column, {.size = small_size, .ink = Ink::faint});
  pen.space(leading * small_size + 1);
  const double length = limit_at * *f.used, most = column - 6;
  const bool beyond = length > most;
  pen.add(Rectangle{{0.5, pen.y}, std::max(0.4, std::min(length, most) - 0.5), bar_height, 0, {ink_of(f.verdict), 0.5}, f.verdict == Verdict::advice ? Ink::paper : ink_of(f.verdict)});
  if (beyond)  // it goes on
    pen.add(Polyline{{{most, pen.y}, {most + 5, pen.y + bar_height / 2}, {most, pen.y + bar_height}}, true, {ink_of(f.verdict), 0.5}, f.verdict == Verdict::advice ? Ink::paper : ink_of(f.verdict)});
  pen.line({limit_at, pen.y - 2}, {limit_at, pen.y + bar_height + 2}, {Ink::ink, 1.2});
  pen.space(bar_height + 7);
  const auto& steps = report.sheets[f.sheet].working.steps();
  d.description += fmt::format("{}, {}: {} of the limit, {}", f.title, f.subject, percent, name(f.verdict));
  if (f.demand != no_step && f.limit != no_step) d.description += fmt::format(" ({} against {})", shown(steps[f.demand]), shown(steps[f.limit]));
  d.description += ". ";
}

Drawing drawing(const Report& report, const std::vector<const Finding*>& rows, std::size_t first, std::size_t count) {
  Drawing d;
  const bool all = rows.size() == count;
  d.title = all ? "How much of its limit each check takes" : fmt::format("How much of its limit each check takes, {} to {} of {}", first + 1, first + count, rows.size());
  Pen pen(d);
  pen.paragraph(0, column, d.title, {.size = head_size, .strong = true, .most = 2});
  pen.paragraph(0, column, "The upright line is the limit; a bar that passes it is over. Outlined bars are advice.", {.size = small_size, .ink = Ink::faint, .most = 3});
  pen.space(6);
  for (std::size_t i = first; i < first + count; ++i) row(pen, report, *rows[i], d);
  pen.finish();
  return d;
}

}  // namespace

Figures margins(const Report& report) {
  std::vector<const Finding*> rows;
  for (const Finding& f : report.findings)
    if (f.used && std::isfinite(*f.used) && f.verdict != Verdict::not_applicable) rows.push_back(&f);
  std::stable_sort(rows.begin(), rows.end(), [](const Finding* a, const Finding* b) { return *a->used > *b->used; });
  Figures out;
  const std::size_t drawings = (rows.size() + most_rows - 1) / most_rows;
  for (std::size_t i = 0, first = 0; i < drawings; ++i) {  // about as many in each
    const std::size_t count = (rows.size() - first + drawings - i - 1) / (drawings - i);
    out.drawings.push_back(drawing(report, rows, first, count));
    first += count;
  }
  if (rows.empty()) out.missing.push_back({"how much of its limit each check takes", "no check compares two numbers here"});
  return out;
}

}  // namespace pullproof::draw
