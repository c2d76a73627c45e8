#pragma once
// Keys of [[raceway]] and [[cable]]. Limits in metres and degrees.
#include "job/ways.hpp"
#include "job/keys/laying.hpp"
#include "job/keys/units.hpp"

namespace pullproof {

template <class V>
void describe(V& v, Other& o) {
  v.field("count", o.count, "how many", 1, 400);
  v.field("size", o.size, "conductor size");
  v.field("type", o.type, "insulation type, \"THHN\"");
  v.field("current_carrying", o.current_carrying, "true when they carry current that counts");
  v.field("bare", o.bare, "true for bare conductors");
  v.field("compact", o.compact, "true for compact stranding");
  v.field("diameter", o.diameter, "outside diameter of one, when the tables do not list it", 1e-4, 0.3);
  v.field("cable", o.cable, "true for a multiconductor cable or cord, which fills as one conductor");
  v.field("conductors", o.conductors, "conductors that carry current in each such cable", 0, 40);
}

template <class V>
void describe(V& v, Raceway& r) {
  v.field("name", r.name, "what the case calls it");
  v.field("type", r.type, "EMT, RMC, IMC, FMC, LFMC, LFNC-B, ENT, PVC-40, PVC-80, HDPE ...");
  v.field("size", r.size, "trade size, \"3/4\"");
  v.field("length", r.length, "length along the raceway", 0.01, 5000 * feet);
  v.field("place", r.place, "where it runs, \"outdoors, wet\"; words separated by commas");
  v.field("ambient", r.ambient, "the hottest air around it", -60, 90);
  v.field("above_roof", r.above_roof, "on a roof in the sun: from the roof to the bottom of the raceway", 0, 3);
  v.field("bends", r.bends, "sum of the bends between pull points, \"270°\"", 0, 1440);
  v.field("nipple", r.nipple, "true when both ends are boxes, cabinets or similar enclosures and it is short");
  v.field("sleeve", r.sleeve, "true for a short piece that only protects exposed wiring");
  v.field("moves", r.moves, "true when it flexes or vibrates in use");
  v.field("listed_fittings", r.listed_fittings, "false when its fittings are not listed for grounding");
  v.field("inside_diameter", r.inside_diameter, "the maker's inside diameter, instead of the table's", 0.001, 1);
  v.field("alike", r.alike, "how many like it run side by side and share the sets of conductors in parallel", 1, 12);
  v.tables("also", r.also, "conductors in it that belong to no circuit of this case");
  describe(v, r.laid);
  describe(v, r.more);
}

template <class V>
void describe(V& v, Cable& c) {
  v.field("name", c.name, "what the case calls it");
  v.field("type", c.type, "NM-B, UF-B, MC, AC, SER, TC-ER, SOOW ...");
  v.field("size", c.size, "size of its circuit conductors");
  v.field("material", c.material, "conductor metal");
  v.field("conductors", c.conductors, "insulated conductors in it, the ground not among them", 1, 40);
  v.field("ground", c.ground, "size of the ground in it");
  v.field("insulation", c.insulation, "type of the conductors inside, \"THHN\"");
  v.field("length", c.length, "length", 0.01, 5000 * feet);
  v.field("diameter", c.diameter, "outside diameter; of a flat cable the larger", 1e-3, 0.3);
  v.field("place", c.place, "where it runs");
  v.field("ambient", c.ambient, "the hottest air around it", -60, 90);
  v.field("above_roof", c.above_roof, "on a roof in the sun: from the roof to the cable", 0, 3);
  v.field("bundled", c.bundled, "cables that run together without spacing, this one among them", 1, 100);
  v.field("inside", c.inside, "the raceway it is pulled into");
  describe(v, c.laid);
  describe(v, c.more);
}

}  // namespace pullproof
