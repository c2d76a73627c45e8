#include "derive/control.hpp"

#include <cmath>

#include "calc/control.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

/// A resistance for a length, at the temperature of its table.
struct TableResistance {
  Traced<ResistancePerLength> resistance;
  Traced<Temperature> reference;
  Traced<double> alpha;
};

/// How the conductors of the run are made; what the case leaves open is said aloud, once.
struct Make {
  Material material = Material::copper;
  bool solid = false;
  Traced<Temperature> temperature;
};

Stranding usual_stranding(Context& cx, const Control& c) {
  if (c.cable.stranding) return *c.cable.stranding;
  const bool solid = c.cable.type && cx.listed("control-stranding", "solid", *c.cable.type);
  const std::string_view as = word(solid ? Stranding::solid : Stranding::stranded);
  const std::string_view why = solid ? cx.text("{} is sold with solid conductors", *c.cable.type) : "which has the higher resistance";
  cx.assume("stranding", cx.text("control.cable.stranding is not given: taken as {}, {}", as, why), cx.cite("control-stranding"));
  return solid ? Stranding::solid : Stranding::stranded;
}

Traced<Temperature> conductor_temperature(Context& cx, const Control& c) {
  constexpr std::string_view what = "temperature of the conductors";
  if (c.cable.temperature) return cx.given(what, "T", c.cable.temperature, units::celsius);
  Temperature taken = cx.parameter("control-temperature", "temperature", units::celsius);
  std::string_view from;
  for (const Stretch& s : c.path)
    if (s.raceway != nullptr && s.raceway->ambient && s.raceway->ambient->celsius > taken.celsius) {
      taken = *s.raceway->ambient;
      from = cx.text(", as the air around '{}'", *s.in);
    }
  return cx.assume(what, "T", taken, units::celsius,
                   cx.text("control.cable.temperature is not given: taken as {} °C{}", number_text(taken.celsius, 1), from),
                   cx.cite("control-temperature"));
}

Make make_of(Context& cx, const Control& c) {
  Make m;
  if (c.cable.material) m.material = *c.cable.material;
  else cx.assume("metal", "control.cable.material is not given: taken as copper");
  m.solid = !c.cable.resistance && usual_stranding(cx, c) == Stranding::solid;
  m.temperature = conductor_temperature(cx, c);
  return m;
}

/// The metal's row of the table of metals; a grade of copper-clad aluminum is assumed aloud.
std::size_t metal_row(Context& cx, const code::TableRef& metals, Material m) {
  std::string_view name = word(m);
  if (m == Material::copper_clad) {
    name = cx.parameter_text("control-material", "copper-clad");
    cx.assume("metal", cx.text("the grade of copper-clad aluminum is not known: taken as {}", name), cx.cite("control-material"));
  }
  return cx.row(metals, name);
}

/// What the maker or a 20 °C table says, with the metal's factor.
TableResistance at_reference(Context& cx, Traced<ResistancePerLength> copper, Material material, bool of_copper, const ControlUnits& u) {
  TableResistance out;
  out.reference = cx.parameter("copper-temperature", "reference", "temperature of the table", "Tr", units::celsius);
  if (material == Material::copper) {
    out.alpha = cx.parameter("copper-temperature", "alpha", "temperature coefficient of copper", "a", units::ratio);
    out.resistance = copper;
    return out;
  }
  const auto metals = cx.table("conductor-material");
  const std::size_t row = metal_row(cx, metals, material);
  const std::string_view name = metals.cell(row, "material").text();
  out.alpha = *cx.cell(metals, row, "alpha-20", cx.text("temperature coefficient of {}", name), "a", units::ratio);
  if (!of_copper) {
    out.resistance = copper;
    return out;
  }
  const auto factor = *cx.cell(metals, row, "resistance-factor", cx.text("resistance of {} against copper", name), "fm", units::factor);
  out.resistance = cx.apply(calc::control::in_metal, u.resistance, cx.edition().cite(metals), copper, factor);
  return out;
}

