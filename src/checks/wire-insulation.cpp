#include <fmt/format.h>

#include <optional>

#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Types of the same outside dimensions that may be in such a place, the best columns first.
std::string types_for(const code::TableRef& t, std::size_t row, std::string_view place) {
  const std::string_view group = t.cell(row, "dimensions").text();
  std::string out;
  int named = 0;
  for (const double column : {90.0, 75.0, 60.0})
    for (std::size_t r = 0; r < t.rows() && named < 2; ++r) {
      if (group.empty() || t.cell(r, "dimensions").text() != group || t.cell(r, place).number() != std::optional(column)) continue;
      out += fmt::format("{}{}", out.empty() ? "" : " or ", t.cell(r, "type").text());
      ++named;
    }
  return out;
}

/// Cables, no cords, that all of these columns allow.
std::string cables_for(const code::TableRef& t, const std::vector<std::string_view>& columns) {
  std::string out;
  int named = 0;
  for (std::size_t r = 0; r < t.rows() && named < 3; ++r) {
    bool good = !t.cell(r, "cord").yes();
    for (const std::string_view column : columns) good = good && t.cell(r, column).yes();
    if (!good) continue;
    out += fmt::format("{}{}", out.empty() ? "" : ", ", t.cell(r, "type").text());
    ++named;
  }
  return out;
}

void conductors(Context& cx, const derive::Conductors& k, const Stretch& s) {
  const std::string_view in = derive::name_of(s);
  if (k.fixture) {
    cx.fail(cx.text("{} in '{}' is fixture wire, which is no wire for branch circuits or feeders", k.type, in), "use building wire",
            cx.cite("fixture-wire-use"), k.type_where);
    return;
  }
  const auto t = cx.table("insulation");
  const std::size_t row = cx.row(t, k.type);
  const derive::MoistureFound m = derive::moisture_in(cx, s);
  const std::string_view place = derive::moisture_word(m.moisture);
  const Citation cite = cx.edition().cite(t, row, t.column(place));
  if (t.cell(row, place).number()) {
    cx.pass(cx.text("{} in '{}' is for {} places", k.type, in, place), cite, k.type_where, m.why);
    return;
  }
  const std::string better = types_for(t, row, place);
  const bool wet = m.moisture == Moisture::wet;
  cx.fail(cx.text("{} may not be where it is {}, as in '{}'", k.type, place, in),
          better.empty() ? cx.text("use a type that is listed for {} places", place) : cx.text("use {}", better),
          wet && !m.rule.empty() ? cx.cite(m.rule) : cite, k.type_where, m.why);
}

void cable(Context& cx, const derive::Conductors& k, const Stretch& s) {
  const std::string_view in = derive::name_of(s), type = *k.cable->type;
  const auto t = cx.table("cable-types");
  const std::size_t row = cx.row(t, type);
  const bool bare = derive::raceway_around(cx, s) == nullptr;
  const auto is = [&](Place::Word w) { return k.cable->place && k.cable->place->has(w); };
  const bool buried = bare && is(Place::underground);
  const derive::MoistureFound m = derive::moisture_in(cx, s);
  std::vector<std::string_view> columns{derive::moisture_word(m.moisture)};
  if (buried) columns.emplace_back("buried");
  else if (bare && (is(Place::outdoors) || is(Place::rooftop))) columns.emplace_back("outdoors");
  for (const std::string_view column : columns) {
    if (t.cell(row, column).yes()) continue;
    const std::string better = cables_for(t, columns);
    const std::string_view where = column == "outdoors" || column == "buried" ? column : cx.text("where it is {}", column);
    cx.fails_in("method-place", cx.text("{} may not be {}, as in '{}'", type, where, in),
                better.empty() ? std::string_view("use wire that is listed for the place in a raceway")
                               : cx.text("use {}, or wire that is listed for the place in a raceway", better),
                cx.edition().cite(t, row, t.column(column)), k.cable->type.where, cx.text("cable {}", in));
  }
  if (!k.type.empty() && k.cable->insulation) return conductors(cx, k, s);
  cx.pass(cx.text("{} in '{}' may be {}", type, in, buried ? "buried" : cx.text("where it is {}", columns.front())),
          cx.edition().cite(t, row, t.column(columns.back())), k.cable->type.where, m.why);
}

void run(Context& cx, const Circuit& c) {
  if (c.path.empty()) cx.needs_input("circuit.path", "the insulation has to suit where the conductors run");
  const Stretch* without_place = nullptr;
  bool without_type = false;
  std::optional<Stop> wrong_cable;
  for (const Stretch& s : c.path) {
    const derive::Conductors k = derive::conductors_on(cx, c, s);
    const Raceway* around = derive::raceway_around(cx, s);
    if (!derive::place_of(s) && (around == nullptr || !around->place)) without_place = &s;
    else if (k.cable != nullptr) {
      try {
        cable(cx, k, s);
      } catch (const Stop& stop) {
        if (!wrong_cable) wrong_cable = stop;
      }
    } else if (k.type.empty()) without_type = true;
    else conductors(cx, k, s);
  }
  if (without_type) cx.needs_input("wire.type", "whether the insulation suits its place depends on it");
  if (without_place != nullptr)
    cx.needs_input(without_place->raceway != nullptr ? "raceway.place" : "cable.place",
                   cx.text("whether '{}' is dry, damp or wet decides what may be in it", derive::name_of(*without_place)));
  if (wrong_cable) throw Stop(*wrong_cable);
}

}  // namespace

extern const Check check_wire_insulation{
    .id = "wire-insulation",
    .title = "Insulation for the place",
    .family = Family::conductors,
    .about = "Insulation that is not made for water lets it in, and the wire fails years later. Each stretch of the path is dry, "
             "damp or wet: raceways underground, and above ground outdoors, are wet inside whatever the weather. The type of wire "
             "or cable has to be listed for that, and for being outdoors or buried where it lies without a raceway. Fixture wire is "
             "no wire for branch circuits.",
    .formula = "",
    .reads = "circuit.path, wire.type, raceway.place, cable.type, cable.insulation, cable.place, cable.inside",
    .rules = "insulation, cable-types, fixture-wire, fixture-wire-use, wet-raceway-outdoors, wet-raceway-underground, wet-conductors, "
             "damp-conductors, dry-conductors",
    .run = run};

}  // namespace pullproof
