#include "derive/fill.hpp"

#include <algorithm>
#include <cmath>

#include "calc/fill.hpp"

namespace pullproof::derive {
namespace {

/// One kind of wire to look up. `key` is the table of the case that it is described in, for asking.
struct Wanted {
  std::string_view what, key;
  Given<ConductorSize> size;
  std::string_view type;
  bool fixture = false, bare = false, compact = false;
  std::optional<bool> covering;
  Given<Length> diameter;
};

/// Area and diameter of one conductor or cable.
struct Measure {
  Traced<Area> area;
  Length diameter{};
  std::string_view group;
};

Measure from_diameter(Context& cx, const Given<Length>& d, std::string_view what, const Citation& cite) {
  const auto given = cx.given(cx.text("outside diameter of one, {}", what), "d", d, units::inch);
  return {cx.apply(calc::circle, units::square_inch, cite, given), d.value, {}};
}

/// Bare wire has the area of its metal. Stranded wire is the larger, and the case does not say which it is.
Measure bare_wire(Context& cx, const Wanted& w) {
  const std::string_view size = w.size->label();
  if (w.compact) {
    const auto t = cx.table("compact-conductors");
    const auto row = t.find(size);
    const auto d = row ? cx.cell(t, *row, "diameter", cx.text("diameter of bare compact {}", size), "d", units::inch) : std::nullopt;
    if (!d) cx.needs_input(cx.text("{}.diameter", w.key), cx.text("{} has no compact bare {}", t.clause(), size));
    return {cx.apply(calc::circle, units::square_inch, cx.cite("fill-bare"), *d), d->value, {}};
  }
  const auto t = cx.table("conductor-properties");
  const auto stranded = t.find(size, "stranded");
  const std::size_t row = stranded ? *stranded : cx.row(t, size, "solid");
  const auto area = cx.cell(t, row, "area", cx.text("area of one bare {}, stranded", size), "A1", units::square_inch);
  const auto d = t.cell(row, "diameter").number();
  if (!area || !d) cx.not_covered(cx.text("{} has no area of bare {}", t.clause(), size), cx.edition().cite(t));
  return {*area, units::inch.of(*d), {}};
}

Measure wire(Context& cx, const Wanted& w) {
  if (w.diameter) return from_diameter(cx, w.diameter, w.what, cx.cite("fill-actual"));
  cx.need(w.size, cx.text("{}.size", w.key), cx.text("{}: it decides their area", w.what));
  if (w.bare) return bare_wire(cx, w);
  if (w.type.empty()) cx.needs_input(cx.text("{}.type", w.key), cx.text("{}: the insulation is most of their area", w.what));
  const auto types = cx.table(w.fixture ? "fixture-wire" : "insulation");
  std::string_view group = types.cell(cx.row(types, w.type), w.compact ? "compact" : "dimensions").text();
  const auto t = cx.table(w.compact ? "compact-dimensions" : "conductor-dimensions");
  const std::string_view size = w.size->label();
  // A type made with and without an outer covering has two groups, the one without marked by an asterisk.
  if (const std::string_view uncovered = cx.text("{}*", group); !group.empty() && t.find(uncovered, size)) {
    if (!w.covering)
      cx.assume("outer covering", cx.text("{}: whether {} has an outer covering is not given, taken with it, the larger", w.what, w.type));
    else if (!*w.covering)
      group = uncovered;
  }
  const auto row = group.empty() ? std::nullopt : t.find(group, size);
  const std::string_view made = w.compact ? cx.text("compact {} {}", size, w.type) : cx.text("{} {}", size, w.type);
  if (!row) cx.needs_input(cx.text("{}.diameter", w.key), cx.text("{} does not list {}", t.clause(), made));
  const auto area = cx.cell(t, *row, "area", cx.text("area of one {}", made), "A1", units::square_inch);
  const auto d = t.cell(*row, "diameter").number();
  if (!area || !d) cx.needs_input(cx.text("{}.diameter", w.key), cx.text("{} does not list {}", t.clause(), made));
  return {*area, units::inch.of(*d), group};
}

class Collector {
 public:
  Collector(Context& cx, const Raceway& r) : cx_(cx), r_(r) {}

