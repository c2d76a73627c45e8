#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Way& w) {
  if (!w.has(Place::rooftop)) return void(cx.not_applicable("it is not on a roof"));
  const Citation cite = cx.cite("rooftop");
  if (!cx.flag("rooftop", "minimum-clearance"))
    return void(cx.not_applicable("this edition orders no distance; the heat near the roof counts in the ampacity", cite));
  const Given<Length>& above = w.raceway != nullptr ? w.raceway->above_roof : w.cable->above_roof;
  cx.need(above, derive::key(cx, w, "above_roof"), "this edition asks for a distance from the roof");
  const auto have = cx.given("height above the roof", "h", above, units::inch);
  const auto least = cx.parameter("rooftop", "clearance", "height that it should have", "hmin", units::inch);
  // The same sentence orders the distance and says what to add to the temperature where it is less.
  Finding& f = cx.recommend(have, Must::at_least, least, cite, above.where);
  if (f.verdict == Verdict::advice) f.change = cx.text("block it up to {}; some inspectors take the order to the letter", cx.parameter_text("rooftop", "clearance"));
}

}  // namespace

extern const Check check_roof_clearance{
    .id = "roof-clearance",
    .title = "Height above a roof",
    .family = Family::raceways,
    .about = "A raceway or cable that lies on a sunny roof gets much hotter than the air. The 2017 edition orders a distance of 7/8 in "
             "and in the same breath says what to add to the temperature where it is less; later ones keep only the addition, which "
             "the ampacity check makes.",
    .formula = "h >= hmin",
    .reads = "raceway.place, raceway.above_roof, cable.place, cable.above_roof",
    .rules = "rooftop",
    .run = run};

}  // namespace pullproof
