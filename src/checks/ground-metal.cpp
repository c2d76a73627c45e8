#include "derive/wiring.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (c.path.empty()) cx.needs_input("circuit.path", "the grounding conductor runs along it");
  bool any = false;
  for (const Stretch& s : c.path) {
    const derive::GroundOn g = derive::ground_on(cx, c, s);
    if (!g.wire || s.cable != nullptr || g.material == Material::copper) continue;
    any = true;
    const Citation cite = cx.cite("egc-aluminum");
    const auto above = cx.parameter("egc-aluminum", "height", units::inch);
    const Given<Place>& place = derive::place_of(s);
    const std::string_view name = derive::name_of(s);
    cx.need(place, "raceway.place", cx.text("'{}': {} corrodes in some places", name, word(g.material)));
    if (place->has(Place::corrosive) && g.bare)
      cx.fail(cx.text("bare {} may not be in '{}', which is corrosive", word(g.material), name), "use copper for the grounding conductor", cite, g.where);
    else if (place->has(Place::outdoors) || place->has(Place::underground))
      cx.advise(cx.text("'{}' is outside: the {} grounding wire may not end within {} in of the earth, but in an enclosure listed for it", name, word(g.material), number_text(units::inch.show(above), 1)),
                "end it higher, in a listed enclosure, or use copper", cite, g.where);
    else
      cx.pass(cx.text("{} may be the grounding wire in '{}'", word(g.material), name), cite, g.where);
  }
  if (!any) cx.not_applicable("no grounding wire of aluminum");
}

}  // namespace

extern const Check check_ground_metal{
    .id = "ground-metal",
    .title = "Metal of the grounding conductor",
    .family = Family::grounding,
    .about = "Aluminum corrodes where it meets earth, masonry or a corrosive atmosphere, and a grounding wire that is corroded through is "
             "missed only when someone touches the frame. Bare aluminum stays out of corrosive places, and outside buildings its ends "
             "stay clear of the earth unless the enclosure is listed for the place.",
    .formula = "",
    .reads = "ground.material, ground.bare, raceway.place, circuit.path",
    .rules = "egc-aluminum",
    .run = run};

}  // namespace pullproof
