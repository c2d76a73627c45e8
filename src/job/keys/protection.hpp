#pragma once
// Keys of disconnects, working space, receptacles and shared circuits. Limits in metres, amperes and degrees.
#include "job/disconnect.hpp"
#include "job/keys/units.hpp"
#include "job/receptacle.hpp"
#include "job/sharing.hpp"

namespace pullproof {

template <class V>
void describe(V& v, WorkingSpace& w) {
  v.field("depth", w.depth, "clear depth in front of it, \"36 in\"", 0, 100 * feet);
  v.field("width", w.width, "clear width", 0, 100 * feet);
  v.field("height", w.height, "clear height from the floor or ground", 0, 100 * feet);
  v.field("opposite", w.opposite, "what faces it across that depth: nothing, grounded (concrete, brick and tile too) or live parts");
  v.field("equipment_width", w.equipment_width, "width of the equipment, when it is wide", 0, 20 * feet);
  v.field("equipment_height", w.equipment_height, "height of its top, when it is tall", 0, 20 * feet);
  v.field("door_opens", w.door_opens, "how far its door or cover opens, \"90°\"", 0, 360);
  v.field("storage", w.storage, "true when things are kept in that space");
}

template <class V>
void describe(V& v, Disconnect& d) {
  v.field("kind", d.kind, "breaker (the circuit's own), switch, fusible switch, molded-case switch, snap switch, pull-out, unit switch, cord and plug, or none");
  v.field("within_sight", d.within_sight, "true when it can be seen from the appliance and is at most 50 ft from it");
  v.field("distance", d.distance, "distance from the appliance", 0, 5000 * feet);
  v.field("lockable", d.lockable, "true when it can be locked open");
  v.field("lock_stays", d.lock_stays, "true when what takes the lock stays in place without the lock; false for a clip that is carried along");
  v.field("readily_accessible", d.readily_accessible, "true when it is reached at once, without ladder or tool and past nothing");
  v.field("rating", d.rating, "its ampere rating; of the circuit's own breaker, breaker.rating", 0.1, 6000);
  v.field("horsepower", d.horsepower, "its horsepower rating", 0.01, 2000);
  v.field("poles", d.poles, "poles that it opens at once", 1, 4);
  v.field("marked_off", d.marked_off, "unit switch: true when it has a marked off position and opens all ungrounded conductors");
  v.field("other_means", d.other_means, "unit switch: the other disconnect: service, in the unit, same floor, outside or branch (a readily accessible switch or breaker)");
  v.field("impracticable", d.impracticable, "motor: true when one in sight would be impracticable or add a hazard");
  v.field("marked", d.marked, "true when it is marked with what it turns off");
  v.field("source_marked", d.source_marked, "true when that mark also says which panel and circuit feed it");
  v.field("on_removable_panel", d.on_removable_panel, "true when it sits on a panel that is taken off for service");
  v.field("over_nameplate", d.over_nameplate, "true when it covers the nameplate");
  v.field("locked_cover", d.locked_cover, "true when opening it to live parts takes a tool or a key");
  v.field("enclosure", d.enclosure, "type of its enclosure, \"3R\"");
  v.field("place", d.place, "where it is, when not where the appliance stands");
  v.field("gfci", d.gfci, "true when it holds ground-fault protection for people");
  v.field("gfci_class", d.gfci_class, "class of that: A, C, D, E, or equipment (30 mA or so, no protection for people)");
  v.field("class_c_label", d.class_c_label, "true when it carries the warning label for a Class C device");
  v.table("working_space", d.working_space, "the room in front of it");
}

template <class V>
void describe(V& v, Receptacle& r) {
  v.field("rating", r.rating, "its ampere rating, \"50 A\"", 1, 400);
  v.field("kind", r.kind, "single or duplex, which counts as two");
  v.field("count", r.count, "how many of them are on the circuit", 1, 100);
  v.field("place", r.place, "where it is, when not where the appliance stands");
  v.field("gfci", r.gfci, "true when it is a ground-fault receptacle or protected by one");
  v.field("readily_accessible", r.readily_accessible, "true when it is reached without moving the appliance");
  v.field("weather_resistant", r.weather_resistant, "true when marked WR");
  v.field("tamper_resistant", r.tamper_resistant, "true when marked TR");
  v.field("cover", r.cover, "in use (weatherproof with the plug in), closed (weatherproof without a plug) or plain");
  v.field("height", r.height, "height above the floor", 0, 100 * feet);
  v.field("dedicated_space", r.dedicated_space, "true when it serves appliances in their own spaces that are not easily moved");
  v.field("attended", r.attended, "true when nothing stays plugged in unattended");
  v.field("sink_distance", r.sink_distance, "to the edge of the nearest sink, the shortest way a cord would take", 0, 100 * feet);
  v.field("through_cabinet_door", r.through_cabinet_door, "true when that way goes through a cabinet door");
  v.field("listed_for_vehicles", r.listed_for_vehicles, "true when it is listed for charging vehicles");
}

template <class V>
void describe(V& v, OutletReceptacle& r) {
  describe(v, static_cast<Receptacle&>(r));
  v.field("isolated_mark", r.isolated_mark, "isolated ground: true when an orange triangle on its face says so");
}

template <class V>
void describe(V& v, ServiceReceptacle& r) {
  v.field("none", r.none, "true when there is none");
  v.field("distance", r.distance, "distance from the equipment", 0, 1000 * feet);
  v.field("same_level", r.same_level, "true when it is on the same level as the equipment");
  v.field("load_side", r.load_side, "true when it is fed from the load side of the equipment's disconnect");
  describe(v, r.outlet);
}

template <class V>
void describe(V& v, Share& s) {
  v.field("name", s.name, "what it is");
  v.field("kind", s.kind, "fixed, portable (cord and plug, moved about), lighting, auxiliary (of the same heating plant) or air conditioning");
  v.field("current", s.current, "nameplate amperes", 0, 6000);
  v.field("continuous", s.continuous, "true when it runs three hours or more");
  v.field("motor", s.motor, "true when most of its current is that of a motor");
}

}  // namespace pullproof
