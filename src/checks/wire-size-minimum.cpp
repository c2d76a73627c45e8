#include "derive/wiring.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

std::string_view metal(Material m) { return m == Material::copper ? "copper" : "aluminum"; }

/// The smallest size for general wiring in a metal; copper-clad aluminum goes with aluminum unless it has its own.
ConductorSize smallest_for(const Context& cx, Material m) {
  const code::RuleRef rule = cx.rule("minimum-size");
  if (m == Material::copper_clad && !rule[word(m)].blank()) return *ConductorSize::parse(rule[word(m)].text());
  return *ConductorSize::parse(rule[metal(m)].text());
}

/// Whether a cable of this type is made in the size and the metal; reports where it is not.
bool cable_is_made(Context& cx, const derive::Conductors& k, std::string_view wire) {
  const auto t = cx.table("cable-types");
  const std::size_t row = cx.row(t, *k.cable->type);
  const bool copper = k.material == Material::copper;
  const std::size_t first = t.column(copper ? "smallest-cu" : "smallest-al"), last = t.column(copper ? "largest-cu" : "largest-al");
  const auto smallest = ConductorSize::parse(t.cell(row, first).text()), largest = ConductorSize::parse(t.cell(row, last).text());
  if (!smallest) {
    cx.fail(cx.text("{} is not made with {} conductors", *k.cable->type, word(k.material)), "use copper", cx.edition().cite(t, row, first),
            k.cable->type.where);
    return false;
  }
  if (*k.size >= *smallest && (!largest || *k.size <= *largest)) return true;
  const bool small = *k.size < *smallest;
  cx.fail(cx.text("{} is not made in {}", *k.cable->type, wire),
          small ? cx.text("use {} or larger", smallest->label()) : cx.text("use {} or smaller, or another type", largest->label()),
          cx.edition().cite(t, row, small ? first : last), k.size.where);
  return false;
}

void look(Context& cx, const derive::Conductors& k, const Stretch& s) {
  const std::string_view wire = cx.text("{} {}", k.size->label(), word(k.material)), in = derive::name_of(s);
  bool cord = false;
  if (k.cable != nullptr) {
    const auto t = cx.table("cable-types");
    cord = t.cell(cx.row(t, *k.cable->type), "cord").yes();
    if (!cable_is_made(cx, k, wire)) return;
  } else if (!k.type.empty() && !k.fixture) {
    const auto t = cx.table("insulation");
    const std::size_t row = cx.row(t, k.type), column = t.column(metal(k.material));
    if (!t.cell(row, column).yes()) {
      cx.fail(cx.text("{} is not made with {} conductors", k.type, word(k.material)), "use copper", cx.edition().cite(t, row, column), k.type_where);
      return;
    }
  }
  if (k.sets > 1) {
    const auto least = *ConductorSize::parse(cx.parameter_text("parallel", "smallest"));
    if (*k.size < least) {
      cx.fail(cx.text("{} in '{}' is too small to be run in parallel", wire, in), cx.text("use {} or larger, or one set", least.label()),
              cx.cite("parallel"), k.size.where);
      return;
    }
  }
  const ConductorSize least = smallest_for(cx, k.material);
  const Citation cite = cx.cite("minimum-size");
  if (cord) {
    cx.pass(cx.text("{} in '{}' is a cord, which has no such limit", wire, in), cite, k.size.where);
  } else if (*k.size < least) {
    cx.fail(cx.text("{} in '{}' is below the smallest size for general wiring", wire, in), cx.text("use {} or larger", least.label()), cite, k.size.where);
  } else {
    cx.pass(cx.text("{} in '{}' is at least the {} of general wiring", wire, in, least.label()), cite, k.size.where);
  }
}

void run(Context& cx, const Circuit& c) {
  if (c.path.empty()) cx.needs_input("circuit.path", "each stretch may have a size of its own");
  for (const Stretch& s : c.path) look(cx, derive::conductors_on(cx, c, s), s);
}

}  // namespace

extern const Check check_wire_size_minimum{
    .id = "wire-size-minimum",
    .title = "Smallest conductors",
    .family = Family::conductors,
    .about = "Very thin wire breaks, loosens at its terminals and has no place in general wiring, however small the load: there is a "
             "smallest size for each metal, a larger one for conductors in parallel, which have to share the current evenly, and "
             "cables come only in the sizes and metals that they are made in. Cords are exempt from the smallest size.",
    .formula = "",
    .reads = "circuit.path, wire.size, wire.material, wire.type, wire.parallel, cable.size, cable.material, cable.type",
    .rules = "minimum-size, parallel, cable-types, insulation",
    .run = run};

}  // namespace pullproof
