#include "derive/ampacity.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "calc/ampacity.hpp"
#include "derive/load.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

/// The ambient at a stretch, in the unit of the case, so that the band of the table is the printed one.
struct Ambient {
  double value = 30;
  bool fahrenheit = false;
  StepId step = no_step;
};

bool in_fahrenheit(std::string_view text) { return text.ends_with("F"); }

Ambient ambient_at(Context& cx, const Stretch& s, std::string_view type) {
  const Given<Temperature>& given = s.raceway != nullptr ? s.raceway->ambient : s.cable->ambient;
  const Given<Length>& above = s.raceway != nullptr ? s.raceway->above_roof : s.cable->above_roof;
  Ambient out;
  Traced<Temperature> t;
  if (given) {
    t = cx.given("ambient temperature", "T", given, units::celsius);
    out.fahrenheit = in_fahrenheit(given.text);
  } else {
    const Temperature reference = cx.parameter("ambient-correction", "reference", units::celsius);
    t = cx.assume("ambient temperature", "T", reference, units::celsius,
                  cx.text("the ambient of '{}' is not given: taken as {} °C", name_of(s), number_text(reference.celsius, 1)),
                  cx.cite("ambient-correction"));
  }
  out.value = out.fahrenheit ? t.value.celsius * 9 / 5 + 32 : t.value.celsius;
  out.step = t.step;
  const bool roof = place_of(s) && place_of(s)->has(Place::rooftop);
  if (!roof) return out;
  if (cx.listed("rooftop", "exempt", type)) {
    cx.choose("roof", cx.text("{} takes no addition on a roof", type), cx.cite("rooftop"));
    return out;
  }
  cx.need(above, s.raceway != nullptr ? "raceway.above_roof" : "cable.above_roof", "on a roof the height above it decides the temperature");
  const Length clearance = cx.parameter("rooftop", "clearance", units::inch);
  if (at_least(above.value, clearance)) {
    cx.choose("roof", cx.text("{} above the roof: nothing is added", above.text), cx.cite("rooftop"));
    return out;
  }
  if (out.fahrenheit) {
    const auto tf = cx.working().choice("ambient temperature in °F", "T", out.value, units::count, given.text, {});
    const auto rise = cx.parameter("rooftop", "adder-f", "addition close above a roof, °F", "dT", units::count);
    const auto sum = cx.apply(calc::raised_ambient_f, units::count, cx.cite("rooftop"), tf, rise);
    out.value = sum.value;
    out.step = sum.step;
  } else {
    const auto rise = cx.parameter("rooftop", "adder-c", "addition close above a roof, K", "dT", units::count);
    const auto sum = cx.apply(calc::raised_ambient, units::celsius, cx.cite("rooftop"), t, rise);
    out.value = sum.value.celsius;
    out.step = sum.step;
  }
  return out;
}

Traced<double> ambient_factor(Context& cx, const Ambient& a, int column) {
  const auto t = cx.table("ambient-correction");
  const auto row = t.band(a.fahrenheit ? "through-f" : "through-c", a.value);
  const std::string name = fmt::format("f-{}", column);
  if (row)
    if (const auto f = cx.cell(t, *row, name, "factor for the ambient", "fa", units::factor)) {
      cx.working().because_of(a.step);
      return *f;
    }
  Stop stop;
  stop.verdict = Verdict::fail;
  stop.message = cx.text("at {} {} no current is permitted in {} °C insulation", number_text(a.value, 1), a.fahrenheit ? "°F" : "°C", column);
  stop.change = "use insulation of a higher temperature, or take the run away from the heat";
  stop.cite = cx.edition().cite(t);
  throw stop;
}

bool is_nipple(Context& cx, const Raceway& r) {
  return r.nipple.value_or(false) && r.length && at_most(*r.length, cx.parameter("count-nipple", "length", units::inch));
}

