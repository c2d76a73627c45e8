#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Box& b) {
  const Citation cite = cx.cite("box-accessible");
  const BoxSite& s = b.site;
  if (s.accessible && !*s.accessible)
    return void(cx.fail("it cannot be reached without taking off part of the building", "bring it to the surface, give it a blank cover in sight, or run the wires through without a splice and without a box",
                        cite, s.accessible.where));
  if (s.accessible) return void(cx.pass("it is reached without taking off part of the building", cite, s.accessible.where));
  if (s.place && s.place->has(Place::concealed))
    return void(cx.advise("it is concealed, and nothing says that it is still reached (box.accessible)",
                          "make sure that no part of the building has to come off to reach its splices", cite, s.place.where));
  cx.not_applicable("nothing says that it is covered up", cite);
}

}  // namespace

extern const Check check_box_access{
    .id = "box-access",
    .title = "Boxes stay within reach",
    .family = Family::boxes,
    .about = "A splice that loosens behind drywall burns where nobody looks. Boxes, conduit bodies and the splices in them are reached without taking "
             "off any part of the building; the panels of a ceiling that lift out are no such part.",
    .formula = "",
    .reads = "box.accessible, box.place",
    .rules = "box-accessible",
    .run = run};

}  // namespace pullproof