  Contents run() {
    for (const Circuit& c : cx_.job().circuits)
      for (const Stretch& s : c.path)
        if (s.raceway == &r_) circuit(c, s);
    for (const Other& o : r_.also) other(o);
    for (const Cable& k : cx_.job().cables)
      if (k.inside && *k.inside == *r_.name) cable(k);
    for (const Control& c : cx_.job().controls)
      for (const Stretch& s : c.path)
        if (s.raceway == &r_) control(c);
    for (const Content& p : out_.parts) out_.count += p.count.value;
    const auto same = [&](const Content& p) {
      return std::abs(raw(p.area.value) - raw(out_.parts.front().area.value)) <= slack * raw(p.area.value);
    };
    out_.alike = !out_.parts.empty() && std::all_of(out_.parts.begin(), out_.parts.end(), same);
    return std::move(out_);
  }

 private:
  Content& put(Part part, std::string_view owner, std::string_view what, double count, std::string_view how, const Measure& m) {
    Content& p = out_.parts.emplace_back();
    p.part = part;
    p.owner = owner;
    p.count = cx_.working().choice(what, "n", count, units::count, how, {});
    p.area = m.area;
    p.diameter = m.diameter;
    p.group = m.group;
    return p;
  }

  void circuit(const Circuit& c, const Stretch& s) {
    const Line line = line_of(cx_, c);
    Context quiet = cx_.scratch();  // what is assumed there, the metal, does not matter here
    const Conductors k = conductors_on(quiet, c, s);
    Wanted w{cx_.text("conductors of '{}'", *c.name), "wire", k.size, k.type, k.fixture, false, k.compact, k.covering, k.diameter};
    const double neutrals = line.dc ? 0 : line.neutral ? 1 : 0;
    const int lines = line.conductors() - static_cast<int>(neutrals);
    const std::string_view set = cx_.text("{} {}{}", lines, line.dc ? "for direct current" : "ungrounded", neutrals > 0 ? ", 1 neutral" : "");
    const double sets = sets_in_one(cx_, c, s);
    const std::string_view how = k.sets > 1 ? cx_.text("{}, times {} in parallel", set, number_text(sets, 0)) : set;
    Content& p = put(Part::circuit, *c.name, w.what, line.conductors() * sets, how, wire(cx_, w));
    p.neutrals = neutrals * sets;
    p.type = k.type;
    p.size = k.size;
    ground(c, s, k);
  }

  void ground(const Circuit& c, const Stretch& s, const Conductors& k) {
    Context quiet = cx_.scratch();
    const GroundOn g = ground_on(quiet, c, s);
    if (g.shared != nullptr) return;  // counted with the circuit that it belongs to
    if (!g.wire && !g.raceway)
      cx_.needs_input("ground.size", cx_.text("'{}': a grounding wire fills the raceway too; say kind = \"raceway\" where the raceway does it", *c.name));
    if (!g.wire) return;
    Wanted w{cx_.text("grounding wire of '{}'", *c.name), "ground", g.size, g.type, false, g.bare, g.compact, k.covering, g.diameter};
    if (w.type.empty() && !w.bare && !w.diameter && !k.type.empty()) {
      w.type = k.type;
      w.fixture = k.fixture;
      cx_.assume("ground.type", cx_.text("ground.type of '{}' is not given: taken as {}, as its wire", *c.name, k.type));
    }
    Content& p = put(Part::ground, *c.name, w.what, 1, "counts like any other", wire(cx_, w));
    p.type = w.bare ? "bare" : w.type;
    p.size = g.size;
  }

  void other(const Other& o) {
    Wanted w{"other conductors", "raceway.also", o.size, o.type.value_or({}), false, o.bare.value_or(false), o.compact.value_or(false), {}, o.diameter};
    const double count = cx_.need(o.count, "raceway.also.count", "how many there are");
    if (o.cable.value_or(false)) {
      cx_.need(o.diameter, "raceway.also.diameter", "a cable counts as one conductor of its outside diameter");
      put(Part::cable, {}, "other cables", count, "each counts as one conductor", from_diameter(cx_, o.diameter, "other cables", cx_.cite("fill-cable")));
      return;
    }
    if (const auto t = cx_.edition().table("fixture-wire"); t && o.type) w.fixture = t->find(*o.type).has_value();
    Content& p = put(Part::other, {}, w.what, count, "as given", wire(cx_, w));
    p.type = w.bare ? "bare" : w.type;
    p.size = o.size;
  }