Traced<double> count_factor(Context& cx, const Line& line, const Stretch& s) {
  const auto one = [&](std::string_view why, const Citation& cite) {
    return cx.working().choice("factor for the count", "fn", 1.0, units::factor, why, cite);
  };
  double count = line.counted;
  StepId on = line.why_counted;
  if (s.raceway != nullptr) {
    if (is_nipple(cx, *s.raceway)) return one("a short raceway between enclosures: the count does not matter", cx.cite("count-nipple"));
    count = counted_in(cx, *s.raceway);
    on = cx.working().last();
  } else if (s.cable->bundled && *s.cable->bundled > 1) {
    const auto cables = cx.given("cables together", "b", s.cable->bundled, units::count);
    const auto each = cx.working().choice("counted conductors of one", "n1", count, units::count, "as this circuit", {});
    const auto all = cx.apply(calc::bundle_count, units::count, cx.cite("count-bundled"), cables, each);
    count = all.value;
    on = all.step;
  }
  const auto t = cx.table("count-adjustment");
  const auto row = t.band("through", count);
  const auto f = row ? cx.cell(t, *row, "percent", "factor for the count", "fn", units::percent) : std::nullopt;
  if (!f) cx.not_covered("no factor for this count", cx.edition().cite(t));
  cx.working().because_of(on);
  return *f;
}

/// The insulation's column for the place; stops where the type may not be there at all.
int insulation_column(Context& cx, const Conductors& k, const Stretch& s) {
  if (k.type.empty()) cx.needs_input("wire.type", "the insulation decides the ampacity column");
  if (k.fixture) cx.not_covered(cx.text("{} is fixture wire, no wire for branch circuits", k.type), cx.cite("fixture-wire-use"));
  const auto t = cx.table("insulation");
  const std::size_t row = cx.row(t, k.type);
  const MoistureFound m = moisture_in(cx, s);
  const std::string_view place = moisture_word(m.moisture);
  const auto column = cx.cell(t, row, place, cx.text("ampacity column of {} where it is {}", k.type, place), "col", units::count);
  if (!column) {
    Stop stop;
    stop.verdict = Verdict::fail;
    stop.message = cx.text("{} may not be where it is {}, so it has no ampacity there", k.type, place);
    stop.change = "use a type that is listed for the place";
    stop.where = k.type_where;
    stop.cite = cx.edition().cite(t, row, t.column(place));
    throw stop;
  }
  cx.working().because_of(m.why);
  return static_cast<int>(column->value);
}

Traced<Current> table_ampacity(Context& cx, const Conductors& k, int column, std::string_view name, std::string_view symbol) {
  const auto t = cx.table("ampacity");
  const std::size_t row = cx.row(t, k.size->label());
  const auto a = cx.cell(t, row, ampacity_column(k.material, column), name, symbol, units::ampere);
  if (!a)
    cx.not_covered(cx.text("{} {} has no ampacity in the {} °C column", k.size->label(), word(k.material), column), cx.edition().cite(t));
  return *a;
}

Traced<Current> cord_ampacity(Context& cx, const Conductors& k, const Line& line) {
  const auto t = cx.table("cord-ampacity");
  const std::size_t row = cx.row(t, k.size->label());
  const bool two = line.counted <= static_cast<int>(cx.parameter("cord-three", "two-count", units::count));
  const auto a = cx.cell(t, row, two ? "two" : "three", "table ampacity of the cord", "It", units::ampere);
  if (!a) cx.not_covered(cx.text("{} has no cord ampacity", k.size->label()), cx.edition().cite(t));
  cx.working().because_of(line.why_counted);
  return *a;
}

}  // namespace

std::string ampacity_column(Material m, int column) {
  return fmt::format("{}-{}", m == Material::copper ? "cu" : "al", column);
}

Current rating_of(Context& cx, const Circuit& c, const Line& line) {
  if (c.breaker.rating) return *c.breaker.rating;
  return load_current(cx, c, line).value;
}

