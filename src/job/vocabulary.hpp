#pragma once
// The vocabulary of a case: every key, what it means and what it may be. One description serves everything that
// knows keys: the reader, the schema, the starters. `V` is a visitor; see read.cpp.
//
//   v.field(key, member, meaning [, lowest, highest])   a value; limits in SI units, inclusive
//   v.table(key, member, meaning)                       a sub-table
//   v.tables(key, members, meaning)                     an array of tables
//   v.path(key, members, meaning)                       stretches: names, or tables with more
#include "job/case.hpp"
#include "job/words.hpp"

namespace pullproof {

inline constexpr double feet = 0.3048;

template <class V>
void describe(V& v, Job& j) {
  v.field("title", j.title, "what the job is called on the report");
  v.field("site", j.site, "where it is");
  v.field("permit", j.permit, "the permit's number, when there is one");
  v.field("description", j.description, "the work in a sentence");
  v.field("contractor", j.contractor, "who does the work");
  v.field("license", j.license, "class and number of the contractor's license");
  v.field("prepared_by", j.prepared_by, "who made this case");
  v.field("checked_by", j.checked_by, "who looked it over");
}

template <class V>
void describe(V& v, Supply& s) {
  v.field("name", s.name, "the panel's name, \"main panel\"");
  v.field("system", s.system, "the supply system, \"120/240 V 1-phase 3-wire\", \"208Y/120 V 3-phase 4-wire\", \"24 V dc\"");
  v.field("dwelling", s.dwelling, "true when it serves a dwelling unit");
  v.field("available_fault", s.available_fault, "fault current available at the panel, \"9.2 kA\"", 1, 500e3);
  v.field("voltage", s.voltage, "voltage held or measured at the panel, when it is not the nominal one", 1, 1000);
  v.field("terminals", s.terminals, "temperature marking of the panel's terminals, \"75 °C\"", 60, 90);
}

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
  v.tables("also", r.also, "conductors in it that belong to no circuit of this case");
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
}

template <class V>
void describe(V& v, Breaker& b) {
  v.field("rating", b.rating, "rating of the overcurrent device", 0.1, 6000);
  v.field("kind", b.kind, "breaker or fuse");
  v.field("poles", b.poles, "poles", 1, 4);
  v.field("interrupting", b.interrupting, "interrupting rating, \"10 kA\"", 100, 500e3);
  v.field("terminals", b.terminals, "temperature marking of its terminals", 60, 90);
  v.field("gfci", b.gfci, "true when it protects people from ground faults");
  v.field("afci", b.afci, "true when it protects from arc faults");
  v.field("full_load_rated", b.full_load_rated, "true when listed to carry 100 % of its rating continuously");
  v.field("marked_for_small", b.marked_for_small, "true when listed and marked to protect 18 or 16 AWG");
}

template <class V>
void describe(V& v, Load& l) {
  v.field("appliance", l.appliance, "what it is, by the names of `pullproof rules show appliances`");
  v.field("current", l.current, "nameplate amperes", 0.001, 6000);
  v.field("power", l.power, "nameplate watts", 0.1, 10e6);
  v.field("apparent_power", l.apparent_power, "nameplate volt-amperes", 0.1, 10e6);
  v.field("power_factor", l.power_factor, "power factor", 0.05, 1);
  v.field("continuous", l.continuous, "true when the largest current runs three hours or more");
  v.field("continuous_current", l.continuous_current, "the part of the current that runs three hours or more", 0, 6000);
  v.field("minimum_circuit_ampacity", l.minimum_circuit_ampacity, "as marked on the nameplate", 0.1, 6000);
  v.field("maximum_device", l.maximum_device, "largest overcurrent device, as marked on the nameplate", 1, 6000);
  v.field("minimum_voltage", l.minimum_voltage, "lowest voltage it works at, by its maker", 1, 1000);
  v.field("terminals", l.terminals, "temperature marking of its terminals", 60, 90);
  v.field("place", l.place, "where it stands");
  v.field("nonlinear", l.nonlinear, "true when most of the load draws harmonic current");
  v.field("receptacles", l.receptacles, "true when the circuit feeds more than one receptacle for portable loads");
}

template <class V>
void describe(V& v, Wire& w) {
  v.field("size", w.size, "size of the ungrounded conductors");
  v.field("material", w.material, "conductor metal");
  v.field("type", w.type, "insulation type as marked, \"THHN/THWN-2\"");
  v.field("stranding", w.stranding, "solid or stranded");
  v.field("compact", w.compact, "true for compact stranding");
  v.field("coated", w.coated, "true for tinned copper");
  v.field("covering", w.covering, "true when RHH, RHW or RHW-2 has an outer covering");
  v.field("parallel", w.parallel, "conductors in parallel for each phase", 1, 12);
  v.field("temperature", w.temperature, "temperature of the conductor at work, for its resistance", -40, 150);
  v.field("hot", w.hot, "colour of the ungrounded conductors");
  v.field("neutral", w.neutral, "colour of the neutral, or \"none\"");
  v.field("diameter", w.diameter, "the maker's outside diameter, instead of the table's", 1e-4, 0.3);
}

