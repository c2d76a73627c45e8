// The head of a report: what it comes to, what the permit desk files it under, supply and equipment.
#include <fmt/format.h>

#include "job/words.hpp"
#include "report/parts.hpp"
#include "report/summary.hpp"

namespace pullproof::report {
namespace {

using doc::Fields;
using doc::Role;

Role tone(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass: return Role::good;
    case Outcome::fail: return Role::bad;
    case Outcome::open: return Role::warn;
  }
  return Role::plain;
}

/// A row for something that a permit desk asks for: a blank where the case does not say.
template <class T>
void asked(Fields& fields, std::string_view label, const Given<T>& g) {
  fields.rows.push_back({std::string(label), as_written(g)});
}
/// A row for something that is there or not.
template <class T>
void given(Fields& fields, std::string_view label, const Given<T>& g) {
  if (g) asked(fields, label, g);
}

void job_fields(Part& out, const Source& s) {
  const Job& j = s.job.job;
  Fields f;
  given(f, "Site", j.site);
  asked(f, "Address", j.address);
  asked(f, "Parcel", j.parcel);
  asked(f, "Owner", j.owner);
  asked(f, "Work", j.description);
  if (s.job.supply.occupancy) f.rows.push_back({"Occupancy", plain(word(*s.job.supply.occupancy))});
  else f.rows.push_back({"Occupancy", s.job.supply.dwelling ? plain(*s.job.supply.dwelling ? "dwelling" : "no dwelling") : doc::Spans{}});
  asked(f, "Building department", j.authority);
  asked(f, "Permit number", j.permit);
  asked(f, "Permit date", s.job.date);
  f.rows.push_back({"Checked to", plain(edition_text(s.report))});
  asked(f, "Contractor", j.contractor);
  asked(f, "License class and number", j.license);
  asked(f, "Prepared by", j.prepared_by);
  given(f, "Looked over by", j.checked_by);
  asked(f, "Revision", j.revision);
  out.add(std::move(f));
}

void supply_fields(Part& out, const Source& s) {
  const Supply& u = s.job.supply;
  Fields f;
  given(f, "Panel", u.name);
  asked(f, "System", u.system);
  asked(f, "Panel location", u.panel.location);
  given(f, "Panel maker and type", u.panel.model);
  asked(f, "Busbars", u.panel.bus);
  asked(f, "Main device", u.panel.main);
  given(f, "Service", u.service.rating);
  asked(f, "Available fault current", u.available_fault);
  given(f, "Voltage at the panel", u.voltage);
  given(f, "Terminals", u.terminals);
  out.heading(3, "Supply", "supply");
  out.add(std::move(f));
}

void equipment_fields(Part& out, const Circuit& c) {
  const Load& l = c.load;
  Fields f;
  asked(f, "Appliance", l.appliance);
  asked(f, "Maker", l.maker);
  asked(f, "Model", l.model);
  asked(f, "Listing mark", l.listing);
  given(f, "Circuit voltage", c.voltage);
  given(f, "Phases", c.phases);
  given(f, "Amperes", l.current);
  given(f, "Watts", l.power);
  given(f, "Volt-amperes", l.apparent_power);
  given(f, "Power factor", l.power_factor);
  given(f, "Minimum circuit ampacity", l.minimum_circuit_ampacity);
  given(f, "Largest overcurrent device", l.maximum_device);
  for (const Motor& m : l.motors) {
    given(f, "Motor", m.name);
    given(f, "Horsepower", m.horsepower);
    given(f, "Full-load amperes", m.nameplate_current);
    given(f, "Rated-load amperes", m.rated_load_current);
  }
  given(f, "Short-circuit current rating", l.short_circuit_rating);
  given(f, "Lowest voltage", l.minimum_voltage);
  if (l.connection) f.rows.push_back({"Connection", plain(word(*l.connection))});
  asked(f, "Place", l.place);
  out.heading(3, fmt::format("Equipment on {}", name_of(c)));
  out.add(std::move(f));
}

}  // namespace

void add_job(Part& out, const Source& s) {
  out.heading(2, "Job and outcome", "job");
  doc::Entry outcome;
  outcome.lead = true;
  outcome.tone = tone(s.report.outcome());
  outcome.label = outcome_words(s.report);
  outcome.title = plain(counts_text(s.report));
  if (s.report.outcome() == Outcome::fail) outcome.lines.push_back(plain("As described, this may not be built. What would mend it stands with each finding."));
  if (s.report.outcome() == Outcome::open) outcome.lines.push_back(plain("Nothing fails, but not everything could be decided: see what is open."));
  if (s.report.outcome() == Outcome::pass) outcome.lines.push_back(plain("Everything that was checked passes, on what the case says and on what was assumed."));
  out.add(doc::Block(std::move(outcome)));
  job_fields(out, s);
  supply_fields(out, s);
  for (const Circuit& c : s.job.circuits)
    if (c.role.value_or(CircuitRole::branch) == CircuitRole::branch) equipment_fields(out, c);
}

}  // namespace pullproof::report
