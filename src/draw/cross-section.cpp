// Cross-sections of raceways: to scale, with what lies in them.
#include <algorithm>
#include <cmath>

#include "derive/fill.hpp"
#include "draw/common.hpp"
#include "draw/figures.hpp"
#include "draw/lettering.hpp"
#include "draw/packing.hpp"
#include "draw/pen.hpp"

namespace pullproof::draw {
namespace {

constexpr double points_per_inch = 72;
constexpr double widest_ring = 156;          ///< of a raceway on paper, in points
constexpr std::size_t most_circles = 100;    ///< more are a grey mass, and take long to lay
constexpr double key_left = 40;              ///< where the text of the key begins

/// How a conductor is filled, so that it is known without colour.
enum class Look : std::uint8_t { live, neutral, ground, control, other };

Ink ink_of(Look look) {
  switch (look) {
    case Look::live: return Ink::live;
    case Look::neutral: return Ink::neutral;
    case Look::ground: return Ink::earth;
    case Look::control: return Ink::control;
    case Look::other: return Ink::other;
  }
  return Ink::other;
}

/// A conductor: its circle, a pattern for its kind, and the number of its line in the key where that fits.
void conductor(Pen& pen, Point at, double radius, Look look, std::size_t number) {
  const Circle whole{at, radius - 0.3, {Ink::ink, 0.6}, ink_of(look)};
  pen.add(whole);
  if (look == Look::ground) hatch(pen, {at, radius - 0.6, {}, Ink::none}, 3.2, {Ink::ink, 0.5});
  if (look == Look::control) pen.add(Circle{at, std::max(radius - 2.2, radius * 0.7), {Ink::ink, 0.6, Dash::dotted}, Ink::none});
  if (look == Look::other) {
    const double half = (radius - 0.6) * std::sqrt(0.5);
    pen.line({at.x - half, at.y - half}, {at.x + half, at.y - half}, {Ink::ink, 0.5});
    pen.line({at.x - half, at.y + half}, {at.x + half, at.y + half}, {Ink::ink, 0.5});
  }
  const std::string text = number_text(static_cast<double>(number), 0);
  const double half = text_width(text, smallest_text, true) / 2, cap = 0.36 * smallest_text;
  if (std::hypot(half, cap) > radius - 1) return;
  if (look == Look::ground) pen.add(Circle{at, std::min(radius - 1, std::hypot(half, cap) + 0.8), {Ink::none}, Ink::earth});
  pen.add(Text{{at.x, at.y + cap}, text, smallest_text, Anchor::middle, true});
}

/// A line of the key: conductors of one owner and size.
struct Entry {
  std::vector<Look> looks;  ///< one for each kind in it
  std::string text;
};

struct Round {
  double inches = 0;  ///< across
  Look look = Look::live;
  std::size_t entry = 0;
};

std::string described(const derive::Content& p) {
  std::string s;
  if (p.size) s += std::string(p.size->label());
  if (!p.type.empty()) s += (s.empty() ? "" : " ") + std::string(p.type);
  return s.empty() ? fmt::format("{} in across", number_text(units::inch.show(p.diameter), 3)) : s;
}

std::string parts_of(const derive::Content& p) {
  const double lines = p.count.value - p.neutrals;
  return p.neutrals > 0 ? fmt::format("{} ungrounded, {}", number_text(lines, 0), counted(p.neutrals, "neutral"))
                        : fmt::format("{} ungrounded", number_text(lines, 0));
}

Entry entry_of(const derive::Content& p) {
  const std::string owner(p.owner), n = number_text(p.count.value, 0), made = described(p);
  switch (p.part) {
    case derive::Part::circuit: {
      Entry e{{Look::live}, fmt::format("{}: {}, {}", owner, made, parts_of(p))};
      if (p.neutrals > 0) e.looks.push_back(Look::neutral);
      return e;
    }
    case derive::Part::ground: return {{Look::ground}, fmt::format("{}: {}, grounding", owner, made)};
    case derive::Part::control: return {{Look::control}, p.type.empty() ? fmt::format("{}: control cable, {}", owner, made) : fmt::format("{}: {} control conductors, {}", owner, n, made)};
    case derive::Part::cable:
      return owner.empty() ? Entry{{Look::other}, fmt::format("{} of other wiring, {}", counted(p.count.value, "cable"), made)}
                           : Entry{{Look::other}, fmt::format("cable {}, {}", owner, made)};
    case derive::Part::other: return {{Look::other}, fmt::format("{} of other wiring, {}", counted(p.count.value, "conductor"), made)};
  }
  return {};
}

/// The scale of the drawing, of those that people use, that fits `inches` into the ring.
double scale_for(double inches) {
  constexpr double all[] = {10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 0.75, 0.5, 0.4, 0.3, 0.25, 0.2, 0.1};
  for (const double s : all)
    if (inches * s * points_per_inch <= widest_ring) return s;
  return widest_ring / (inches * points_per_inch);
}
std::string scale_text(double s) {
  return s >= 1 ? fmt::format("{} : 1", number_text(s, 2)) : fmt::format("1 : {}", number_text(1 / s, 2));
}

/// A bar as long as a round part of an inch, so that the scale holds on a screen of any size.
void scale_bar(Pen& pen, Point right_end, double scale) {
  constexpr std::pair<double, std::string_view> all[] = {{0.125, "1/8 in"}, {0.25, "1/4 in"}, {0.5, "1/2 in"}, {1, "1 in"}, {2, "2 in"}, {4, "4 in"}};
  std::pair<double, std::string_view> best = all[0];
  constexpr double longest = 58;
  for (const auto& [inches, text] : all)
    if (inches * scale * points_per_inch <= longest) best = {inches, text};
  const double length = best.first * scale * points_per_inch;
  const Point left{right_end.x - length, right_end.y};
  pen.line(left, right_end, {Ink::ink, 1});
  for (const Point p : {left, right_end}) pen.line({p.x, p.y - 3}, {p.x, p.y + 3}, {Ink::ink, 1});
  pen.add(Text{{right_end.x, right_end.y - 5}, std::string(best.second), small_size, Anchor::end});
}

/// Area in use against the area that may be used, as a bar.
void fill_bar(Pen& pen, double used, double allowed, const std::string& used_text, const std::string& allowed_text) {
  const double left = 0.5, width = column - 1, height = 7;
  const double whole = std::max({1.0, used, allowed});
  pen.paragraph(0, column, used_text);
  pen.space(2);
  pen.add(Rectangle{{left, pen.y}, width, height, 0, {Ink::faint, 0.5}, Ink::paper});
  if (used > 0) pen.add(Rectangle{{left, pen.y}, width * used / whole, height, 0, {Ink::ink, 0.5}, used > allowed * (1 + slack) ? Ink::bad : Ink::faint});
  const double limit = left + width * allowed / whole;
  pen.line({limit, pen.y - 2}, {limit, pen.y + height + 3}, {Ink::ink, 1.4});
  pen.space(height + 4);
  const double w = text_width(allowed_text, text_size);
  pen.label({std::clamp(limit - w / 2, 0.0, std::max(0.0, column - w)), pen.y + ascent * text_size}, allowed_text, column);
  pen.space(leading * text_size);
}

/// What lies in the raceway, one circle each, and the key to it.
struct Inside {
  std::vector<Round> rounds;
  std::vector<Entry> entries;
};

Inside inside_of(const derive::Contents& contents) {
  Inside out;
  for (const derive::Content& p : contents.parts) {
    Entry e = entry_of(p);
    const double inches = units::inch.show(p.diameter);
    for (double n = 0; n < p.count.value; ++n)
      out.rounds.push_back({inches, n < p.count.value - p.neutrals ? e.looks.front() : Look::neutral, out.entries.size()});
    out.entries.push_back(std::move(e));
  }
  return out;
}

/// The ring and the circles in it; returns how many found no room.
std::size_t ring(Pen& pen, const Inside& in, double inside, std::optional<double> outside, double scale) {
  const double points = scale * points_per_inch, outer = outside.value_or(inside) * points / 2, inner = inside * points / 2;
  const Point middle{column / 2, pen.y + outer + 1};
  if (outside) pen.add(Circle{middle, outer, {Ink::ink, 0.75}, Ink::panel});
  pen.add(Circle{middle, inner, {Ink::ink, outside ? 0.75 : 1.5}, Ink::paper});
  std::vector<double> radii;
  for (const Round& r : in.rounds) radii.push_back(r.inches * points / 2);
  const Packed packed = pack(radii, inner);
  std::size_t left_over = 0;
  for (std::size_t i = 0; i < in.rounds.size(); ++i) {
    const Point c{middle.x + packed.centres[i].x, middle.y + packed.centres[i].y};
    if (packed.inside[i]) conductor(pen, c, radii[i], in.rounds[i].look, in.rounds[i].entry + 1);
    else ++left_over;
  }
  pen.y = middle.y + outer + 1;
  scale_bar(pen, {column - 1, pen.y - 4}, scale);
  return left_over;
}

void key(Pen& pen, const std::vector<Entry>& entries) {
  for (std::size_t i = 0; i < entries.size(); ++i) {
    const double radius = 6.5, top = pen.y;
    for (std::size_t k = 0; k < entries[i].looks.size(); ++k)
      conductor(pen, {radius + 1 + static_cast<double>(k) * (2 * radius + 3), top + radius + 0.5}, radius, entries[i].looks[k], i + 1);
    pen.space(1.5);
    pen.paragraph(key_left, column, entries[i].text, {.most = 3});
    pen.y = std::max(pen.y, top + 2 * radius + 1) + 2;
  }
}

std::string called(const Raceway& r) {
  std::string s = r.type ? std::string(*r.type) : std::string("raceway");
  return r.size ? fmt::format("{} {}", s, r.size->label()) : s;
}

/// The outside diameter in inches, where the table has it.
std::optional<double> outside_of(const Context& cx, const Raceway& r) {
  if (r.inside_diameter || !r.type || !r.size) return std::nullopt;
  const auto t = cx.edition().table("raceway-dimensions");
  const auto row = t ? t->find(*r.type, r.size->label()) : std::nullopt;
  if (!row || !t->has_column("outside")) return std::nullopt;
  return t->cell(*row, "outside").number();
}

std::string description_of(const Drawing& d, const Inside& in, double scale) {
  std::string s = fmt::format("{}, drawn {} on paper. ", d.title, scale_text(scale));
  for (const Entry& e : in.entries) s += e.text + ". ";
  return s;
}

class Section {
 public:
  Section(const Report& report, const Case& job, const code::Edition& edition, const Raceway& r) : report_(report), aside_(job, edition), r_(r) {}