template <class V>
void describe(V& v, Ground& g) {
  v.field("kind", g.kind, "wire, or raceway when the raceway is the grounding conductor");
  v.field("size", g.size, "size of the wire");
  v.field("material", g.material, "metal of the wire");
  v.field("type", g.type, "insulation type, when it is insulated");
  v.field("bare", g.bare, "true when it is bare");
  v.field("compact", g.compact, "true for compact stranding");
  v.field("color", g.color, "colour of its insulation");
}

template <class V>
void describe(V& v, Stretch& s) {
  v.field("in", s.in, "the raceway or cable of this stretch");
  v.table("wire", s.wire, "what differs from the circuit's wire");
  v.table("ground", s.ground, "what differs from the circuit's ground");
}

template <class V>
void describe(V& v, Circuit& c) {
  v.field("name", c.name, "what the case calls it");
  v.field("role", c.role, "branch, or feeder to another panel");
  v.field("fed_by", c.fed_by, "the feeder that it starts from, when it does not start at the supply");
  v.field("voltage", c.voltage, "voltage between its conductors", 1, 1000);
  v.field("phases", c.phases, "1 or 3", 1, 3);
  v.path("path", c.path, "raceways and cables from the panel to the load, in order");
  v.table("breaker", c.breaker, "the overcurrent device");
  v.table("load", c.load, "what it feeds");
  v.table("wire", c.wire, "circuit conductors");
  v.table("ground", c.ground, "equipment grounding conductor");
}

template <class V>
void describe(V& v, ControlSource& s) {
  v.field("class", s.control_class, "1, 2 or 3, as marked on the source", 1, 3);
  v.field("voltage", s.voltage, "\"24 V ac\" or \"12 V dc\"");
  v.field("maximum_voltage", s.maximum_voltage, "highest voltage, without load", 0.1, 1000);
  v.field("rating", s.rating, "nameplate volt-amperes", 0.01, 100e3);
  v.field("current", s.current, "nameplate amperes", 0.001, 1000);
  v.field("overcurrent", s.overcurrent, "rating of the device that limits it", 0.01, 1000);
  v.field("inherently_limited", s.inherently_limited, "true when it limits itself");
  v.field("listed", s.listed, "false when it is not listed as a source of its class");
}

template <class V>
void describe(V& v, ControlCable& c) {
  v.field("size", c.size, "conductor size");
  v.field("conductors", c.conductors, "conductors in the cable", 1, 100);
  v.field("type", c.type, "CL2, CL3P, PLTC ...");
  v.field("material", c.material, "conductor metal");
  v.field("stranding", c.stranding, "solid or stranded");
  v.field("diameter", c.diameter, "outside diameter", 1e-4, 0.1);
  v.field("temperature", c.temperature, "temperature of the conductors, for their resistance", -40, 90);
  v.field("insulation", c.insulation, "voltage rating of its insulation", 1, 2000);
}

template <class V>
void describe(V& v, ControlLoad& l) {
  v.field("name", l.name, "what it is");
  v.field("kind", l.kind, "constant current, or constant power, which draws more as the voltage sags");
  v.field("current", l.current, "current while it runs", 1e-6, 100);
  v.field("apparent_power", l.apparent_power, "volt-amperes while it runs", 1e-4, 10e3);
  v.field("inrush", l.inrush, "current at the moment it pulls in", 1e-6, 1000);
  v.field("inrush_power", l.inrush_power, "volt-amperes at the moment it pulls in", 1e-4, 100e3);
  v.field("minimum_voltage", l.minimum_voltage, "lowest voltage it works at, by its maker", 0.1, 1000);
}

template <class V>
void describe(V& v, Control& c) {
  v.field("name", c.name, "what the case calls it");
  v.field("serves", c.serves, "the circuit whose appliance it controls");
  v.table("source", c.source, "where it gets its power");
  v.table("cable", c.cable, "the cable");
  v.field("length", c.length, "one way, source to device", 0.01, 10000 * feet);
  v.path("path", c.path, "raceways that it runs in, in order");
  v.table("load", c.load, "the device at the far end");
  v.tables("also", c.also, "other loads that return through the same common conductor");
  v.field("maximum_length", c.maximum_length, "longest run, by the device's maker", 0.1, 100e3);
  v.field("maximum_loop_resistance", c.maximum_loop_resistance, "largest loop resistance, by the device's maker", 1e-3, 1e6);
  v.field("allowed_drop", c.allowed_drop, "share of the source voltage that may be lost, by the device's maker", 0.001, 0.9);
  v.field("reclassified", c.reclassified, "true when a Class 2 circuit is wired as Class 1 throughout");
  v.field("separation", c.separation, "distance from power conductors where it runs beside them", 0, 1000);
  v.field("barrier", c.barrier, "true when a barrier parts it from power conductors in a shared raceway or box");
}

template <class V>
void describe(V& v, Case& c) {
  v.field("edition", c.edition, "the code edition, \"us-2023\", or an amendment file");
  v.texts("amendments", c.amendments, "amendment files, laid over the edition in this order");
  v.field("date", c.date, "day of the permit: some exceptions end on a day");
  v.table("job", c.job, "for the head of the report");
  v.table("supply", c.supply, "the panel that the circuits start from");
  v.tables("raceway", c.raceways, "a stretch of raceway");
  v.tables("cable", c.cables, "a stretch of multiconductor cable or cord");
  v.tables("circuit", c.circuits, "a circuit from its overcurrent device to what it feeds");
  v.tables("control", c.controls, "a low-voltage control run");
}

}  // namespace pullproof
