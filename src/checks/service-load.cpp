#include "derive/service.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

std::string_view rule_of(LoadMethod m) {
  switch (m) {
    case LoadMethod::optional: return "optional-dwelling";
    case LoadMethod::existing: return "existing-dwelling";
    case LoadMethod::measured: return "measured-demand";
    case LoadMethod::standard: break;
  }
  return "service-load";
}

void run(Context& cx, const Supply& supply) {
  const Service& s = supply.service;
  if (!s.where) {
    cx.not_applicable("no service is described, so whether it carries the new load was not looked at", cx.cite("service-load"));
    return;
  }
  cx.need(s.rating, "supply.service.rating", "the load is held against it");
  const auto current = derive::service_current(cx, supply);
  const auto rating = cx.given("rating of the service", "Is", s.rating, units::ampere);
  Finding& f = cx.require(current, Must::at_most, rating, cx.cite(rule_of(*s.method)), s.rating.where);
  if (f.verdict == Verdict::fail) f.change = "use a larger service, a smaller load, or load management that is listed for it";
}

}  // namespace

extern const Check check_service_load{
    .id = "service-load",
    .title = "The service carries the new load",
    .family = Family::load,
    .about = "A new charger or heat pump may be one load too many for an old service. The load is summed by the method that the case "
             "names: the standard method piece by piece, the optional method of a dwelling, the method for additions to an existing "
             "dwelling, or the measured demand of a year or a month. Branch circuits of the case count as new loads by the kind of "
             "their appliance. The current is held against the rating of the service.",
    .formula = "I = D / V (single phase), D / (sqrt(3) V) (three phase); measured: I = k Im + In; I <= rating",
    .reads = "supply.service, supply.service.load, supply.system, circuit.load",
    .rules = "service-load, dwelling-lighting, dwelling-circuits-load, lighting-demand, appliance-demand, dryers, dryer-load, ranges, "
             "range-load, optional-dwelling, optional-heating, existing-dwelling, existing-dwelling-hvac, measured-demand, "
             "vehicle-charger-load, noncoincident, largest-motor, appliances",
    .run = run};

}  // namespace pullproof
