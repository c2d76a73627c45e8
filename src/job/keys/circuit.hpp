#pragma once
// Keys of [[circuit]]. Limits in SI units.
#include "job/circuit.hpp"
#include "job/keys/measured.hpp"
#include "job/keys/motor.hpp"
#include "job/keys/protection.hpp"

namespace pullproof {

template <class V>
void describe(V& v, Breaker& b) {
  v.field("model", b.model, "maker and type as marked");
  v.field("rating", b.rating, "rating of the overcurrent device", 0.1, 6000);
  v.field("kind", b.kind, "breaker or fuse");
  v.field("poles", b.poles, "poles", 1, 4);
  v.field("interrupting", b.interrupting, "interrupting rating, \"10 kA\"", 100, 500e3);
  v.field("terminals", b.terminals, "temperature marking of its terminals", 60, 90);
  v.field("gfci", b.gfci, "true when it protects people from ground faults");
  v.field("gfci_class", b.gfci_class, "class of that: A (taken where not given), C, D, E, or equipment (30 mA or so, no protection for people)");
  v.field("afci", b.afci, "true when it protects from arc faults");
  v.field("full_load_rated", b.full_load_rated, "true when listed to carry 100 % of its rating continuously");
  v.field("time_delay", b.time_delay, "true for time-delay fuses");
  v.field("tandem", b.tandem, "true for a tandem breaker, two in one space");
  v.field("listed_for_panel", b.listed_for_panel, "true when the panel's label or a listing allows this breaker in it");
  v.field("handle_ties", b.handle_ties, "true when identified handle ties join its poles");
  v.field("bending_space", b.bending_space, "from its terminals to the wall opposite", 0, 3);
  v.field("wires_per_terminal", b.wires_per_terminal, "wires on one terminal", 1, 5);
  v.field("terminal_wires", b.terminal_wires, "wires that one of its terminals is marked for, where it is more than one", 1, 5);
  v.field("aluminum_terminals", b.aluminum_terminals, "true when its terminals are marked for aluminum, \"AL\" or \"CU-AL\"");
  v.field("marked_for_small", b.marked_for_small, "true when listed and marked to protect 18 or 16 AWG");
}

template <class V>
void describe(V& v, Load& l) {
  v.field("appliance", l.appliance, "what it is, by the names of `pullproof rules show appliances`");
  v.field("maker", l.maker, "its maker");
  v.field("model", l.model, "its model, as on the nameplate");
  v.field("listing", l.listing, "its listing mark: the laboratory, and the standard");
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
  v.field("aluminum_terminals", l.aluminum_terminals, "true when its terminals are marked for aluminum, \"AL\" or \"CU-AL\"");
  v.field("place", l.place, "where it stands");
  v.field("opening", l.opening, "trade size of the hole that its wiring comes in by, \"3/4\"");
  v.field("reducer", l.reducer, "true when a reducing bushing or washers suit the raceway to that hole");
  v.field("vibrates", l.vibrates, "true when it shakes in use, as motors and compressors do");
  v.field("cord_permitted", l.cord_permitted, "true when its maker's instructions provide for a cord");
  v.tables("motors", l.motors, "its motors and compressors, when their nameplates have to be gone by");
  v.field("other_current", l.other_current, "current of what runs beside the motors", 0, 6000);
  v.field("hard_start", l.hard_start, "true when it will not start on the ordinary short-circuit device");
  v.field("group_listed", l.group_listed, "several motors: true when motors, controllers and overload devices are listed for a group on this overcurrent device");
  v.field("short_circuit_rating", l.short_circuit_rating, "short-circuit current rating as marked, \"5 kA\"", 1, 500e3);
  v.field("needs_neutral", l.needs_neutral, "true when it needs a neutral, by its maker");
  v.field("connection", l.connection, "hard-wired, or cord and plug");
  v.field("fastened", l.fastened, "of a plugged-in one: true when it is fastened in place");
  v.field("gfci", l.gfci, "true when the appliance, its cord or its plug has ground-fault protection built in");
  v.field("replacement", l.replacement, "true when only the equipment is replaced, on wiring that was there");
  v.field("public_use", l.public_use, "true when the public uses it");
  v.field("power_conversion", l.power_conversion, "true for a variable-speed (inverter) compressor");
  v.field("controls_within_reach", l.controls_within_reach, "room air conditioner: true when its controls are within 6 ft of the floor and reachable");
  v.field("cord_length", l.cord_length, "length of the cord that comes with it; a cord of your own is the last cable of the path", 0.01, 100);
  v.field("largest_subdivision", l.largest_subdivision, "heating elements: current of the largest part that has an overcurrent device of its own in the appliance", 0.1, 6000);
  v.field("subdivision_device", l.subdivision_device, "heating elements: the largest of those devices", 1, 6000);
  v.field("gas_piping", l.gas_piping, "steel, copper, CSST (corrugated stainless steel tubing) or plastic");
  v.field("gas_bonded", l.gas_bonded, "true when the gas piping is bonded by a conductor of its own; false when nothing bonds it");
  v.field("gas_bond", l.gas_bond, "size of that bonding conductor, copper");
  v.field("gas_bond_length", l.gas_bond_length, "length of that bonding conductor", 0.01, 1000 * feet);
  v.field("hot_cold_jumper", l.hot_cold_jumper, "water heater: true when a jumper bonds its hot and cold pipes");
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
  v.field("white_remarked", w.white_remarked, "true when a white conductor used as hot is re-marked wherever it is seen");
  v.field("neutral_marked", w.neutral_marked, "true when a large neutral is marked white or gray at its ends");
  v.field("diameter", w.diameter, "the maker's outside diameter, instead of the table's", 1e-4, 0.3);
  v.field("insulation_voltage", w.insulation_voltage, "voltage rating of the insulation", 100, 5000);
}

template <class V>
void describe(V& v, Ground& g) {
  v.field("kind", g.kind, "wire, or raceway when the raceway is the grounding conductor");
  v.field("size", g.size, "size of the wire");
  v.field("material", g.material, "metal of the wire");
  v.field("type", g.type, "insulation type, when it is insulated");
  v.field("bare", g.bare, "true when it is bare");
  v.field("compact", g.compact, "true for compact stranding");
  v.field("marked", g.marked, "true when a large ground of another colour is marked green at its ends");
  v.field("color", g.color, "colour of its insulation");
  v.field("diameter", g.diameter, "the maker's outside diameter, instead of the table's", 1e-4, 0.3);
  v.field("shared_with", g.shared_with, "the circuit in the same raceway whose grounding wire serves this one too");
}

template <class V>
void describe(V& v, CircuitGround& g) {
  describe(v, static_cast<Ground&>(g));
  v.field("isolated", g.isolated, "true when it runs apart from all other grounds back to the panel or the service");
  v.field("second", g.second, "isolated ground: true when another grounding conductor bonds the boxes and raceways");
}

template <class V>
void describe(V& v, Stretch& s) {
  v.field("in", s.in, "the raceway or cable of this stretch");
  v.table("wire", s.wire, "what differs from the circuit's wire");
  v.table("ground", s.ground, "what differs from the circuit's ground");
  v.field("tap", s.tap, "true for a tap: smaller wire than the circuit's, down to one of the appliances on it");
}

template <class V>
void describe(V& v, Circuit& c) {
  v.field("name", c.name, "what the case calls it");
  v.field("number", c.number, "its place in the panel, \"12\" or \"2, 4\"");
  v.field("role", c.role, "branch, or feeder to another panel");
  v.field("fed_by", c.fed_by, "the feeder that it starts from, when it does not start at the supply");
  v.field("voltage", c.voltage, "voltage between its conductors", 1, 1000);
  v.field("phases", c.phases, "1 or 3", 1, 3);
  v.field("multiwire", c.multiwire, "true when it feeds loads from more than one line to one neutral");
  v.field("neutral_pigtailed", c.neutral_pigtailed, "multiwire: true when no device has to pass the neutral on, because it is spliced to the device by a short wire");
  v.field("purpose", c.purpose, "in a dwelling: small appliance (kitchen and dining receptacles), laundry, bathroom, garage or general");
  v.field("directory", c.directory, "its line in the panel's directory, \"water heater, wash-house\"");
  v.field("neutral_bonded", c.neutral_bonded, "feeder: true when neutral and ground are joined at the panel that it feeds");
  v.field("entire_dwelling", c.entire_dwelling, "feeder: true when it carries the whole load of a dwelling unit");
  v.field("panel_bus", c.panel_bus, "feeder: rating of the busbars of the panel that it feeds", 10, 4000);
  v.field("panel_main", c.panel_main, "feeder: rating of the main device in that panel, where it has one", 10, 4000);
  v.field("other_building", c.other_building, "true when what it feeds is in or at another building or structure");
  v.field("electrode", c.electrode, "true when that building has a grounding electrode connected to the disconnect or panel there");
  v.field("electrode_wire", c.electrode_wire, "size of the copper wire to that electrode");
  v.field("electrode_kind", c.electrode_kind, "what that wire goes to and to nothing else: rods (pipes and plates too), concrete-encased or other");
  v.field("individual", c.individual, "true when it feeds nothing but this load");
  v.tables("also_feeds", c.also_feeds, "other loads on it");
  v.field("extension", c.extension, "wire added to a circuit that was there, without a new outlet or device", 0, 1500);
  v.path("path", c.path, "raceways and cables from the panel to the load, in order");
  v.texts("neutral_path", c.neutral_path, "the neutral's raceways, when it does not run with the rest");
  v.texts("ground_path", c.ground_path, "the grounding wire's raceways, or \"outside\", when it does not run with the rest");
  v.table("breaker", c.breaker, "the overcurrent device");
  v.table("load", c.load, "what it feeds");
  v.table("disconnect", c.disconnect, "what turns the appliance off for work on it");
  v.table("receptacle", c.receptacle, "the receptacle that the appliance plugs into");
  v.table("service_receptacle", c.service_receptacle, "the 120 V receptacle for servicing heating, cooling or refrigeration equipment");
  v.table("wire", c.wire, "circuit conductors");
  v.table("ground", c.ground, "equipment grounding conductor");
  v.table("measured", c.measured, "what a meter read after the pull");
}

}  // namespace pullproof
