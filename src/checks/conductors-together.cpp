#include <algorithm>

#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

using Names = std::vector<Given<std::string_view>>;

bool follows(const Circuit& c, const Names& names) {
  return std::all_of(names.begin(), names.end(), [&](const auto& n) {
    return n && std::any_of(c.path.begin(), c.path.end(), [&](const Stretch& s) { return s.in && *s.in == *n; });
  });
}

/// A neutral or ground that leaves the rest. True when it is reported.
bool apart(Context& cx, const Circuit& c, const Names& names, std::string_view what, std::string_view change) {
  if (names.empty() || (follows(c, names) && names.size() == c.path.size())) return false;
  std::string where;
  for (const auto& n : names) where += fmt::format("{}'{}'", where.empty() ? "" : ", ", n.value);
  const bool iron = std::any_of(c.path.begin(), c.path.end(), [&](const Stretch& s) {
    return s.raceway != nullptr && s.raceway->type && derive::metal(cx, *s.raceway);
  });
  cx.fail(cx.text("the {} runs in {} and not with the rest of the circuit{}", what, where,
                  iron ? "; in steel the conductors of a circuit that are parted heat it" : ""),
          change, cx.cite("same-raceway"), names.front().where);
  return true;
}

void run(Context& cx, const Circuit& c) {
  if (c.path.empty() && c.neutral_path.empty() && c.ground_path.empty()) return void(cx.not_applicable("the case names no path"));
  if (c.path.empty()) cx.needs_input("circuit.path", "where the rest of the circuit runs");
  const bool neutral = apart(cx, c, c.neutral_path, "neutral", "pull the neutral through the same raceways as its hot wires");
  const bool ground = apart(cx, c, c.ground_path, "grounding wire",
                            "pull the grounding wire through the same raceways; only a bonding jumper of up to 6 ft may run outside a flexible piece");
  if (!neutral && !ground) cx.pass("all conductors of the circuit run together", cx.cite("same-raceway"), c.where);
}

}  // namespace

extern const Check check_conductors_together{
    .id = "conductors-together",
    .title = "Conductors of a circuit together",
    .family = Family::conductors,
    .about = "The currents out and back cancel their fields only side by side: a neutral or grounding wire that takes another way raises "
             "the impedance that trips the breaker and heats steel around a lone conductor. All conductors of a circuit run in the same "
             "raceway, cable or trench. The path of a circuit is taken for all of them unless neutral_path or ground_path says otherwise.",
    .formula = "",
    .reads = "circuit.path, circuit.neutral_path, circuit.ground_path, raceway.type",
    .rules = "same-raceway, raceway-types",
    .run = run};

}  // namespace pullproof
