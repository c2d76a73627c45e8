#include "derive/ampacity.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "calc/ampacity.hpp"
#include "derive/load.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

/// The insulation's column for the place; stops where the type may not be there at all.
int insulation_column(Context& cx, const Conductors& k, const Stretch& s) {
  if (k.type.empty()) cx.needs_input(k.cable != nullptr ? "cable.insulation" : "wire.type", "the insulation decides the ampacity column");
  if (k.fixture)
    cx.fails_in("wire-insulation", cx.text("{} in '{}' is fixture wire, which is no wire for branch circuits or feeders", k.type, name_of(s)),
                "use building wire", cx.cite("fixture-wire-use"), k.type_where);
  const auto t = cx.table("insulation");
  const std::size_t row = cx.row(t, k.type);
  const MoistureFound m = moisture_in(cx, s);
  const std::string_view place = moisture_word(m.moisture);
  const auto column = cx.cell(t, row, place, cx.text("ampacity column of {} where it is {}", k.type, place), "col", units::count);
  if (!column)
    cx.fails_in("wire-insulation", cx.text("{} may not be where it is {}, as in '{}'", k.type, place, name_of(s)),
                cx.text("use a type that is listed for {} places", place), cx.edition().cite(t, row, t.column(place)), k.type_where);
  cx.working().because_of(m.why);
  return static_cast<int>(column->value);
}