/// Sizes above the small gauges: the code book's table, at its own temperature.
TableResistance from_properties(Context& cx, const Make& m, const ConductorSize& size, const ControlUnits& u) {
  const auto t = cx.table("conductor-properties");
  const bool solid = m.solid && t.find(size.label(), "solid");
  const auto row = t.find(size.label(), solid ? "solid" : "stranded");
  if (!row || m.material == Material::copper_clad)
    cx.not_covered(cx.text("no resistance of {} {} is known; give control.cable.resistance", word(m.material), size.label()), cx.edition().cite(t));
  const bool copper = m.material == Material::copper;
  TableResistance out;
  out.reference = cx.parameter("resistance-temperature", "reference", "temperature of the table", "Tr", units::celsius);
  out.alpha = cx.parameter("resistance-temperature", copper ? "alpha-cu" : "alpha-al", "temperature coefficient", "a", units::ratio);
  const std::size_t column = t.column(copper ? "cu-uncoated" : "al");
  const auto r = t.cell(*row, column).number();
  if (!r) cx.not_covered(cx.text("no resistance of {} {} is known", word(m.material), size.label()), cx.edition().cite(t));
  out.resistance = cx.working().table(cx.text("resistance of {} {}", size.label(), word(m.material)), "rt", units::ohm_per_kft.of(*r),
                                      u.resistance, cx.edition().cite(t, *row, column));
  return out;
}

TableResistance from_tables(Context& cx, const Make& m, const ConductorSize& size, const ControlUnits& u) {
  const std::string_view made = word(m.solid ? Stranding::solid : Stranding::stranded);
  const std::string_view name = cx.text("resistance of {} copper, {}", size.label(), made);
  const auto small = cx.table(size.metric() ? "metric-conductors" : "small-gauge");
  const auto row = small.find(size.label());
  if (!row && !size.metric()) return from_properties(cx, m, size, u);
  if (!row) cx.not_covered(cx.text("no resistance of {} is known; give control.cable.resistance", size.label()), cx.edition().cite(small));
  const std::string_view column = size.metric() ? (m.solid ? "solid" : "flexible") : (m.solid ? "solid-20" : "stranded-20");
  // Either table is in its own unit; a run is reckoned in one.
  const Unit<ResistancePerLength>& own = size.metric() ? units::ohm_per_km : units::ohm_per_kft;
  const std::size_t at = small.column(column);
  const auto value = small.cell(*row, at).number();
  if (!value) cx.not_covered(cx.text("no resistance of {} is known", size.label()), cx.edition().cite(small));
  const auto copper = cx.working().table(name, "rt", own.of(*value), u.resistance, cx.edition().cite(small, *row, at));
  return at_reference(cx, copper, m.material, true, u);
}

Traced<ResistancePerLength> at_temperature(Context& cx, const Make& m, const TableResistance& t, const ControlUnits& u, std::string_view rule) {
  return cx.apply(calc::control::conductor_at, u.resistance, cx.cite(rule), t.resistance, t.alpha, m.temperature, t.reference);
}

Traced<ResistancePerLength> conductor(Context& cx, const Control& c, const Make& m, const ConductorSize& size) {
  const ControlUnits u = units_of(c);
  const TableResistance t = from_tables(cx, m, size, u);
  return at_temperature(cx, m, t, u, cx.table("small-gauge").find(size.label()) || size.metric() ? "copper-temperature" : "resistance-temperature");
}

}  // namespace

std::optional<int> known_class(const Control& c) {
  if (c.reclassified.value_or(false)) return 1;
  if (!c.source.control_class) return std::nullopt;
  return static_cast<int>(*c.source.control_class);
}

int wiring_class(Context& cx, const Control& c) {
  if (const auto known = known_class(c)) return *known;
  cx.needs_input("control.source.class", "the class of a circuit follows its source");
}

ControlUnits units_of(const Control& c) {
  const bool metric = c.cable.size ? c.cable.size->metric() : c.length && c.length.text.ends_with("m");
  if (metric) return {units::metre, units::ohm_per_km};
  return {units::foot, units::ohm_per_kft};
}

std::string_view length_text(Context& cx, const Control& c, Length l) {
  const ControlUnits u = units_of(c);
  const double step = u.length.name == units::metre.name ? 10 : 1;
  return cx.text("{} {}", number_text(std::floor(u.length.show(l) * step * (1 + slack)) / step, 1), u.length.name);
}

std::optional<Length> path_length(const Control& c) {
  if (c.path.empty()) return std::nullopt;
  Length sum{};
  for (const Stretch& s : c.path) {
    if (s.raceway == nullptr || !s.raceway->length) return std::nullopt;
    sum += *s.raceway->length;
  }
  return sum;
}