Terminals terminals_of(Context& cx, const Circuit& c, Current rating) {
  const bool low = at_most(rating, cx.parameter("terminals", "low-through", units::ampere));
  const double fallback = cx.parameter("terminals", low ? "low-default" : "high-default", units::count);
  const Citation cite = cx.cite("terminals");
  Terminals out{90, no_step};
  StepId lowest = no_step;
  const auto end = [&](const Given<Temperature>& mark, std::string_view which, std::string_view symbol, std::string_view key) {
    Traced<Temperature> t;
    if (mark) t = cx.given(which, symbol, mark, units::celsius);
    else
      t = cx.assume(which, symbol, Temperature{fallback}, units::celsius,
                    cx.text("{} is not given: its terminals are taken as {} °C", key, number_text(fallback, 0)), cite);
    int column = t.value.celsius >= 90 ? 90 : t.value.celsius >= 75 ? 75 : 60;
    // 90 °C needs equipment, not only lugs, that is listed for it: in this range of sizes none is taken to be.
    column = std::min(column, static_cast<int>(cx.parameter("terminals", low ? "low-marked" : "high-marked", units::count)));
    if (column < out.column || lowest == no_step) {
      out.column = std::min(out.column, column);
      lowest = t.step;
    }
  };
  end(c.breaker.terminals, "terminals at the device", "Td", "breaker.terminals");
  end(c.load.terminals, "terminals at the load", "Tl", "load.terminals");
  out.why = cx.choose("terminal column", cx.text("{} °C: the lower of the two ends", out.column), cite, {lowest});
  return out;
}

double counted_in(Context& cx, const Raceway& r) {
  double total = 0;
  std::string how;
  const auto add = [&](std::string_view what, double n) {
    total += n;
    if (!how.empty()) how += ", ";
    how += fmt::format("{} {}", what, number_text(n, 0));
  };
  for (const Circuit& c : cx.job().circuits)
    if (const Stretch* s = stretch_in(c, r)) {
      const double sets = s->wire.parallel ? *s->wire.parallel : c.wire.parallel.value_or(1);
      add(*c.name, quiet_line(cx, c).counted * sets);
    }
  for (const Other& o : r.also)
    if (o.current_carrying.value_or(true) && !o.bare.value_or(false)) add("other conductors", o.count.value_or(1));
  cx.working().choice("counted conductors in the raceway", "n", total, units::count, cx.texts().keep(how), cx.cite("count-adjustment"));
  return total;
}

StretchAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, const Stretch& s, const Terminals& t,
                            Factors factors) {
  StretchAmpacity out;
  out.stretch = &s;
  out.conductors = conductors_on(cx, c, s);
  const Conductors& k = out.conductors;
  std::optional<int> cable_column;
  bool cord = false;
  if (k.cable != nullptr) {
    const auto types = cx.table("cable-types");
    const std::size_t row = cx.row(types, *k.cable->type);
    cord = types.cell(row, "cord").yes();
    cable_column = static_cast<int>(types.cell(row, "column").number().value_or(60));
    out.column = std::min(static_cast<int>(types.cell(row, "derate-from").number().value_or(60)), cord ? 60 : insulation_column(cx, k, s));
    cx.choose("column to derate from", cx.text("{} °C for {}", out.column, *k.cable->type), cx.edition().cite(types, row, types.column("derate-from")));
  } else {
    out.column = insulation_column(cx, k, s);
  }
  const auto table = cord ? cord_ampacity(cx, k, line)
                          : table_ampacity(cx, k, out.column, cx.text("table ampacity of {} {}, {} °C column", k.size->label(), word(k.material), out.column), "It");
  out.before_factors = table;
  const auto none = [&](std::string_view symbol) {
    return cx.working().choice("no factor", symbol, 1.0, units::factor, "left out for this comparison", {});
  };
  const auto fa = factors == Factors::all ? ambient_factor(cx, ambient_at(cx, s, k.type), out.column) : none("fa");
  const auto fn = cord || factors == Factors::none ? none("fn") : count_factor(cx, line, s);
  const Citation cite = cx.cite("count-adjustment");
  std::optional<Traced<double>> sets;
  if (k.sets > 1) sets = cx.working().choice("conductors in parallel", "m", k.sets, units::count, "as given", cx.cite("parallel"));
  out.corrected = sets ? cx.apply(calc::corrected_sets, units::ampere, cite, *sets, table, fa, fn)
                       : cx.apply(calc::corrected, units::ampere, cite, table, fa, fn);
  const auto capped = [&](int column, std::string_view name, std::string_view symbol) {
    Traced<Current> a = cord ? table : table_ampacity(cx, k, column, name, symbol);
    return sets ? cx.apply(calc::of_sets, units::ampere, cite, *sets, a) : a;
  };
  const int terminal_column = std::min(t.column, 90);
  out.terminal = capped(terminal_column, cx.text("table ampacity of the terminal column, {} °C", terminal_column), "It");
  cx.working().because_of(t.why);
  if (cable_column && *cable_column < terminal_column && !cord) {
    out.cable = capped(*cable_column, cx.text("table ampacity that {} ends with, {} °C column", *k.cable->type, *cable_column), "Ik");
    out.usable = cx.apply(calc::lower_of_three, units::ampere, cx.cite("terminals"), out.corrected, out.terminal, *out.cable);
  } else {
    out.usable = cx.apply(calc::lower_of_two, units::ampere, cx.cite("terminals"), out.corrected, out.terminal);
  }
  cx.working().rename(out.usable.step, cx.text("usable ampacity in '{}'", name_of(s)), "Iz");
  return out;
}

CircuitAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, Factors factors) {
  if (c.path.empty()) cx.needs_input("circuit.path", "ampacity depends on where the conductors run");
  CircuitAmpacity out;
  const Terminals t = terminals_of(cx, c, rating_of(cx, c, line));
  for (const Stretch& s : c.path) out.stretches.push_back(ampacity_of(cx, c, line, s, t, factors));
  const auto usable = [&](std::size_t i) { return out.stretches[i].usable.value; };
  std::vector<std::size_t> order(out.stretches.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return usable(a) < usable(b); });
  out.governing = order.front();
  // A short weaker part may keep the ampacity of the rest: try the next higher one as long as what is below it is
  // short enough. Only for one kind of wire throughout, and only with all lengths known.
  const auto length = [&](std::size_t i) -> const Given<Length>& {
    const Stretch& s = *out.stretches[i].stretch;
    return s.raceway != nullptr ? s.raceway->length : s.cable->length;
  };
  const bool alike = std::all_of(order.begin(), order.end(), [&](std::size_t i) {
    const Conductors &a = out.stretches[i].conductors, &b = out.stretches[0].conductors;
    return a.size.value == b.size.value && a.material == b.material && a.sets == b.sets && length(i).present;
  });
  if (alike && order.size() > 1 && cx.has_rule("adjacent-portions") && usable(order.front()) < usable(order.back())) {
    const auto most = cx.parameter("adjacent-portions", "length", "length limit of a short part", "La", units::foot);
    const auto share = cx.parameter("adjacent-portions", "percent", "share of the higher part", "p", units::percent);
    for (std::size_t n = order.size() - 1; n > 0; --n) {  // all below order[n] is the weaker part
      if (!(usable(order[n - 1]) < usable(order[n]))) continue;
      Length lower{}, higher{};
      for (std::size_t i = 0; i < order.size(); ++i) (i < n ? lower : higher) += *length(order[i]);
      const auto high = cx.working().choice("length of the higher-ampacity part", "Lh", higher, units::foot, "added up", {});
      const auto limit = cx.apply(calc::short_part, units::foot, cx.cite("adjacent-portions"), most, share, high);
      if (!at_most(lower, limit.value)) continue;
      out.governing = order[n];
      cx.choose("short weaker part", cx.text("{} ft below the ampacity of the rest: it may keep it", number_text(units::foot.show(lower), 1)),
                cx.cite("adjacent-portions"), {limit.step});
      out.usable = out.stretches[out.governing].usable;
      return out;
    }
  }
  out.usable = out.stretches[out.governing].usable;
  return out;
}

}  // namespace pullproof::derive
