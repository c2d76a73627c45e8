#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The size by the conductors that come in, or the largest that an electrode of this kind needs.
std::string_view needed(Context& cx, const Circuit& c) {
  Context quiet = cx.scratch();
  const derive::Conductors k = derive::conductors_on(quiet, c, c.path.front());
  const auto t = cx.table("electrode-conductor");
  const bool copper = k.material == Material::copper;
  constexpr double printed = 0.999;  // the areas that the table prints are rounded, up to 0.03 % below the nominal ones
  const double mils = printed * k.sets * k.size->circular_mils();
  const auto row = t.band(copper ? "through-copper" : "through-aluminum", mils);
  if (!row) cx.not_covered("above the table", cx.edition().cite(t));
  const std::string_view by_table = cx.cell_text(t, *row, "copper", cx.text("copper for supply conductors of {}", k.size->label()), "Se");
  const auto cap = [&](std::string_view key, std::string_view what) {
    const std::string_view most = cx.parameter_text("electrode-conductor", key);
    if (!(*ConductorSize::parse(most) < *ConductorSize::parse(by_table))) return by_table;
    cx.choose("largest that is needed", cx.text("{} to {} and to nothing else", most, what), cx.cite("electrode-conductor"));
    return most;
  };
  if (!c.electrode_kind || *c.electrode_kind == ElectrodeKind::other) return by_table;
  return *c.electrode_kind == ElectrodeKind::rods ? cap("rod-copper", "rods") : cap("concrete-copper", "an electrode in concrete");
}

void run(Context& cx, const Circuit& c) {
  if (!c.electrode.value_or(false) && !c.electrode_wire) return void(cx.not_applicable("no grounding electrode is said to be at what it feeds"));
  const Citation cite = cx.cite("electrode-conductor");
  if (!c.electrode_wire) {
    if (c.electrode_kind) cx.needs_input("circuit.electrode_wire", "the wire to the electrode has a least size");
    return void(cx.not_applicable("nothing is said of the wire to the electrode", cite));
  }
  if (c.path.empty()) cx.needs_input("circuit.path", "the size goes by the conductors that come in");
  const std::string_view least = needed(cx, c);
  const std::string_view have = cx.text("{}", c.electrode_wire->label());
  if (*c.electrode_wire < *ConductorSize::parse(least))
    return void(cx.fail(cx.text("a wire of {} to the electrode is smaller than the {} that is needed", have, least), cx.text("use {} copper", least), cite,
                        c.electrode_wire.where, cx.working().last()));
  cx.pass(cx.text("a wire of {} to the electrode, where {} is needed", have, least), cite, c.electrode_wire.where, cx.working().last());
}

}  // namespace

extern const Check check_electrode_conductor{
    .id = "electrode-conductor",
    .title = "Wire to the electrode of another building",
    .family = Family::grounding,
    .about = "The wire to the electrodes of a building goes by the conductors that feed it. To rods it need not be larger than 6 AWG, since a rod "
             "passes little current, and to an electrode in concrete no larger than 4 AWG. Copper is taken.",
    .formula = "",
    .reads = "circuit.electrode, circuit.electrode_wire, circuit.electrode_kind, circuit.path, circuit.wire.size, circuit.wire.material",
    .rules = "electrode-conductor",
    .run = run};

}  // namespace pullproof
