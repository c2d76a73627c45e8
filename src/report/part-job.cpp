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

/// A row of a list of fields; one that is not shown is left out.
struct Row {
  std::string_view label;
  doc::Spans value;
  bool shown = true;
};
/// Something that a permit desk asks for: a blank where the case does not say.
template <class T>
Row asked(std::string_view label, const Given<T>& g) { return {label, as_written(g)}; }
/// Something that is there or not.
template <class T>
Row given(std::string_view label, const Given<T>& g) { return {label, as_written(g), static_cast<bool>(g)}; }

Fields fields_of(std::vector<Row> rows) {
  Fields f;
  for (Row& r : rows)
    if (r.shown) f.rows.push_back({std::string(r.label), std::move(r.value)});
  return f;
}

doc::Spans occupancy(const Supply& u) {
  if (u.occupancy) return plain(word(*u.occupancy));
  return u.dwelling ? plain(*u.dwelling ? "dwelling" : "no dwelling") : doc::Spans{};
}

Fields job_fields(const Source& s) {
  const Job& j = s.job.job;
  return fields_of({given("Site", j.site), asked("Address", j.address), asked("Parcel", j.parcel), asked("Owner", j.owner), asked("Work", j.description),
                    {"Occupancy", occupancy(s.job.supply)}, asked("Building department", j.authority), asked("Permit number", j.permit), asked("Permit date", s.job.date),
                    {"Checked to", plain(edition_text(s.report))}, asked("Contractor", j.contractor), asked("License class and number", j.license),
                    asked("Prepared by", j.prepared_by), given("Looked over by", j.checked_by), asked("Revision", j.revision)});
}

Fields supply_fields(const Supply& u) {
  return fields_of({given("Panel", u.name), asked("System", u.system), asked("Panel location", u.panel.location), given("Panel maker and type", u.panel.model),
                    asked("Busbars", u.panel.bus), asked("Main device", u.panel.main), given("Service", u.service.rating), asked("Available fault current", u.available_fault),
                    given("Voltage at the panel", u.voltage), given("Terminals", u.terminals)});
}

Fields equipment_fields(const Circuit& c) {
  const Load& l = c.load;
  std::vector<Row> rows{asked("Appliance", l.appliance), asked("Maker", l.maker), asked("Model", l.model), asked("Listing mark", l.listing), given("Circuit voltage", c.voltage),
                        given("Phases", c.phases), given("Amperes", l.current), given("Watts", l.power), given("Volt-amperes", l.apparent_power), given("Power factor", l.power_factor),
                        given("Minimum circuit ampacity", l.minimum_circuit_ampacity), given("Largest overcurrent device", l.maximum_device)};
  for (const Motor& m : l.motors)
    for (Row& r : std::vector<Row>{given("Motor", m.name), given("Horsepower", m.horsepower), given("Full-load amperes", m.nameplate_current), given("Rated-load amperes", m.rated_load_current)})
      rows.push_back(std::move(r));
  for (Row& r : std::vector<Row>{given("Short-circuit current rating", l.short_circuit_rating), given("Lowest voltage", l.minimum_voltage),
                                 {"Connection", l.connection ? plain(word(*l.connection)) : doc::Spans{}, static_cast<bool>(l.connection)}, asked("Place", l.place)})
    rows.push_back(std::move(r));
  return fields_of(std::move(rows));
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
  out.add(job_fields(s));
  out.heading(3, "Supply", "supply");
  out.add(supply_fields(s.job.supply));
  for (const Circuit& c : s.job.circuits)
    if (c.role.value_or(CircuitRole::branch) == CircuitRole::branch) {
      out.heading(3, fmt::format("Equipment on {}", name_of(c)));
      out.add(equipment_fields(c));
    }
}

}  // namespace pullproof::report
