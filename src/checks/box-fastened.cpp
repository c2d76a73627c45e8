#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Box& b) {
  const Citation cite = cx.cite("box-fastened");
  const Given<bool>& told = b.site.fastened;
  if (told && *told) return void(cx.pass("it is fastened to the building", cite, told.where));
  if (told) return void(cx.fail("it hangs by its wiring", "screw it to the framing or to a brace, or hold it by two threaded raceways that are strapped near it", cite, told.where));
  if (b.width || b.height || b.depth)  // a pull box hangs on what enters it until somebody has seen to it
    return void(cx.advise("nothing is said of how it is fastened (box.fastened)", "fasten it to the building, not to its raceways alone", cite, b.where));
  cx.not_applicable("nothing is said of how it is fastened", cite);
}

}  // namespace

extern const Check check_box_fastened{
    .id = "box-fastened",
    .title = "Boxes are fastened",
    .family = Family::boxes,
    .about = "A box that hangs by its cable pulls the clamp apart and the wires out of their connectors. Boxes are fastened to the building or to a brace, or held "
             "by raceways as their article allows.",
    .formula = "",
    .reads = "box.fastened, box.width, box.height, box.depth",
    .rules = "box-fastened",
    .run = run};

}  // namespace pullproof
