#include "derive/factors.hpp"

#include <fmt/format.h>

#include <cmath>

#include "calc/ampacity.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

inline constexpr Unit<double> fahrenheit{"°F", 1, 2};

/// The air at a stretch, in the unit of the case, so that the band of the table is the printed one.
struct Ambient {
  double value = 30;
  bool in_fahrenheit = false;
  StepId step = no_step;
};

/// The parts of a raceway or a cable that say what surrounds it.
struct Around {
  const Given<Temperature>* ambient;
  const Given<Length>* above_roof;
  const Given<Place>* place;
  std::string_view kind;
};
Around around(const Raceway& r) { return {&r.ambient, &r.above_roof, &r.place, "raceway"}; }
Around around(const Cable& k) { return {&k.ambient, &k.above_roof, &k.place, "cable"}; }

/// Reading °F and going back leaves noise that must not push a value over the edge of its band.
double clean(double degrees) { return std::round(degrees * 1e6) / 1e6; }

Ambient ambient_at(Context& cx, const Stretch& s, std::string_view insulation) {
  // A cable in a raceway is as hot as the hotter of the two, and on the roof where the raceway is.
  const Raceway* raceway = raceway_around(cx, s);
  const Around outer = raceway != nullptr ? around(*raceway) : around(*s.cable);
  const Given<Temperature>* given = outer.ambient;
  if (s.cable != nullptr && s.cable->ambient && (!*given || s.cable->ambient->celsius > (*given)->celsius)) given = &s.cable->ambient;
  const auto in = [&](Place::Word w) {
    return (*outer.place && (*outer.place)->has(w)) || (place_of(s) && place_of(s)->has(w));
  };
  const bool roof = in(Place::rooftop);
  if (!*given && (roof || in(Place::attic)))
    cx.needs_input(cx.text("{}.ambient", outer.kind), cx.text("{} is hotter than the ambient that the table is for", roof ? "a roof" : "an attic"));
  Ambient out;
  Traced<Temperature> t;
  if (*given) {
    t = cx.given("ambient temperature", "T", *given, units::celsius);
    out.in_fahrenheit = given->text.ends_with("F");
  } else {
    const Temperature reference = cx.parameter("ambient-correction", "reference", units::celsius);
    t = cx.assume("ambient temperature", "T", reference, units::celsius,
                  cx.text("the ambient of '{}' is not given: taken as {} °C", name_of(s), number_text(reference.celsius, 1)),
                  cx.cite("ambient-correction"));
  }
  out.value = clean(out.in_fahrenheit ? t.value.celsius * 9 / 5 + 32 : t.value.celsius);
  out.step = t.step;
  if (!roof) return out;
  const auto plain = [&](std::string_view why) {
    cx.choose("roof", why, cx.cite("rooftop"), {out.step});
    out.step = cx.working().last();
    return out;
  };
  if (cx.listed("rooftop", "exempt", insulation)) return plain(cx.text("{} takes no addition on a roof", insulation));
  cx.need(*outer.above_roof, cx.text("{}.above_roof", outer.kind), "on a roof the height above it decides the temperature");
  if (at_least(outer.above_roof->value, cx.parameter("rooftop", "clearance", units::inch)))
    return plain(cx.text("{} above the roof: nothing is added", outer.above_roof->text));
  if (out.in_fahrenheit) {
    const auto tf = cx.working().choice("ambient temperature", "T", out.value, fahrenheit, "as given", {});
    cx.working().because_of(t.step);
    const auto rise = cx.parameter("rooftop", "adder-f", "addition close above a roof, °F", "dT", units::count);
    const auto sum = cx.apply(calc::raised_ambient_f, fahrenheit, cx.cite("rooftop"), tf, rise);
    return {clean(sum.value), true, sum.step};
  }
  const auto rise = cx.parameter("rooftop", "adder-c", "addition close above a roof, K", "dT", units::count);
  const auto sum = cx.apply(calc::raised_ambient, units::celsius, cx.cite("rooftop"), t, rise);
  return {clean(sum.value.celsius), false, sum.step};
}

/// Conductors of the circuit that count on this stretch: spare ones of its cable do.
double counted_of(Context& cx, const Line& line, const Cable* k) {
  const double circuit = line.hots + (line.neutral ? 1 : 0);
  if (k == nullptr || !k->conductors || *k->conductors <= circuit) return line.counted;
  return line.counted + (*k->conductors - circuit) * cx.parameter("count-spares", "count", units::count);
}

bool is_nipple(Context& cx, const Raceway& r) {
  return r.nipple.value_or(false) && r.length && at_most(*r.length, cx.parameter("count-nipple", "length", units::inch));
}

Traced<double> one(Context& cx, std::string_view why, const Citation& cite) {
  return cx.working().choice("factor for the count", "fn", 1.0, units::factor, why, cite);
}

Traced<double> factor_for(Context& cx, double count, StepId on) {
  const auto t = cx.table("count-adjustment");
  const auto row = t.band("through", count);
  const auto f = row ? cx.cell(t, *row, "percent", "factor for the count", "fn", units::percent) : std::nullopt;
  if (!f) cx.not_covered("no factor for this count", cx.edition().cite(t));
  cx.working().because_of(on);
  return *f;
}

