#pragma once
// Keys of [supply.service] and [supply.panel]. Limits in SI units.
#include "job/keys/protection.hpp"
#include "job/service.hpp"

namespace pullproof {

template <class V>
void describe(V& v, ServiceLoad& l) {
  v.field("name", l.name, "what it is");
  v.field("kind", l.kind, "appliance, range, dryer, charger, motor, cooling, heat pump, heat pump supplement or electric heat");
  v.field("power", l.power, "nameplate watts or volt-amperes of one", 1, 1e6);
  v.field("units", l.units, "how many alike; of electric heat, separately controlled ones", 1, 100);
  v.field("added", l.added, "true when it is new with this job");
}

template <class V>
void describe(V& v, Service& s) {
  v.field("method", s.method, "standard, optional (one dwelling), existing (adding to an existing dwelling) or measured");
  v.field("rating", s.rating, "rating of the service or feeder", 10, 4000);
  v.field("conductor", s.conductor, "size of the ungrounded service conductors, \"2/0 AWG\"");
  v.field("material", s.material, "their metal");
  v.field("floor_area", s.floor_area, "floor area from outside dimensions, \"1800 ft²\"", 1, 10000);
  v.field("small_appliance_circuits", s.small_appliance_circuits, "small-appliance circuits", 1, 20);
  v.field("laundry_circuits", s.laundry_circuits, "laundry circuits", 0, 10);
  v.tables("load", s.loads, "loads beside the circuits of this case, which count by themselves");
  v.field("measured_demand", s.measured_demand, "highest measured demand in amperes", 0, 4000);
  v.field("measured_days", s.measured_days, "days recorded", 1, 3660);
  v.field("measured_interval", s.measured_interval, "minutes that each reading averages", 1, 120);
}

template <class V>
void describe(V& v, Panel& p) {
  v.field("location", p.location, "where the panel is");
  v.field("model", p.model, "maker and type of the panel");
  v.field("bus", p.bus, "rating of its busbars", 10, 4000);
  v.field("main", p.main, "rating of its main device", 10, 4000);
  v.field("free_spaces", p.free_spaces, "pole spaces free for this job", 0, 100);
  v.table("working_space", p.working_space, "the room in front of it");
  v.field("source_marked", p.source_marked, "true when it is marked with the device or equipment that feeds it");
  v.field("durable_labels", p.durable_labels, "true when labels put on in the field last where they are and are not written by hand");
  v.field("most_poles", p.most_poles, "poles of overcurrent devices that its label allows at most", 1, 200);
  v.field("used_poles", p.used_poles, "poles in it before this job", 0, 200);
  v.field("neutrals_per_terminal", p.neutrals_per_terminal, "the most neutrals under one terminal of its neutral bar", 1, 10);
  v.field("fault_marked", p.fault_marked, "service equipment: true when the available fault current and its date are marked on it");
  v.field("tandem_allowed", p.tandem_allowed, "true when its label allows tandem breakers");
}

}  // namespace pullproof
