#include "derive/box.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Box& b) {
  if (!b.kind || *b.kind != "conduit body") {
    cx.not_applicable("it is no conduit body", cx.cite("conduit-body"));
    return;
  }
  const auto in = derive::incoming(cx, b);
  if (!derive::largest_conductor(in, b)) {
    cx.not_applicable("no conductor of this case enters it", cx.cite("conduit-body"));
    return;
  }
  if (!derive::goes_by_volume(cx, b, in)) {
    cx.not_applicable("its conductors are so large that the rule for pull boxes holds", cx.cite("pull-box"));
    return;
  }
  if (b.passes_through.value_or(false)) {
    cx.pass("no splices: it holds what its raceways may hold, which their fill answers", cx.cite("conduit-body"));
    return;
  }
  cx.need(b.passes_through, "box.passes_through", "a conduit body may hold splices only with a marked volume");
  if (!b.volume) {
    cx.fail("splices in a conduit body without a marked volume", "pull the conductors through, or use a body that is marked with its volume",
            cx.cite("conduit-body"), b.where);
    return;
  }
  cx.pass("splices in a body with a marked volume, which its contents are held against", cx.cite("conduit-body"), b.volume.where);
}

}  // namespace

extern const Check check_conduit_body{
    .id = "conduit-body",
    .title = "Conduit bodies",
    .family = Family::raceways,
    .about = "A conduit body is part of the raceway, not a box: without splices it holds the conductors that its raceways may hold. "
             "Splices, taps and devices are for bodies that are durably marked with their volume, and then the volumes of a box count.",
    .formula = "",
    .reads = "box.kind, box.passes_through, box.volume, box.entries, circuit.path, wire.size",
    .rules = "conduit-body, pull-box, box-fill",
    .run = run};

}  // namespace pullproof