std::string_view by_the_manual(Context& cx, const Control& c, std::string_view what) {
  return c.manual ? cx.text("{} ({})", what, *c.manual) : what;
}

Traced<Length> run_length(Context& cx, const Control& c) {
  const Unit<Length> unit = units_of(c).length;
  if (c.length) return cx.given("length, one way", "L", c.length, unit);
  if (c.path.empty()) cx.needs_input("control.length", "the resistance of the run follows from it");
  std::optional<Traced<Length>> sum;
  for (const Stretch& s : c.path) {
    cx.need(s.raceway->length, "raceway.length", cx.text("the length of '{}'; or give control.length", *s.in));
    const auto l = cx.given(cx.text("length of '{}'", *s.in), "L", s.raceway->length, unit);
    sum = sum ? cx.apply(calc::control::path_length, unit, cx.cite("control-path"), *sum, l) : l;
  }
  cx.assume("length", "control.length is not given: taken as the length of its raceways together, without the ends");
  cx.working().rename(sum->step, "length, one way", "L");
  return *sum;
}

bool wholly_in_raceway(const Control& c) {
  if (c.path.empty()) return false;
  if (!c.length) return true;
  const auto path = path_length(c);
  return path && at_most(*c.length, *path);
}

Traced<Voltage> cable_insulation(Context& cx, const Control& c) {
  constexpr std::string_view what = "insulation of the control conductors", symbol = "U";
  if (c.cable.insulation) return cx.given(what, symbol, c.cable.insulation, units::volt);
  const std::string_view type = cx.need(c.cable.type, "control.cable.type", "it, or control.cable.insulation, says what the run is insulated for");
  const auto from = [&](std::string_view table) -> std::optional<Traced<Voltage>> {
    if (!cx.has_table(table)) return std::nullopt;
    const auto t = cx.table(table);
    const auto row = t.find(type);
    return row ? cx.cell(t, *row, "voltage", what, symbol, units::volt) : std::nullopt;
  };
  if (const auto u = from("cable-types-control")) return *u;
  if (const auto u = from("fixture-wire")) return *u;
  if (cx.table("insulation").find(type) || cx.table("cable-types").find(type))
    return cx.parameter("insulation-voltage", "voltage", what, symbol, units::volt);
  cx.needs_input("control.cable.insulation", cx.text("{} says nothing about the voltage that it is insulated for", type));
}

Loop loop_of(Context& cx, const Control& c) {
  const ControlUnits u = units_of(c);
  Loop out;
  if (!c.cable.resistance) cx.need(c.cable.size, "control.cable.size", "the resistance of the run follows from it");
  out.length = run_length(cx, c);
  const Make make = make_of(cx, c);
  if (c.cable.resistance) {
    const auto told = cx.given("the maker's resistance of one conductor", "rt", c.cable.resistance, u.resistance);
    out.own = at_temperature(cx, make, at_reference(cx, told, make.material, false, u), u, "copper-temperature");
  } else {
    out.own = conductor(cx, c, make, *c.cable.size);
  }
  out.alike = !c.cable.common_size || (c.cable.size && *c.cable.common_size == *c.cable.size);
  out.common = out.alike ? out.own : conductor(cx, c, make, *c.cable.common_size);
  if (!out.alike) cx.working().rename(out.common.step, "resistance of the common conductor at its temperature", "rc");
  const Citation ohm;  // Ohm's law needs no citation
  out.resistance = out.alike ? cx.apply(calc::control::loop, units::ohm, ohm, out.length, out.own)
                             : cx.apply(calc::control::loop_unlike, units::ohm, ohm, out.length, out.own, out.common);
  return out;
}

std::string_view smallest_size(const Context& cx, const Control& c, const std::function<bool(ResistancePerLength)>& does) {
  Context quiet = cx.scratch();
  const Make make = make_of(quiet, c);
  const bool metric = c.cable.size && c.cable.size->metric();
  for (const code::CellRef& cell : quiet.rule("control-sizes").list(metric ? "metric" : "sizes")) {
    const auto size = ConductorSize::parse(cell.text());
    if (size && does(conductor(quiet, c, make, *size).value)) return cell.text();
  }
  return {};
}

}  // namespace pullproof::derive
