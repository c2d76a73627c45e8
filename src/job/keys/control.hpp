#pragma once
// Keys of [[control]]. Limits in SI units.
#include "job/control.hpp"
#include "job/keys/measured.hpp"
#include "job/keys/units.hpp"

namespace pullproof {

template <class V>
void describe(V& v, ControlSource& s) {
  v.field("name", s.name, "the transformer or supply: runs that name the same one load it together");
  v.field("class", s.control_class, "1, 2 or 3, as marked on the source", 1, 3);
  v.field("voltage", s.voltage, "\"24 V ac\" or \"12 V dc\"");
  v.field("maximum_voltage", s.maximum_voltage, "highest voltage, without load", 0.1, 1000);
  v.field("rating", s.rating, "nameplate volt-amperes", 0.01, 100e3);
  v.field("current", s.current, "nameplate amperes", 0.001, 1000);
  v.field("overcurrent", s.overcurrent, "rating of the device that limits it", 0.01, 1000);
  v.field("inherently_limited", s.inherently_limited, "true when it limits itself");
  v.field("listed", s.listed, "false when it is not listed as a source of its class");
  v.field("inrush_rating", s.inrush_rating, "volt-amperes that it gives while coils pull in, by its maker", 0.01, 1e6);
  v.field("fed_by", s.fed_by, "the circuit that its input is on");
  v.field("in_equipment", s.in_equipment, "true when it is part of listed equipment, as in a furnace");
  v.field("primary_device", s.primary_device, "rating of a fuse or breaker of its own in front of its input", 0.01, 1000);
  v.field("lead_size", s.lead_size, "conductor size of its input leads");
  v.field("lead_length", s.lead_length, "length of its input leads", 0, 100 * feet);
  v.field("joined", s.joined, "true when its output is joined with that of another source");
  v.field("listed_for_joining", s.listed_for_joining, "true when the sources are listed for being joined");
}

template <class V>
void describe(V& v, ControlCable& c) {
  v.field("size", c.size, "conductor size");
  v.field("common_size", c.common_size, "size of the common conductor, when it is another one");
  v.field("resistance", c.resistance, "the maker's resistance of one conductor at 20 °C, \"6.4 ohm/kft\", instead of the tables'", 1e-5, 10);
  v.field("conductors", c.conductors, "conductors in the cable", 1, 100);
  v.field("type", c.type, "CL2, CL3P, PLTC ...");
  v.field("material", c.material, "conductor metal");
  v.field("stranding", c.stranding, "solid or stranded");
  v.field("diameter", c.diameter, "outside diameter", 1e-4, 0.1);
  v.field("temperature", c.temperature, "temperature of the conductors, for their resistance", -40, 90);
  v.field("insulation", c.insulation, "voltage rating of its insulation", 1, 2000);
  v.field("wet", c.wet, "true when it is marked for wet places");
  v.field("sunlight", c.sunlight, "true when it is marked as resistant to sunlight");
  v.field("direct_burial", c.direct_burial, "true when it is marked for direct burial");
  v.field("twisted", c.twisted, "true for twisted pairs");
  v.field("shielded", c.shielded, "true when it has a shield");
  v.field("bundled", c.bundled, "such cables in one bundle, this one among them", 1, 10000);
  v.field("temperature_rating", c.temperature_rating, "temperature that it is rated for, \"75 °C\"", 20, 250);
  v.field("power_mark", c.power_mark, "amperes per conductor of its -LP mark, \"0.6 A\"", 0.01, 10);
}

template <class V>
void describe(V& v, ControlLoad& l) {
  v.field("name", l.name, "what it is");
  v.field("device", l.device, "contactor, relay, gas valve, irrigation solenoid ...: usual values stand in for what its plate does not say");
  v.field("kind", l.kind, "constant current, or constant power, which draws more as the voltage sags");
  v.field("current", l.current, "current while it runs", 1e-6, 100);
  v.field("apparent_power", l.apparent_power, "volt-amperes while it runs", 1e-4, 10e3);
  v.field("inrush", l.inrush, "current at the moment it pulls in", 1e-6, 1000);
  v.field("inrush_power", l.inrush_power, "volt-amperes at the moment it pulls in", 1e-4, 100e3);
  v.field("minimum_voltage", l.minimum_voltage, "lowest voltage it works at, by its maker", 0.1, 1000);
}

template <class V>
void describe(V& v, Bus& b) {
  v.field("kind", b.kind, "RS-485, Modbus RTU, BACnet MS/TP, CAN, OpenTherm ...; \"maker's link\" for one that its manual alone describes");
  v.field("bit_rate", b.bit_rate, "how fast it sends, \"9600 bit/s\"", 1, 1e9);
  v.field("topology", b.topology, "point to point, daisy chain, star, tree or ring");
  v.field("nodes", b.nodes, "devices on it, all together", 1, 10000);
  v.field("unit_load", b.unit_load, "load of one device against that of the standard, 0.125 for one eighth", 0.001, 100);
  v.field("stub_length", b.stub_length, "longest branch from the trunk to a device", 0, 10000 * feet);
  v.field("terminations", b.terminations, "terminating resistors, those switched on inside devices among them", 0, 1000);
  v.field("termination_at_ends", b.termination_at_ends, "true when they are at the two ends of the trunk");
  v.field("termination", b.termination, "resistance of one of them, \"120 ohm\"", 1, 1e6);
  v.field("maximum_nodes", b.maximum_nodes, "most devices, by their maker", 1, 10000);
  v.field("maximum_stub", b.maximum_stub, "longest branch, by the devices' maker", 0, 10000 * feet);
  v.field("any_topology", b.any_topology, "true when their maker permits any topology");
}

template <class V>
void describe(V& v, Poe& p) {
  v.field("type", p.type, "type of the source: 1 (15 W), 2 (30 W), 3 (60 W) or 4 (90 W)", 1, 4);
  v.field("class", p.poe_class, "class of the device, 0 through 8", 0, 8);
  v.field("device_power", p.device_power, "most that the device takes, by its data sheet", 0.01, 1000);
}

template <class V>
void describe(V& v, ControlSupports& s) {
  v.field("by", s.by, "what it is fastened to: structure, ceiling grid, raceway, pipe or duct");
  v.field("raceway", s.raceway, "the raceway that it is tied to");
}

template <class V>
void describe(V& v, ControlEnclosure& e) {
  v.field("name", e.name, "what the case calls it");
  v.field("power", e.power, "the circuit whose conductors are in it as well");
  v.field("same_equipment", e.same_equipment, "true when that power is there only for equipment that the run connects to as well");
  v.field("barrier", e.barrier, "true when a barrier parts the two in it");
  v.field("own_raceway", e.own_raceway, "true when the run is in a raceway of its own inside it");
  v.field("gap", e.gap, "smallest distance from power conductors in it", 0, 10);
  v.field("single_opening", e.single_opening, "true when both come in by its only opening");
  v.field("sleeve", e.sleeve, "true when a continuous nonconductor, such as flexible tubing, is fixed between the two");
}

template <class V>
void describe(V& v, Control& c) {
  v.field("name", c.name, "what the case calls it");
  v.field("serves", c.serves, "the circuit whose appliance it controls");
  v.table("source", c.source, "where it gets its power");
  v.table("cable", c.cable, "the cable");
  v.field("length", c.length, "one way, source to device", 0.01, 10000 * feet);
  v.path("path", c.path, "raceways that it runs in, in order");
  v.field("place", c.place, "where it runs outside of raceways, \"indoors, dry\"; words separated by commas");
  v.table("load", c.load, "the device at the far end");
  v.tables("also", c.also, "other loads that return through the same common conductor");
  v.table("measured", c.measured, "what a meter read after the pull");
  v.field("manual", c.manual, "where the maker's limits were read: manual, edition, page");
  v.field("maximum_length", c.maximum_length, "longest run, by the device's maker", 0.1, 100e3);
  v.field("maximum_loop_resistance", c.maximum_loop_resistance, "largest loop resistance, by the device's maker", 1e-3, 1e6);
  v.field("allowed_drop", c.allowed_drop, "share of the source voltage that may be lost, by the device's maker", 0.001, 0.9);
  v.field("smallest_size", c.smallest_size, "smallest conductor, by the device's maker");
  v.field("copper_only", c.copper_only, "true when the device's maker asks for copper conductors");
  v.table("bus", c.bus, "the bus or data link that it carries");
  v.table("poe", c.poe, "power over Ethernet that it carries");
  v.table("supports", c.supports, "what holds it outside of raceways");
  v.tables("enclosure", c.enclosures, "boxes, cabinets and compartments that it shares with power");
  v.field("use", c.use, "general, irrigation or landscape lighting");
  v.field("ambient", c.ambient, "hottest air around it outside of raceways", -60, 90);
  v.field("cover", c.cover, "buried without a raceway: from grade to its top", 0, 20 * feet);
  v.field("under", c.under, "buried: what lies over it, ground, concrete, building, slab, street, driveway ...");
  v.field("safety", c.safety, "true when its failure brings a direct fire or life hazard; thermostats and water temperature controls of a household do not");
  v.field("other_building", c.other_building, "true when it leaves the building");
  v.field("protector", c.protector, "true when a listed primary protector is at each end that enters a building");
  v.field("moves", c.moves, "true when it joins something that moves in use");
  v.field("reclassified", c.reclassified, "true when a Class 2 circuit is wired as Class 1 throughout");
  v.field("separation", c.separation, "distance from power conductors where it runs beside them", 0, 1000);
  v.field("barrier", c.barrier, "true when a barrier parts it from power conductors in a shared raceway or box");
}

}  // namespace pullproof
