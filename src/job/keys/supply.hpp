#pragma once
// Keys of [job] and [supply].
#include "job/keys/service.hpp"
#include "job/supply.hpp"

namespace pullproof {

template <class V>
void describe(V& v, Job& j) {
  v.field("title", j.title, "what the job is called on the report");
  v.field("site", j.site, "where it is");
  v.field("address", j.address, "street address");
  v.field("parcel", j.parcel, "parcel number, where the permit desk asks for it");
  v.field("owner", j.owner, "whose property it is");
  v.field("authority", j.authority, "the building department that the permit is asked of");
  v.field("revision", j.revision, "which version of this report it is, \"B\"");
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
  v.field("occupancy", s.occupancy, "more than dwelling says: one-family dwelling, multifamily dwelling, dormitory, hotel room, nursing home ...");
  v.field("available_fault", s.available_fault, "fault current available at the panel, \"9.2 kA\"", 1, 500e3);
  v.field("voltage", s.voltage, "voltage held or measured at the panel, when it is not the nominal one", 1, 1000);
  v.field("openings_closed", s.openings_closed, "true when every unused hole of the panel is closed");
  v.field("terminals", s.terminals, "temperature marking of the panel's terminals, \"75 °C\"", 60, 90);
  v.table("panel", s.panel, "busbars and spaces");
  v.table("service", s.service, "what the service carries, to add the new load to it");
}

}  // namespace pullproof