Traced<Current> table_ampacity(Context& cx, const Conductors& k, int column, std::string_view name, std::string_view symbol) {
  const auto t = cx.table("ampacity");
  const std::size_t row = cx.row(t, k.size->label());
  const auto a = cx.cell(t, row, ampacity_column(k.material, column), name, symbol, units::ampere);
  if (!a)
    cx.not_covered(cx.text("{} {} has no ampacity in the {} °C column of {}", k.size->label(), word(k.material), column, t.clause()),
                   cx.edition().cite(t));
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

/// What the article of a cable says about its columns.
struct CableColumns {
  int derate_from = 90, last = 90;
  bool cord = false;
};

CableColumns columns_of(Context& cx, const Cable& k, const Conductors& wire) {
  const auto t = cx.table("cable-types");
  const std::size_t row = cx.row(t, *k.type);
  CableColumns out{static_cast<int>(t.cell(row, "derate-from").number().value_or(60)),
                   static_cast<int>(t.cell(row, "column").number().value_or(60)), t.cell(row, "cord").yes()};
  const auto in_insulation = [&](std::string_view rule, std::string_view column) {
    if (!cx.has_rule(rule) || !cx.listed(rule, "types", *k.type)) return;
    out.last = std::min(out.last, static_cast<int>(cx.parameter(rule, column, units::count)));
    cx.choose("column in thermal insulation", cx.text("{} °C for {}", out.last, *k.type), cx.cite(rule));
  };
  if (k.place && k.place->has(Place::thermal_insulation)) {
    in_insulation("ac-insulated", "column");
    const auto small = ConductorSize::parse(cx.parameter_text("se-interior", "small-through"));
    if (small && *wire.size <= *small) in_insulation("se-interior", "small-column");
  }
  return out;
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
  Terminals out;
  out.low = at_most(rating, cx.parameter("terminals", "low-through", units::ampere));
  // 90 °C needs equipment, not only lugs, that is listed for it: none is taken to be.
  const int most = static_cast<int>(cx.parameter("terminals", out.low ? "low-marked" : "high-marked", units::count));
  const double fallback = cx.parameter("terminals", out.low ? "low-default" : "high-default", units::count);
  const Citation cite = cx.cite("terminals");
  out.column = most;
  StepId lowest = no_step;
  const auto end = [&](const Given<Temperature>& mark, std::string_view which, std::string_view symbol, std::string_view key) {
    Traced<Temperature> t;
    if (mark) t = cx.given(which, symbol, mark, units::celsius);
    else
      t = cx.assume(which, symbol, Temperature{fallback}, units::celsius,
                    cx.text("{} is not given: its terminals are taken as {} °C", key, number_text(fallback, 0)), cite);
    const int column = std::min(most, t.value.celsius >= 90 ? 90 : t.value.celsius >= 75 ? 75 : 60);
    if (column < out.column || lowest == no_step) {
      out.column = std::min(out.column, column);
      lowest = t.step;
    }
  };
  end(c.breaker.terminals, "terminals at the device", "Td", "breaker.terminals");
  if (c.feeder == nullptr && cx.job().supply.terminals) end(cx.job().supply.terminals, "terminals of the panel", "Tp", "supply.terminals");
  out.device_column = out.column;
  const auto& motors = c.load.motors;
  const bool design_b = !motors.empty() && std::all_of(motors.begin(), motors.end(), [](const Motor& m) { return m.kind && *m.kind == MotorKind::design_b; });
  if (!c.load.terminals && out.low && design_b && cx.has_rule("terminals-motor")) {
    const int marked = static_cast<int>(cx.parameter("terminals-motor", "column", units::count));
    const auto t = cx.assume("terminals at the load", "Tl", Temperature{static_cast<double>(marked)}, units::celsius,
                             "load.terminals is not given: those of a motor of design B take the 75 °C column", cx.cite("terminals-motor"));
    if (const int column = std::min(most, marked); column < out.column || lowest == no_step) {
      out.column = column;
      lowest = t.step;
    }
  } else {
    end(c.load.terminals, "terminals at the load", "Tl", "load.terminals");
  }
  out.why = cx.choose("terminal column", cx.text("{} °C: the lowest of the ends, and no more than terminals give", out.column), cite, {lowest});
  return out;
}

StretchAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, const Stretch& s, const Terminals& t,
                            Factors factors) {
  StretchAmpacity out;
  out.stretch = &s;
  out.conductors = conductors_on(cx, c, s);
  const Conductors& k = out.conductors;
  CableColumns cable;
  if (k.cable != nullptr) {
    cable = columns_of(cx, *k.cable, k);
    out.cord = cable.cord;
    out.borrows = !crowded_in_insulation(cx, *k.cable);
  }
  out.column = cable.cord ? cable.derate_from : std::min(cable.derate_from, insulation_column(cx, k, s));
  const auto table = cable.cord ? cord_ampacity(cx, k, line)
                                : table_ampacity(cx, k, out.column, cx.text("table ampacity of {} {}, {} °C column", k.size->label(), word(k.material), out.column), "It");
  const auto none = [&](std::string_view symbol) {
    return cx.working().choice("no factor", symbol, 1.0, units::factor, "left out for this comparison", {});
  };
  const auto fa = factors == Factors::all ? ambient_factor(cx, s, k.type, out.column) : none("fa");
  const auto fn = factors == Factors::all ? count_factor(cx, line, s, k) : none("fn");
  const Citation cite = cx.cite("count-adjustment");
  std::optional<Traced<double>> sets;
  if (k.sets > 1) sets = cx.working().choice("conductors in parallel", "m", k.sets, units::count, "as given", cx.cite("parallel"));
  const auto all_sets = [&](Traced<Current> a) { return sets ? cx.apply(calc::of_sets, units::ampere, cx.cite("parallel"), *sets, a) : a; };
  out.corrected = sets ? cx.apply(calc::corrected_sets, units::ampere, cite, *sets, table, fa, fn)
                       : cx.apply(calc::corrected, units::ampere, cite, table, fa, fn);
  out.before_factors = all_sets(table);
  const Citation ends = cx.cite("terminals");
  if (cable.cord) {
    // The table of cords is for 60 °C already, which no terminal undercuts.
    out.terminal = out.before_factors;
    out.plain = out.plain_at_device = out.before_factors;
    out.usable = cx.apply(calc::lower_of_two, units::ampere, ends, out.corrected, out.terminal);
  } else {
    out.terminal = all_sets(table_ampacity(cx, k, t.column, cx.text("table ampacity of the terminal column, {} °C", t.column), "It"));
    cx.working().because_of(t.why);
    if (k.cable != nullptr && cable.last < t.column) {
      out.borrows = false;  // what caps it is its article, not its surroundings
      out.cable = all_sets(table_ampacity(cx, k, cable.last, cx.text("table ampacity that {} ends with, {} °C column", *k.cable->type, cable.last), "Ik"));
      out.plain = cx.apply(calc::plain_of_three, units::ampere, ends, out.before_factors, out.terminal, *out.cable);
      out.usable = cx.apply(calc::lower_of_three, units::ampere, ends, out.corrected, out.terminal, *out.cable);
    } else {
      out.plain = cx.apply(calc::plain_of_two, units::ampere, ends, out.before_factors, out.terminal);
      out.usable = cx.apply(calc::lower_of_two, units::ampere, ends, out.corrected, out.terminal);
    }
    cx.working().rename(out.plain.step, cx.text("ampacity before factors in '{}'", name_of(s)), "Ip");
    out.plain_at_device = out.plain;
    if (t.device_column > t.column) {
      const int column = k.cable != nullptr ? std::min(cable.last, t.device_column) : t.device_column;
      const auto at_device = all_sets(table_ampacity(cx, k, column, cx.text("table ampacity at the device's end, {} °C column", column), "It"));
      out.plain_at_device = cx.apply(calc::plain_of_two, units::ampere, ends, out.before_factors, at_device);
      cx.working().rename(out.plain_at_device.step, cx.text("ampacity before factors at the device's end in '{}'", name_of(s)), "Ip");
    }
  }
  cx.working().rename(out.usable.step, cx.text("usable ampacity in '{}'", name_of(s)), "Iz");
  return out;
}

