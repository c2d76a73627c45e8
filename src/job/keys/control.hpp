#pragma once
// Keys of [[control]]. Limits in SI units.
#include "job/control.hpp"
#include "job/keys/measured.hpp"
#include "job/keys/units.hpp"

namespace pullproof {

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
  v.field("place", c.place, "where it runs outside of raceways, \"indoors, dry\"; words separated by commas");
  v.table("load", c.load, "the device at the far end");
  v.tables("also", c.also, "other loads that return through the same common conductor");
  v.table("measured", c.measured, "what a meter read after the pull");
  v.field("maximum_length", c.maximum_length, "longest run, by the device's maker", 0.1, 100e3);
  v.field("maximum_loop_resistance", c.maximum_loop_resistance, "largest loop resistance, by the device's maker", 1e-3, 1e6);
  v.field("allowed_drop", c.allowed_drop, "share of the source voltage that may be lost, by the device's maker", 0.001, 0.9);
  v.field("reclassified", c.reclassified, "true when a Class 2 circuit is wired as Class 1 throughout");
  v.field("separation", c.separation, "distance from power conductors where it runs beside them", 0, 1000);
  v.field("barrier", c.barrier, "true when a barrier parts it from power conductors in a shared raceway or box");
}

}  // namespace pullproof