  void cable(const Cable& k) {
    const std::string_view what = cx_.text("cable '{}'", *k.name);
    cx_.need(k.diameter, "cable.diameter", cx_.text("'{}' counts as one conductor of its outside diameter, of a flat one the larger", *k.name));
    double count = 1;
    for (const Circuit& c : cx_.job().circuits)
      for (const Stretch& s : c.path)
        if (s.cable == &k) count = sets_in_one(cx_, c, s);
    put(Part::cable, *k.name, what, count, "counts as one conductor", from_diameter(cx_, k.diameter, what, cx_.cite("fill-cable")));
  }

  /// A control cable; or, of a Class 1 run in building or fixture wire, so many conductors.
  void control(const Control& c) {
    const ControlCable& k = c.cable;
    const auto known = [&](std::string_view table) {
      const auto t = cx_.edition().table(table);
      return k.type && t && t->find(*k.type);
    };
    if (known("insulation") || known("fixture-wire")) {
      const double count = cx_.need(k.conductors, "control.cable.conductors", cx_.text("'{}': how many conductors run", *c.name));
      const Wanted w{cx_.text("conductors of '{}'", *c.name), "control.cable", k.size, *k.type, known("fixture-wire"), false, false, {}, k.diameter};
      Content& p = put(Part::control, *c.name, w.what, count, "as given", wire(cx_, w));
      p.type = w.type;
      p.size = w.size;
      return;
    }
    const std::string_view what = cx_.text("control cable '{}'", *c.name);
    cx_.need(c.cable.diameter, "control.cable.diameter", cx_.text("'{}' counts as one conductor of its outside diameter", *c.name));
    put(Part::control, *c.name, what, 1, "counts as one conductor", from_diameter(cx_, c.cable.diameter, what, cx_.cite("fill-cable")));
  }

