#pragma once
// Keys of [[raceway]] and [[cable]] that say how they are laid. Limits in metres and °C.
#include "job/keys/units.hpp"
#include "job/laying.hpp"

namespace pullproof {

template <class V>
void describe(V& v, Supports& s) {
  v.field("by", s.by, "what it is fastened to: structure, ceiling grid, raceway, pipe or duct");
  v.field("every", s.every, "largest distance from one strap, staple or hanger to the next", 0.01, 5000 * feet);
  v.field("from_box", s.from_box, "largest distance from a box, cabinet, fitting or other end to the first one", 0, 5000 * feet);
  v.field("unfastened", s.unfastened, "of a flexible piece: from its last fastening to the equipment", 0, 100 * feet);
  v.field("none", s.none, "true when nothing holds it");
  v.field("unbroken", s.unbroken, "true when there is no coupling up to the first support and nothing nearer to fasten to");
  v.field("threaded", s.threaded, "true for a straight run with threaded couplings");
  v.field("riser", s.riser, "true for a vertical riser that is held at top and bottom");
  v.field("fished", s.fished, "true when it is fished through a finished space where nothing can be fastened");
  v.field("through_framing", s.through_framing, "true for a level run through holes in studs or joists, which hold it");
  v.field("accessible_ceiling", s.accessible_ceiling, "true within an accessible ceiling, to a luminaire or other equipment");
  v.field("unclamped_box", s.unclamped_box, "true when the box is single-gang, nonmetallic and has no cable clamp");
  v.field("per_staple", s.per_staple, "cables under one staple", 1, 20);
  v.field("on_edge", s.on_edge, "true when a flat cable is stapled on its edge");
}

template <class V>
void describe(V& v, GroundRiser& r) {
  v.field("type", r.type, "the raceway around it, \"PVC-80\"");
  v.field("above", r.above, "how far above grade the raceway reaches", 0, 100 * feet);
  v.field("below", r.below, "how far below grade the raceway reaches", 0, 20 * feet);
  v.field("ends_at", r.ends_at, "height above grade where the cable enters an enclosure or building", 0, 100 * feet);
}

template <class V>
void describe(V& v, Laying& l) {
  v.table("supports", l.supports, "what holds it");
  v.field("edge_distance", l.edge_distance, "in or along framing: to the nearest edge of stud, joist or rafter", 0, 1);
  v.field("nail_plate", l.nail_plate, "true when a steel plate covers it where it is too near that edge");
  v.field("metal_studs", l.metal_studs, "true when it goes through holes in metal studs or joists");
  v.field("grommets", l.grommets, "true when bushings or grommets cover the edges of those holes");
  v.field("roof_deck", l.roof_deck, "corrugated metal or other, when it runs below a roof deck");
  v.field("below_deck", l.below_deck, "from the lowest surface of the roof deck to its top", 0, 10);
  v.field("cover", l.cover, "buried: from grade to its top", 0, 20 * feet);
  v.field("under", l.under, "buried: what lies over it, ground, concrete, building, slab, street, driveway ...");
  v.field("rock", l.rock, "true when solid rock keeps it from its depth");
  v.field("concrete", l.concrete, "thickness of the concrete over it, down to the rock", 0, 10);
  v.field("sunlight_resistant", l.sunlight_resistant, "true when it is marked sunlight resistant");
  v.field("outdoor_rated", l.outdoor_rated, "true when it is listed and marked for outdoors");
  v.field("direct_burial", l.direct_burial, "true when it is listed and marked for direct burial");
  v.field("plenum_rated", l.plenum_rated, "true when it is listed for air-handling spaces");
  v.field("corrosion_protected", l.corrosion_protected, "true when it has corrosion protection that suits the place or soil");
  v.field("rated_wall", l.rated_wall, "true when it goes through a fire-rated wall, floor or ceiling");
  v.field("fire_stopped", l.fire_stopped, "true when the opening around it is fire-stopped");
  v.field("backfill_clean", l.backfill_clean, "buried: true when no rock, rubble, cinders or other sharp or corrosive stuff lies against it");
  v.field("ground_moves", l.ground_moves, "buried: true when that ground settles or frost heaves it");
  v.field("slack", l.slack, "buried where the ground moves: true when loops, slack or fittings that give take that up");
}

template <class V>
void describe(V& v, RacewayLaying& l) {
  v.field("fittings", l.fittings, "set-screw, compression, raintight (compression that is listed so) or threaded");
  v.field("angle_connectors", l.angle_connectors, "true when a flexible piece ends in angle connectors");
  v.field("coldest", l.coldest, "the coldest that it gets", -60, 60);
  v.field("straight", l.straight, "longest straight run between boxes, elbows or other things that hold it fast", 0.01, 5000 * feet);
  v.field("expansion_fitting", l.expansion_fitting, "true when it has an expansion fitting");
  v.field("expansion_travel", l.expansion_travel, "travel of that fitting", 0.001, 3);
  v.field("encased", l.encased, "true when it lies in 2 in of concrete");
  v.field("drains", l.drains, "true when water that gets in runs out");
  v.field("sealed", l.sealed, "true when its inside is sealed with duct seal or the like");
  v.field("enters_building", l.enters_building, "true when it comes into a building from outside");
  v.field("known_condensation", l.known_condensation, "true when it joins warm and cold spaces and condensation is a problem there");
  v.field("bushings", l.bushings, "true when its ends have insulating bushings or smooth insulated fittings");
  v.field("concentric_knockouts", l.concentric_knockouts, "true when it ends in concentric, eccentric or oversized knockouts");
  v.field("bonding_bushing", l.bonding_bushing, "true when it is bonded there by a bushing with a jumper, or the box is listed for it");
  v.field("neutrals_grouped", l.neutrals_grouped, "true when each neutral in it is tied or tagged to its own circuit at the ends");
}

template <class V>
void describe(V& v, Guard& g) {
  v.field("across_joists", g.across_joists, "unfinished basement or crawl space: true when it runs across the bottoms of the joists, not through holes or along them");
  v.field("running_board", g.running_board, "true when it runs on a board there");
  v.field("across_framing", g.across_framing, "attic: true when it crosses the tops of floor joists or the faces of rafters or studs");
  v.field("strips", g.strips, "attic: true when guard strips at least as high as the cable run beside it");
  v.field("stairs", g.stairs, "attic: true when it is reached by permanent stairs or a permanent ladder, not by a hatch alone");
  v.field("from_hatch", g.from_hatch, "attic: from the nearest edge of the hatch (scuttle hole)", 0, 1000 * feet);
  v.field("above_floor", g.above_floor, "attic: height above the floor joists, where it crosses rafters or studs", 0, 100 * feet);
}

template <class V>
void describe(V& v, CableLaying& l) {
  v.table("riser", l.riser, "what protects it where it comes out of the ground");
  v.table("guard", l.guard, "what guards it where it runs over framing in an unfinished basement, crawl space or attic");
  v.field("fastened", l.fastened, "cord: true when it is attached to the building");
  v.field("through_wall", l.through_wall, "cord: true when it goes through a wall, floor, ceiling, door or window");
  v.field("sheath_in_box", l.sheath_in_box, "length of sheath that reaches into the box", 0, 0.5);
}

}  // namespace pullproof
