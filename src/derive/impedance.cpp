#include "derive/impedance.hpp"

#include <string>

#include "calc/impedance.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

constexpr Unit<double> per_kelvin{"1/K", 1, 5};

/// The column for the metal. Copper-clad aluminum has none of its own; it conducts at least as well as aluminum.
std::string_view metal(Context& cx, const Conductors& k) {
  if (k.material == Material::copper) return "cu";
  if (k.material == Material::copper_clad)
    cx.assume("metal", "copper-clad aluminum is taken as aluminum for its resistance: the tables have no column for it");
  return "al";
}

/// The row of the dc table. Larger sizes are stranded there only.
std::size_t dc_row(Context& cx, const code::TableRef& t, const Conductors& k) {
  const std::string_view size = k.size->label();
  if (k.solid) {
    if (const auto row = t.find(size, "solid")) return *row;
    cx.assume("stranding", cx.text("{} solid is taken as stranded for its resistance, which is a little higher", size),
              cx.edition().cite(t));
  }
  return cx.row(t, size, "stranded");
}

Traced<ResistancePerLength> table_value(Context& cx, const code::TableRef& t, std::size_t row, std::string_view column,
                                        std::string_view name, std::string_view symbol) {
  const auto v = cx.cell(t, row, column, name, symbol, units::ohm_per_kft);
  if (!v) cx.not_covered(cx.text("{} has no {} for {}", t.clause(), name, t.cell(row, std::size_t{0}).text()), cx.edition().cite(t));
  return *v;
}

/// The row of the ac table for a size: its own; else the next smaller one, whose resistance is higher; below the
/// table its first, for reactance only.
std::size_t ac_row(Context& cx, const code::TableRef& t, ConductorSize size) {
  if (const auto own = t.find(size.label())) return *own;
  std::size_t row = 0;
  for (std::size_t r = 0; r < t.rows(); ++r)
    if (const auto listed = ConductorSize::parse(t.cell(r, std::size_t{0}).text()); listed && *listed < size) row = r;
  const std::string_view taken = t.cell(row, std::size_t{0}).text();
  const bool below = size < *ConductorSize::parse(taken);
  cx.assume("impedance table",
            below ? cx.text("{} lists no reactance for {}: taken as for {}, and little beside its resistance", t.clause(), size.label(), taken)
                  : cx.text("{} does not list {}: taken as {}, the next smaller one it lists, which loses more", t.clause(), size.label(), taken),
            cx.edition().cite(t));
  return row;
}

/// Small sizes and direct current.
Traced<ResistancePerLength> dc_resistance(Context& cx, const Conductors& k) {
  const auto t = cx.table("conductor-properties");
  const std::string_view cu = k.coated ? "cu-coated" : "cu-uncoated";
  const std::size_t row = dc_row(cx, t, k);
  const std::string_view m = metal(cx, k);
  return table_value(cx, t, row, m == "cu" ? cu : m, "dc resistance", "r");
}

Traced<ResistancePerLength> ac_resistance(Context& cx, const code::TableRef& t, std::size_t row, const Conductors& k,
                                          std::string_view around) {
  const std::string_view m = metal(cx, k);
  const auto r = table_value(cx, t, row, cx.text("{}-{}", m, around), "ac resistance", "r");
  if (!k.coated || m != "cu") return r;
  const auto dc = cx.table("conductor-properties");
  const std::size_t dc_at = cx.row(dc, t.cell(row, std::size_t{0}).text(), "stranded");
  const auto coated = table_value(cx, dc, dc_at, "cu-coated", "dc resistance with tin", "rc");
  const auto bare = table_value(cx, dc, dc_at, "cu-uncoated", "dc resistance without tin", "ru");
  return cx.apply(calc::resistance_tinned, units::ohm_per_kft, cx.edition().cite(dc), r, coated, bare);
}

