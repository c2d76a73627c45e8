#include <algorithm>

#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Whether a grounding wire of a circuit of this case comes into the box.
bool grounds_enter(const Context& cx, const Box& b) {
  for (const Circuit& c : cx.job().circuits)
    for (const Stretch& s : c.path) {
      const bool here = std::any_of(b.entries.begin(), b.entries.end(), [&](const BoxEntry& e) {
        return (e.raceway != nullptr && e.raceway == s.raceway) || (e.cable != nullptr && e.cable == s.cable);
      });
      if (!here) continue;
      Context quiet = cx.scratch();
      try {
        if (derive::ground_on(quiet, c, s).wire) return true;
      } catch (const Stop&) {
        continue;  // asked for where it matters
      }
    }
  return false;
}

void run(Context& cx, const Box& b) {
  const Citation cite = cx.cite("box-grounds");
  const Given<bool>& joined = b.site.grounds_joined;
  if (joined && *joined) return void(cx.pass("its grounds are joined, and no device has to pass them on", cite, joined.where));
  if (joined)
    return void(cx.fail("its grounds are not joined to one another and to a metal box", "join them all with a listed connector, with a tail to each device and one to the box where it is metal",
                        cite, joined.where));
  if (b.passes_through.value_or(false)) return void(cx.not_applicable("conductors run through it without a splice", cite));
  if (!b.devices.empty() && grounds_enter(cx, b))
    return void(cx.advise("nothing is said of its grounds (box.grounds_joined)", "join them all, with a tail to each device and one to the box where it is metal", cite, b.where));
  cx.not_applicable("nothing is said of its grounds", cite);
}

}  // namespace

extern const Check check_box_grounds{
    .id = "box-grounds",
    .title = "Grounds are joined in the box",
    .family = Family::boxes,
    .about = "A ground that passes through the screw of a receptacle is open when the receptacle is taken off, for everything behind it. All grounding "
             "wires of the circuits that are spliced or end in a box are joined there, to the box too where it is metal, and each device gets a tail.",
    .formula = "",
    .reads = "box.grounds_joined, box.devices, box.passes_through, box.entries, circuit.path, ground.size, cable.ground",
    .rules = "box-grounds",
    .run = run};

}  // namespace pullproof