namespace {

const Given<Length>& length_or_none(const Stretch& s) { return s.raceway != nullptr ? s.raceway->length : s.cable->length; }

/// A short weaker part may keep the ampacity of the rest: the highest stretch for which everything below it is short
/// enough. Only for one kind of wire throughout, and only with all lengths known.
std::optional<std::size_t> short_part(Context& cx, const CircuitAmpacity& a, const std::vector<std::size_t>& order) {
  const auto usable = [&](std::size_t i) { return a.stretches[i].usable.value; };
  const bool alike = std::all_of(order.begin(), order.end(), [&](std::size_t i) {
    const Conductors &x = a.stretches[i].conductors, &y = a.stretches[0].conductors;
    return x.size.value == y.size.value && x.material == y.material && x.sets == y.sets && length_or_none(*a.stretches[i].stretch);
  });
  if (!alike || !cx.has_rule("adjacent-portions") || !(usable(order.front()) < usable(order.back()))) return std::nullopt;
  const auto most = cx.parameter("adjacent-portions", "length", "length limit of a short part", "La", units::foot);
  const auto share = cx.parameter("adjacent-portions", "percent", "share of the higher part", "p", units::percent);
  for (std::size_t n = order.size() - 1; n > 0; --n) {  // all below order[n] is the weaker part
    if (!(usable(order[n - 1]) < usable(order[n]))) continue;
    Length lower{}, higher{};
    bool borrows = true;
    for (std::size_t i = 0; i < order.size(); ++i) {
      const StretchAmpacity& s = a.stretches[order[i]];
      (i < n ? lower : higher) += *length_or_none(*s.stretch);
      borrows = borrows && (i >= n || s.borrows);
    }
    if (!borrows) continue;
    const auto high = cx.working().choice("length of the higher-ampacity part", "Lh", higher, units::foot, "added up", {});
    const auto limit = cx.apply(calc::short_part, units::foot, cx.cite("adjacent-portions"), most, share, high);
    if (!at_most(lower, limit.value)) continue;
    cx.choose("short weaker part", cx.text("{} ft below the ampacity of the rest: it may keep it", number_text(units::foot.show(lower), 1)),
              cx.cite("adjacent-portions"), {limit.step});
    return order[n];
  }
  return std::nullopt;
}

}  // namespace

CircuitAmpacity ampacity_of(Context& cx, const Circuit& c, const Line& line, Factors factors) {
  if (c.path.empty()) cx.needs_input("circuit.path", "ampacity depends on where the conductors run");
  CircuitAmpacity out;
  const Terminals t = terminals_of(cx, c, rating_of(cx, c, line));
  for (const Stretch& s : c.path)
    if (!s.tap.value_or(false)) out.stretches.push_back(ampacity_of(cx, c, line, s, t, factors));
  if (out.stretches.empty()) cx.unclear("circuit.path.tap", "all of the path is a tap: what it is tapped from is part of the circuit");
  std::vector<std::size_t> order(out.stretches.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return out.stretches[a].usable.value < out.stretches[b].usable.value; });
  const auto kept = short_part(cx, out, order);
  out.governing = kept.value_or(order.front());
  out.usable = out.stretches[out.governing].usable;
  if (kept) {
    // The choice is the last step: it belongs to the answer, not to what follows.
    const StepId why = cx.working().last();
    out.usable = cx.working().choice(cx.text("usable ampacity in '{}', kept by a short weaker part", name_of(*out.stretches[out.governing].stretch)),
                                     "Iz", out.usable.value, units::ampere, "of the stronger part", cx.cite("adjacent-portions"));
    cx.working().because_of(out.stretches[out.governing].usable.step);
    cx.working().because_of(why);
  }
  const auto lowest = [&](auto member) {
    return (*std::min_element(out.stretches.begin(), out.stretches.end(),
                              [&](const StretchAmpacity& a, const StretchAmpacity& b) { return (a.*member).value < (b.*member).value; })).*member;
  };
  out.plain = lowest(&StretchAmpacity::plain);
  out.plain_at_device = lowest(&StretchAmpacity::plain_at_device);
  return out;
}

}  // namespace pullproof::derive
