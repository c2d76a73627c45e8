#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Box& b) {
  const Citation cite = cx.cite("box-cover");
  const Given<bool>& told = b.site.cover;
  if (told && *told) return void(cx.pass("it has a cover", cite, told.where));
  if (told) return void(cx.fail("it has no cover", "put on a cover that suits the place", cite, told.where));
  if (b.site.openings_closed || b.site.free_conductor)  // somebody has looked into it
    return void(cx.advise("nothing is said of its cover (box.cover)", "put on a cover, a faceplate or a canopy before the inspection", cite, b.where));
  cx.not_applicable("nothing is said of its cover", cite);
}

}  // namespace

extern const Check check_box_cover{
    .id = "box-cover",
    .title = "Boxes have covers",
    .family = Family::boxes,
    .about = "A splice under an open box throws its sparks into what lies beside it, and fingers find it. When the work is done each box, conduit body and "
             "device box has a cover, a faceplate or the canopy of a luminaire.",
    .formula = "",
    .reads = "box.cover, box.openings_closed, box.free_conductor",
    .rules = "box-cover",
    .run = run};

}  // namespace pullproof