Traced<ResistancePerLength> at_temperature(Context& cx, Traced<ResistancePerLength> r, const Conductors& k) {
  constexpr std::string_view rule = "resistance-temperature";
  if (!k.temperature) {
    const double reference = cx.parameter(rule, "reference", units::celsius).celsius;
    cx.assume("conductor temperature", cx.text("wire.temperature is not given: resistance is taken at {} °C, as the tables print it",
                                               number_text(reference, 1)), cx.cite(rule));
    return r;
  }
  const auto at = cx.given("conductor temperature", "T", k.temperature, units::celsius);
  const auto reference = cx.parameter(rule, "reference", "temperature of the tables", "T0", units::celsius);
  const auto coefficient = cx.parameter(rule, k.material == Material::copper ? "alpha-cu" : "alpha-al",
                                        "change of resistance with temperature", "k", per_kelvin);
  return cx.apply(calc::resistance_at_temperature, units::ohm_per_kft, cx.cite(rule), r, coefficient, at, reference);
}

}  // namespace

std::string_view surroundings_of(Context& cx, const Stretch& s) {
  const auto of_raceway = [&](const Raceway& r) {
    const auto types = cx.table("raceway-types");
    const std::size_t row = cx.row(types, cx.need(r.type, "raceway.type", "steel around the conductors raises their impedance"));
    return cx.cell_text(types, row, "impedance", cx.text("what is around the conductors, {}", *r.type), {});
  };
  // Steel armor is nearer to the conductors than the raceway that the cable is pulled into.
  const bool armored = s.cable && s.cable->type && cx.listed("cable-impedance", "steel", *s.cable->type);
  if (const Raceway* r = raceway_around(cx, s); r && !armored) return of_raceway(*r);
  const std::string_view type = cx.need(s.cable->type, "cable.type", "armor around the conductors raises their impedance");
  const Citation cite = cx.cite("cable-impedance");
  for (const std::string_view around : {"pvc", "steel", "aluminum"}) {
    if (!cx.listed("cable-impedance", around, type)) continue;
    if (around == "pvc") cx.choose("what is around the conductors", cx.text("{}: no metal, as in PVC", type), cite);
    else if (around == "steel") cx.assume("what is around the conductors", cx.text("the armor of '{}' is taken as steel for its impedance", name_of(s)), cite);
    else cx.assume("what is around the conductors", cx.text("the sheath of '{}' is taken as metal that is not magnetic for its impedance", name_of(s)), cite);
    return around;
  }
  cx.not_covered(cx.text("no impedance is known for {}", type), cite);
}

Impedance impedance_of(Context& cx, const Line& line, const Stretch& s, const Conductors& k) {
  Impedance out;
  const auto through = ConductorSize::parse(cx.parameter_text("dc-resistance-for-ac", "through"));
  const bool small = through && *k.size <= *through;
  Traced<ResistancePerLength> r, x;
  if (line.dc) {
    r = dc_resistance(cx, k);
    x = cx.working().choice("reactance", "x", ResistancePerLength{}, units::ohm_per_kft, "direct current", {});
  } else {
    const auto t = cx.table("ac-impedance");
    const std::string_view around = surroundings_of(cx, s);
    const StepId why = cx.working().last();
    const std::size_t row = ac_row(cx, t, *k.size);
    r = small ? dc_resistance(cx, k) : ac_resistance(cx, t, row, k, around);
    x = table_value(cx, t, row, cx.text("xl-{}", around), "reactance", "x");
    cx.working().because_of(why);
  }
  out.cite = cx.working().steps()[r.step].cite;
  r = at_temperature(cx, r, k);
  out.length = cx.given(cx.text("length of '{}'", name_of(s)), "L", length_of(cx, s), units::foot);
  if (k.sets > 1) {
    const auto sets = cx.working().choice("conductors in parallel", "m", k.sets, units::count, "as given", cx.cite("parallel"));
    out.resistance = cx.apply(calc::resistance_of_sets, units::ohm, {}, r, out.length, sets);
    out.reactance = cx.apply(calc::reactance_of_sets, units::ohm, {}, x, out.length, sets);
  } else {
    out.resistance = cx.apply(calc::resistance, units::ohm, {}, r, out.length);
    out.reactance = cx.apply(calc::reactance, units::ohm, {}, x, out.length);
  }
  return out;
}

}  // namespace pullproof::derive