/// AC cable, and MC without a jacket, has leave to lie in bundles; nothing where that does not settle it.
std::optional<Traced<double>> armored_bundle(Context& cx, const Cable& k, const Conductors& wire, double each, Traced<double> all) {
  if (!cx.has_rule("count-ac-mc") || !cx.listed("count-ac-mc", "types", *k.type)) return std::nullopt;
  const auto size = ConductorSize::parse(cx.parameter_text("count-ac-mc", "size"));
  if (wire.material != Material::copper || !size || *wire.size != *size ||
      !at_most(each, cx.parameter("count-ac-mc", "conductor-count", units::count)))
    return std::nullopt;
  if (at_most(all.value, cx.parameter("count-ac-mc", "bundle-count", units::count)))
    return one(cx, cx.text("{} of this size and so few: no adjustment", *k.type), cx.cite("count-ac-mc"));
  const auto f = cx.parameter("count-ac-mc-over", "percent", "factor for the bundle", "fn", units::percent);
  cx.working().because_of(all.step);
  return f;
}

}  // namespace

bool crowded_in_insulation(const Context& cx, const Cable& k) {
  if (!k.type || !k.place || !k.place->has(Place::thermal_insulation)) return false;
  for (const std::string_view rule : {"nm-bundled", "se-interior"})
    if (cx.has_rule(rule) && cx.listed(rule, "types", *k.type))
      return k.bundled.value_or(1) > cx.parameter(rule, "count", units::count);
  return false;
}

Traced<double> ambient_factor(Context& cx, const Stretch& s, std::string_view insulation, int column) {
  const Ambient a = ambient_at(cx, s, insulation);
  const auto t = cx.table("ambient-correction");
  if (const auto row = t.band(a.in_fahrenheit ? "through-f" : "through-c", a.value))
    if (const auto f = cx.cell(t, *row, fmt::format("f-{}", column), "factor for the ambient", "fa", units::factor)) {
      cx.working().because_of(a.step);
      return *f;
    }
  cx.fails_in("ampacity",
              cx.text("at {} {} in '{}' {} °C insulation may carry no current", number_text(a.value, 1), a.in_fahrenheit ? "°F" : "°C",
                      name_of(s), column),
              column < 90 ? "use insulation of a higher temperature, or take the run away from the heat" : "take the run away from the heat",
              cx.edition().cite(t), s.where);
}

namespace {

/// Counted conductors of the circuits in a raceway, and which circuits they are of.
struct CountedCircuits {
  double total = 0;
  std::string how;
};
/// The same for all circuits in it, so counted once.
const CountedCircuits& counted_circuits(Context& cx, const Raceway& r) {
  return cx.memory().once<CountedCircuits>("counted circuits", &r, [&] {
    constexpr std::size_t most_named = 12;
    CountedCircuits out;
    std::size_t circuits = 0;
    double of_unnamed = 0;
    for (const Circuit& c : cx.job().circuits) {
      const Stretch* s = stretch_in(c, r);
      if (s == nullptr) continue;
      const double n = counted_of(cx, quiet_line(cx, c), s->cable) * sets_in_one(cx, c, *s);
      out.total += n;
      if (++circuits <= most_named) out.how += fmt::format("{}{} {}", out.how.empty() ? "" : ", ", *c.name, number_text(n, 0));
      else of_unnamed += n;
    }
    if (circuits > most_named) out.how += fmt::format(", {} more circuits {}", circuits - most_named, number_text(of_unnamed, 0));
    return out;
  });
}

}  // namespace

double counted_in(Context& cx, const Raceway& r) {
  const CountedCircuits& circuits = counted_circuits(cx, r);
  double total = circuits.total;
  std::string how = circuits.how;
  const auto add = [&](std::string_view what, double n) {
    total += n;
    how += fmt::format("{}{} {}", how.empty() ? "" : ", ", what, number_text(n, 0));
  };
  for (const Other& o : r.also) {
    if (!o.current_carrying.value_or(true) || o.bare.value_or(false)) continue;
    double each = 1;
    if (o.cable.value_or(false)) {
      each = o.conductors.value_or(3);  // common practice, no source: few power cables have more
      if (!o.conductors)
        cx.assume("other cables", cx.text("the conductors in the other cables in '{}' are not given: taken as three in each that carry current", *r.name));
    }
    add("other conductors", o.count.value_or(1) * each);
  }
  cx.working().choice("counted conductors in the raceway", "n", total, units::count, cx.texts().keep(how), cx.cite("count-adjustment"));
  return total;
}

Traced<double> count_factor(Context& cx, const Line& line, const Stretch& s, const Conductors& k) {
  if (const Raceway* r = raceway_around(cx, s)) {
    if (is_nipple(cx, *r)) return one(cx, "a short raceway between enclosures: the count does not matter", cx.cite("count-nipple"));
    const double count = counted_in(cx, *r);
    return factor_for(cx, count, cx.working().last());
  }
  const Cable& cable = *s.cable;
  const double each = counted_of(cx, line, &cable);
  if (cable.bundled.value_or(1) <= 1) {
    if (each == line.counted) return factor_for(cx, each, line.why_counted);
    const auto n = cx.working().choice("counted conductors in the cable", "n", each, units::count,
                                       cx.text("{} of the circuit and its spares", line.counted), cx.cite("count-spares"));
    return factor_for(cx, each, n.step);
  }
  const auto cables = cx.given("cables together", "b", cable.bundled, units::count);
  const auto of_one = cx.working().choice("counted conductors of one", "n1", each, units::count, "as this circuit", {});
  const auto all = cx.apply(calc::bundle_count, units::count, cx.cite("count-bundled"), cables, of_one);
  if (!crowded_in_insulation(cx, cable)) {
    if (cable.length && at_most(*cable.length, cx.parameter("count-bundled", "length", units::inch)))
      return one(cx, "together over a short length only: no adjustment", cx.cite("count-bundled"));
    if (const auto f = armored_bundle(cx, cable, k, each, all)) return *f;
  }
  return factor_for(cx, all.value, all.step);
}

}  // namespace pullproof::derive
