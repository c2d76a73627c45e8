#include <algorithm>

#include "derive/ground.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

using derive::GroundNeed;

/// Why it has to be that large, to end a message with.
std::string_view reason(Context& cx, const Circuit& c, const GroundNeed& need, const ConductorSize& conductors) {
  switch (need.by) {
    case GroundNeed::By::table: return cx.text("that a device of {} asks for", c.breaker.rating.text);
    case GroundNeed::By::increase:
      return cx.text("that {} conductors ask for where {} would do", conductors.label(), need.smallest->size.label());
    case GroundNeed::By::conductors: return "of the ungrounded conductors, which it need not exceed";
    case GroundNeed::By::cord: return "of the conductors of the cord, which it equals";
  }
  return {};
}

std::string_view remedy(Context& cx, const GroundNeed& need, Material metal) {
  std::string_view out = cx.text("use {} {} for the grounding conductor", need.size.label(), word(metal));
  if (need.by != GroundNeed::By::increase) return out;
  out = cx.text("{}: it grows with ungrounded conductors that are larger than they need be, so a smaller device or larger conductors ask for more", out);
  if (cx.flag("egc-increase", "qualified-exception"))
    out = cx.text("{}; a qualified person may find another size enough for the fault path", out);
  return out;
}

/// What was answered on one stretch, so that stretches alike are answered once.
struct Answered {
  ConductorSize ground, conductors;
  Material metal;
  bool cable;
  friend bool operator==(const Answered&, const Answered&) = default;
};

void run(Context& cx, const Circuit& c) {
  if (c.path.empty()) cx.needs_input("circuit.path", "the grounding conductor runs along it");
  std::vector<Answered> answered;
  const bool one_size = std::all_of(c.path.begin(), c.path.end(), [&](const Stretch& s) { return s.cable == nullptr && !s.wire.size && !s.ground.size && !s.ground.kind; });
  for (const Stretch& s : c.path) {
    const derive::GroundOn g = derive::ground_on(cx, c, s);
    if (!g.wire && (g.raceway || g.shared != nullptr)) continue;
    if (!g.wire && s.cable != nullptr && derive::armor_grounds(cx, *s.cable)) continue;
    const std::string_view key = s.cable != nullptr ? "cable.ground" : "ground.size";
    cx.need(g.size, key, cx.text("the grounding conductor in '{}'", derive::name_of(s)));
    const derive::Conductors k = derive::conductors_on(cx, c, s);
    const Answered now{g.size.value, k.size.value, g.material, s.cable != nullptr};
    if (std::find(answered.begin(), answered.end(), now) != answered.end()) continue;
    answered.push_back(now);
    if (g.shared != nullptr)
      cx.choose("shared grounding wire", cx.text("it is that of '{}', which has to do for the device of each", *g.shared->name), cx.cite("egc-shared"));
    const GroundNeed need = derive::ground_need(cx, c, s, g.material);
    const auto has = derive::circular_mils(cx, g.size.value, cx.text("circular mils of the grounding {}", g.size->label()), "Gh");
    if (need.open && !at_least(has.value, need.circular_mils.value)) throw *need.open;
    Finding& f = cx.require(has, Must::at_least, need.circular_mils, need.cite, g.where);
    f.beside = need.why;
    const std::string_view place = one_size ? std::string_view{} : cx.text(" in '{}'", derive::name_of(s));
    f.message = cx.text("{} {} grounding conductor{} {} the {} {}", g.size->label(), word(g.material), place,
                        f.verdict == Verdict::pass ? "covers" : "is below", need.size.label(), reason(cx, c, need, k.size.value));
    if (f.verdict == Verdict::fail) f.change = remedy(cx, need, g.material);
  }
  if (answered.empty()) cx.not_applicable("no grounding wire of its own: raceway, armor or another circuit's wire does it", cx.cite("egc-table"));
}

}  // namespace

extern const Check check_ground_size{
    .id = "ground-size",
    .title = "Size of the grounding conductor",
    .family = Family::grounding,
    .about = "A ground fault has to draw so much current that the device trips at once, and the grounding conductor has to carry it "
             "until then. Its size goes by the device, never by the load. Where the ungrounded conductors are larger than the smallest "
             "that would do, for voltage drop or out of habit, it grows in the same ratio of circular mils; what ambient and number of "
             "conductors ask for is no increase. Last, it need not be larger than the ungrounded conductors. A flexible cord has one as "
             "large as its conductors. A smaller device on the same wire can ask for more, since the wire is then larger than it need be.",
    .formula = "Gh >= min(G * S / M, S), the next size up",
    .reads = "breaker.rating, breaker.kind, breaker.terminals, load.terminals, ground.size, ground.material, ground.kind, "
             "ground.shared_with, wire.size, wire.material, wire.type, wire.parallel, cable.type, cable.ground, circuit.path, circuit.load",
    .rules = "egc, egc-table, egc-increase, egc-cap, egc-cord, egc-parallel, egc-shared, conductor-properties, ampacity, minimum-size, "
             "parallel, small-conductors, next-size-up, ocpd-conductor, cable-types",
    .run = run};

}  // namespace pullproof