  /// Nothing in it: no drawing. Throws Stop.
  std::optional<Drawing> draw() {
    const derive::Contents contents = derive::contents_of(aside_.cx, r_);
    if (contents.parts.empty()) return std::nullopt;
    if (contents.count > most_circles) aside_.cx.not_covered(aside_.cx.text("it holds {}, too many to draw", counted(contents.count, "conductor")));
    const auto bore = derive::inside_of(aside_.cx, r_);
    const double inside = units::inch.show(bore.value);
    const auto outside = outside_of(aside_.cx, r_);
    const double scale = scale_for(outside.value_or(inside));
    const Inside in = inside_of(contents);
    Drawing d;
    d.title = fmt::format("Cross-section of raceway {}, {}", *r_.name, called(r_));
    d.description = description_of(d, in, scale);
    Pen pen(d);
    pen.paragraph(0, column, fmt::format("{}, {}", *r_.name, called(r_)), {.size = head_size, .strong = true, .most = 2});
    pen.paragraph(0, column, fmt::format("{} inside, drawn {}", aside_.shown(bore.step), scale_text(scale)), {.size = small_size, .ink = Ink::faint});
    pen.space(4);
    const std::size_t left_over = ring(pen, in, inside, outside, scale);
    pen.space(6);
    if (left_over > 0) note_left_over(pen, d, left_over);
    key(pen, in.entries);
    pen.space(4);
    fill(pen, d, contents, bore);
    pen.finish();
    return d;
  }

