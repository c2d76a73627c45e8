#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Cable& k) {
  const Laying& l = k.laid;
  if (!l.metal_studs.value_or(false) && !l.grommets) return void(cx.not_applicable("nothing says that it goes through metal framing"));
  derive::type_of(cx, Way(k));
  if (!cx.listed("metal-framing", "types", *k.type)) return void(cx.not_applicable("the rule is for nonmetallic cable", cx.cite("metal-framing")));
  cx.need(l.grommets, "cable.grommets", "bushings or grommets cover the edges of the holes in metal framing");
  if (*l.grommets) cx.pass("bushings or grommets cover the edges of the holes", cx.cite("metal-framing"), l.grommets.where);
  else cx.fail("it goes over the bare edges of holes in metal framing", "snap listed bushings or grommets into the holes before the cable goes in", cx.cite("metal-framing"), l.grommets.where);
}

}  // namespace

extern const Check check_metal_framing{
    .id = "metal-framing",
    .title = "Nonmetallic cable through metal framing",
    .family = Family::places,
    .about = "The edge of a hole in a steel stud cuts the sheath. Nonmetallic cable goes through bushings or grommets that cover the metal edges "
             "and are in place before the cable.",
    .formula = "",
    .reads = "cable.type, cable.metal_studs, cable.grommets",
    .rules = "metal-framing",
    .run = run};

}  // namespace pullproof