  Context& cx_;
  const Raceway& r_;
  Contents out_;
};

}  // namespace

Contents contents_of(Context& cx, const Raceway& r) { return Collector(cx, r).run(); }

Traced<Length> inside_of(Context& cx, const Raceway& r) {
  if (r.inside_diameter) return cx.given("inside diameter, by the maker", "D", r.inside_diameter, units::inch);
  cx.need(r.type, "raceway.type", "it decides the inside diameter");
  cx.need(r.size, "raceway.size", "it decides the inside diameter");
  const auto t = cx.table("raceway-dimensions");
  const std::size_t row = cx.row(t, *r.type, r.size->label());
  const auto d = cx.cell(t, row, "inside", cx.text("inside diameter of {} {}", r.size->label(), *r.type), "D", units::inch);
  if (!d) cx.not_covered(cx.text("{} has no inside diameter of {} {}", t.clause(), r.size->label(), *r.type), cx.edition().cite(t));
  return *d;
}

bool is_fill_nipple(Context& cx, const Raceway& r) {
  if (!r.nipple.value_or(false)) return false;
  cx.need(r.length, "raceway.length", "a nipple is short");
  return at_most(*r.length, cx.parameter("fill-nipple", "length", units::inch));
}

Fill fill_of(Context& cx, const Contents& contents, const Traced<Length>& inside, bool nipple) {
  Fill out;
  Working& w = cx.working();
  const Citation cite = cx.cite("fill");
  for (const Content& p : contents.parts) {
    if (out.used.step == no_step) {
      out.used = cx.apply(calc::first_area, units::square_inch, cite, p.count, p.area);
    } else {
      w.rename(out.used.step, "area so far", "Ab");
      out.used = cx.apply(calc::next_area, units::square_inch, cite, out.used, p.count, p.area);
    }
  }
  const auto room = cx.apply(calc::bore, units::square_inch, {}, inside);
  out.share = cx.apply(calc::share, units::percent, {}, out.used, room);
  out.count = w.choice("conductors in the raceway", "n", contents.count, units::count, "all of them, a cable as one", cite);
  if (nipple) {
    out.percent = cx.parameter("fill-nipple", "percent", "allowed share of a short raceway between enclosures", "p", units::percent);
  } else {
    const auto t = cx.table("fill-percent");
    const auto row = t.band("through", contents.count);
    const auto p = row ? cx.cell(t, *row, "percent", "allowed share for this number", "p", units::percent) : std::nullopt;
    if (!p) cx.not_covered("no share is given for this number of conductors", cx.edition().cite(t));
    w.because_of(out.count.step);
    out.percent = *p;
  }
  out.allowed = cx.apply(calc::allowed_fill, units::square_inch, cite, out.percent, room);
  if (contents.alike) {
    const auto q = cx.apply(calc::quotient, units::ratio, {}, out.allowed, contents.parts.front().area);
    const auto r = cx.parameter("fill-same-size", "round", "decimal part that counts as one more", "r", units::ratio);
    out.most = cx.apply(calc::most_alike, units::count, cx.cite("fill-same-size"), q, r);
    w.because_of(out.used.step);
  }
  w.because_of(out.share.step);
  out.good = out.most ? at_most(out.count.value, out.most->value) : at_most(out.used.value, out.allowed.value);
  return out;
}

std::optional<std::string_view> smallest_size(const Context& cx, const Contents& contents, std::string_view type, bool nipple) {
  Context quiet = cx.scratch();
  const auto types = quiet.table("raceway-types");
  const std::size_t type_row = quiet.row(types, type);
  const auto least = TradeSize::parse(types.cell(type_row, "smallest").text());
  const auto most = TradeSize::parse(types.cell(type_row, "largest").text());
  const auto small = quiet.has_rule("flex-small") ? TradeSize::parse(quiet.parameter_text("flex-small", "size")) : std::nullopt;
  const auto t = quiet.table("raceway-dimensions");
  for (std::size_t row = 0; row < t.rows(); ++row) {
    if (t.cell(row, "type").text() != type) continue;
    const std::string_view label = t.cell(row, "size").text();
    const auto size = TradeSize::parse(label);
    if (!size || (least && *size < *least) || (most && *size > *most) || (small && *size == *small)) continue;
    const auto inside = quiet.cell(t, row, "inside", "inside diameter", "D", units::inch);
    if (inside && fill_of(quiet, contents, *inside, nipple).good) return label;
  }
  return std::nullopt;
}

std::optional<int> count_that_fits(const code::Edition& edition, std::string_view raceway_type, std::string_view trade_size,
                                   std::string_view group, std::string_view conductor_size) {
  const auto raceways = edition.table("raceway-dimensions"), conductors = edition.table("conductor-dimensions");
  const auto percents = edition.table("fill-percent");
  const auto rounding = edition.rule("fill-same-size");
  if (!raceways || !conductors || !percents || !rounding) return std::nullopt;
  const auto raceway = raceways->find(raceway_type, trade_size), conductor = conductors->find(group, conductor_size);
  if (!raceway || !conductor) return std::nullopt;
  const auto inside = raceways->cell(*raceway, "inside").number(), one = conductors->cell(*conductor, "area").number();
  const auto round = (*rounding)["round"].number();
  if (!inside || !one || !round) return std::nullopt;
  const Area room = calc::bore.apply(units::inch.of(*inside));
  // From the band of many down to that of one: what a band holds counts only if it is in that band.
  for (std::size_t row = percents->rows(); row-- > 0;) {
    const double percent = percents->cell(row, "percent").number().value_or(0) / 100;
    const double below = row == 0 ? 0 : percents->cell(row - 1, "through").number().value_or(0);
    const double through = percents->cell(row, "through").number().value_or(0);
    const double q = calc::quotient.apply(calc::allowed_fill.apply(percent, room), units::square_inch.of(*one));
    const double most = std::min(calc::most_alike.apply(q, *round), through);
    if (most > below) return static_cast<int>(most);
  }
  return 0;
}

}  // namespace pullproof::derive