 private:
  static void note_left_over(Pen& pen, Drawing& d, std::size_t n) {
    const std::string text = fmt::format("{} of them could not be laid in and {} not shown", n, n == 1 ? "is" : "are");
    pen.cross({0, pen.y + ascent * text_size}, text_size);
    pen.paragraph(13, column, text, {.ink = Ink::bad});
    pen.space(3);
    d.description += text + ". ";
  }

  void fill(Pen& pen, Drawing& d, const derive::Contents& contents, const Traced<Length>& bore) {
    const auto why = stopped_by([&] {
      const derive::Fill f = derive::fill_of(aside_.cx, contents, bore, derive::is_fill_nipple(aside_.cx, r_));
      const std::string used = fmt::format("{} in use, {} of the inside", aside_.shown(f.used.step), aside_.shown(f.share.step));
      const std::string allowed = fmt::format("{} may be filled, {}", aside_.shown(f.allowed.step), aside_.shown(f.percent.step));
      fill_bar(pen, f.share.value, f.percent.value, used, allowed);
      d.description += fmt::format("{}; {}. ", used, allowed);
    });
    if (why) pen.paragraph(0, column, *why, {.size = small_size, .ink = Ink::faint});
    for (const Finding* f : about(report_, "raceway", *r_.name, "raceway-fill")) {
      const bool bad = f->verdict == Verdict::fail;
      pen.space(3);
      if (bad) pen.cross({0, pen.y + ascent * small_size}, small_size);
      pen.paragraph(bad ? 12 : 0, column, f->message, {.size = small_size, .ink = bad ? Ink::bad : Ink::faint});
      d.description += fmt::format("Raceway fill, {}: {}. ", name(f->verdict), f->message);
    }
  }

  const Report& report_;
  Aside aside_;
  const Raceway& r_;
};

}  // namespace

Figures cross_sections(const Report& report, const Case& job, const code::Edition& edition) {
  Figures out;
  for (const Raceway& r : job.raceways) {
    Section section(report, job, edition, r);  // owns what a Stop says
    const auto why = stopped_by([&] {
      if (auto d = section.draw()) out.drawings.push_back(std::move(*d));
    });
    if (why) out.missing.push_back({fmt::format("cross-section of raceway {}", *r.name), *why});
  }
  return out;
}

}  // namespace pullproof::draw
