#include "derive/box.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Box& b) {
  if (b.kind && *b.kind == "conduit body" && b.passes_through.value_or(false)) {
    cx.not_applicable("a conduit body without splices goes by the fill of its raceway", cx.cite("conduit-body"));
    return;
  }
  const auto in = derive::incoming(cx, b);
  if (!derive::largest_conductor(in, b)) {
    cx.not_applicable("no conductor of this case enters it", cx.cite("box-fill"));
    return;
  }
  if (!derive::goes_by_volume(cx, b, in)) {
    cx.not_applicable("its conductors are so large that the rule for pull boxes holds", cx.cite("pull-box"));
    return;
  }
  const auto room = derive::box_volume(cx, b);
  const auto need = derive::needed_volume(cx, b, in);
  Finding& f = cx.require(need, Must::at_most, room, cx.cite("box-fill"));
  if (f.verdict == Verdict::fail)
    f.change = cx.text("use a box of at least {} in³, or add a marked extension ring", number_text(round_half_up(units::cubic_inch.show(need.value) + 0.0499, 1), 1));
}

}  // namespace

extern const Check check_box_volume{
    .id = "box-volume",
    .title = "Room in the box",
    .family = Family::boxes,
    .about = "A crowded box bends and nicks insulation and traps heat. Every conductor that enters takes a volume by its size; "
             "clamps, support fittings, devices, grounds, terminal blocks and barriers take theirs, each by the largest conductor "
             "that the rule names. The sum is held against the marked volume of the box, or that of its standard size. Boxes "
             "with larger conductors go by the rule for pull boxes.",
    .formula = "S = sum of n * v1 over everything in the box; S <= Vb",
    .reads = "box.volume, box.kind, box.size, box.entries, box.passes_through, box.loops, box.clamps, box.fittings, box.devices, "
             "box.terminal_blocks, box.isolated_ground, box.barrier, box.barrier_volume, box.also, circuit.path, wire.size, ground.size",
    .rules = "box-volume, box-sizes, box-fill, box-conductor, box-loop, box-clamps, box-support-fittings, box-devices, box-grounding, "
             "box-terminal-blocks, box-barrier, pull-box, conduit-body",
    .run = run};

}  // namespace pullproof
