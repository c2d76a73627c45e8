#include "derive/ground.hpp"

#include "calc/ground.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

std::size_t row_of(Context& cx, const code::TableRef& t, const ConductorSize& size) {
  const auto stranded = t.find(size.label(), "stranded");
  return stranded ? *stranded : cx.row(t, size.label(), "solid");
}

ConductorSize by_table(Context& cx, const Circuit& c, Material metal) {
  cx.need(c.breaker.rating, "breaker.rating", "the device decides the size of the grounding conductor");
  const auto t = cx.table("egc");
  const auto rating = cx.given("rating of the device", "I", c.breaker.rating, units::ampere);
  const auto row = t.band("through", units::ampere.show(rating.value));
  if (!row) cx.not_covered("no grounding conductor is given for a device of this rating", cx.edition().cite(t));
  const std::string_view label = cx.cell_text(t, *row, metal == Material::copper ? "copper" : "aluminum",
                                              cx.text("{} grounding conductor by the device", word(metal)), {});
  cx.working().because_of(rating.step);
  const auto size = ConductorSize::parse(label);
  if (!size) cx.not_covered("no grounding conductor is given for a device of this rating", cx.edition().cite(t));
  return *size;
}

/// The smallest conductors that would do, by the edition's method, as a step.
SmallestConductor measured_from(Context& cx, const Circuit& c) {
  const Line line = line_of(cx, c);
  const Citation cite = cx.cite("egc-increase");
  const SmallestConductor found = smallest_conductor(cx, c, line);
  StepId why = no_step;
  if (cx.parameter_text("egc-increase", "method") == "without-derating" && found.too_small &&
      would_do(cx, c, line, *found.too_small, Factors::none))
    why = cx.choose("factors of the place", cx.text("ambient or number of conductors ask for more than {}: that is no increase", found.too_small->label()), cite);
  cx.choose("smallest conductors that would do", cx.text("{}: {}", found.size.label(), found.why), cite, {why});
  return found;
}

}  // namespace

Traced<double> circular_mils(Context& cx, const ConductorSize& size, std::string_view name, std::string_view symbol) {
  if (!cx.has_table("conductor-properties")) {
    Citation standard;
    standard.clause = "ASTM B258";
    standard.basis = Basis::derived;
    return cx.working().constant(name, symbol, size.circular_mils(), units::circular_mil, standard);
  }
  const auto t = cx.table("conductor-properties");
  const auto area = cx.cell(t, row_of(cx, t, size), "circular-mils", name, symbol, units::circular_mil);
  if (!area) cx.not_covered(cx.text("no circular mils are given for {}", size.label()), cx.edition().cite(t));
  return *area;
}

bool armor_grounds(Context& cx, const Cable& k) {
  const auto types = cx.table("cable-types");
  cx.need(k.type, "cable.type", "whether its armor grounds");
  const std::string_view ground = types.cell(cx.row(types, *k.type), "ground").text();
  return ground == "armor" || ground == "sheath";
}

ConductorSize size_from(Context& cx, double circular_mils) {
  const auto t = cx.table("conductor-properties");
  for (std::size_t row = 0; row < t.rows(); ++row) {
    const auto area = t.cell(row, "circular-mils").number();
    const auto size = ConductorSize::parse(t.cell(row, "size").text());
    if (area && size && at_least(*area, circular_mils)) return *size;
  }
  cx.not_covered("no conductor of the table is large enough", cx.edition().cite(t));
}

GroundNeed ground_need(Context& cx, const Circuit& c, const Stretch& s, Material metal) {
  GroundNeed out;
  const Conductors k = conductors_on(cx, c, s);
  const auto installed = circular_mils(cx, k.size.value, cx.text("circular mils of the ungrounded {}", k.size->label()), "S");
  const bool cord = k.cable != nullptr && [&] {
    const auto types = cx.table("cable-types");
    return types.cell(cx.row(types, *k.cable->type), "cord").yes();
  }();
  const auto cord_through = cord ? ConductorSize::parse(cx.parameter_text("egc-cord", "through")) : std::nullopt;
  if (cord_through && k.size.value <= *cord_through) {
    out.by = GroundNeed::By::cord;
    out.size = k.size.value;
    out.circular_mils = installed;
    out.cite = cx.cite("egc-cord");
    return out;
  }
  out.size = by_table(cx, c, metal);
  const StepId table_step = cx.working().last();
  out.cite = cx.cite("egc-table");
  auto wanted = circular_mils(cx, out.size, cx.text("circular mils of {}", out.size.label()), "G");
  cx.working().because_of(table_step);
  // A cap of its own metal: how two metals compare in size the rule does not say, so the table stands then.
  const bool can_cap = metal == k.material;
  Traced<double> cap = installed;
  // Each of several raceways has a grounding conductor of the full size; the cap is all conductors, or one of them.
  if (k.sets > 1 && !cx.flag("egc-parallel", "per-raceway-cap")) {
    const auto sets = cx.working().choice("conductors in parallel", "m", k.sets, units::count, "as given", cx.cite("parallel"));
    cap = cx.apply(calc::all_sets, units::circular_mil, cx.cite("egc-parallel"), sets, installed);
  }
  if (!can_cap || wanted.value < cap.value) {
    try {
      out.smallest = measured_from(cx, c);
    } catch (const Stop& stop) {
      if (!can_cap) throw;
      out.open = stop;
      out.by = GroundNeed::By::conductors;
      out.cite = cx.cite("egc-cap");
      wanted = cap;
    }
  }
  if (out.smallest) {
    out.why = cx.working().last();
    if (out.smallest->size < k.size.value) {
      const auto enough = circular_mils(cx, out.smallest->size, cx.text("circular mils of the {} that would do", out.smallest->size.label()), "M");
      cx.working().because_of(out.why);
      wanted = cx.apply(calc::grown, units::circular_mil, cx.cite("egc-increase"), wanted, installed, enough);
      out.by = GroundNeed::By::increase;
      out.cite = cx.cite("egc-increase");
    }
  }
  if (can_cap && wanted.value > cap.value) {
    wanted = cx.apply(calc::capped, units::circular_mil, cx.cite("egc-cap"), wanted, cap);
    if (out.by != GroundNeed::By::increase) {  // else it is the increase that asks for more than the table
      out.by = GroundNeed::By::conductors;
      out.cite = cx.cite("egc-cap");
    }
  }
  // The size itself is known, but for one that grew or for the sum of several.
  if (out.by == GroundNeed::By::table) {
    out.circular_mils = wanted;
  } else if (wanted.value == installed.value) {
    out.size = k.size.value;
    out.circular_mils = wanted;
  } else {
    out.size = size_from(cx, wanted.value);
    out.circular_mils = circular_mils(cx, out.size, cx.text("circular mils of {}, the next size", out.size.label()), "Gs");
    cx.working().because_of(wanted.step);
  }
  return out;
}

}  // namespace pullproof::derive
