#include "calc/device.hpp"
#include "derive/ampacity.hpp"
#include "derive/device.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// The column for the terminals: as the panel is marked, else by the rating.
std::string column_for(Context& cx, const Supply& s, Material metal) {
  const bool low = at_most(*s.service.rating, cx.parameter("terminals", "low-through", units::ampere));
  const int fallback = static_cast<int>(cx.parameter("terminals", low ? "low-default" : "high-default", units::count));
  if (!s.terminals) cx.assume("terminals of the service", cx.text("supply.terminals is not given: taken as {} °C", fallback), cx.cite("terminals"));
  const int column = !s.terminals ? fallback : s.terminals->celsius >= 75 ? 75 : 60;
  return derive::ampacity_column(metal, column);
}

void run(Context& cx, const Supply& s) {
  const Service& v = s.service;
  const Citation plain = cx.cite("service-conductor");
  if (!v.conductor) return void(cx.not_applicable("the conductors of the service are not described", plain));
  cx.need(v.rating, "supply.service.rating", "its conductors are held against it");
  const bool dwelling = cx.need(s.dwelling, "supply.dwelling", "conductors that carry a whole dwelling may be smaller");
  const System system = cx.need(s.system, "supply.system", "single-phase services of dwellings have a share of their own");
  if (!v.material) cx.assume("metal of the service conductors", "supply.service.material is not given: taken as copper");
  const Material metal = v.material.value_or(Material::copper);
  const auto t = cx.table("ampacity");
  cx.assume("place of the service conductors", "the service conductors are taken at 30 °C with at most three that count", cx.cite("count-adjustment"));
  const auto usable = cx.cell(t, cx.row(t, v.conductor->label()), column_for(cx, s, metal), cx.text("ampacity of {} {}", v.conductor->label(), word(metal)), "Iz", units::ampere);
  if (!usable) cx.not_covered("the table has no ampacity for that size", cx.edition().cite(t));
  const auto rating = cx.given("rating of the service", "In", v.rating, units::ampere);
  constexpr std::string_view rule = "dwelling-service";
  if (dwelling && system.phases == 1 && at_least(rating.value, cx.parameter(rule, "least", units::ampere)) && at_most(rating.value, cx.parameter(rule, "most", units::ampere))) {
    const auto k = cx.parameter(rule, "percent", "share of the rating that the conductors need", "k", units::percent);
    const auto need = cx.apply(calc::share_of_service, units::ampere, cx.cite(rule), k, rating);
    Finding& f = cx.require(*usable, Must::at_least, need, cx.cite(rule), v.conductor.where);
    if (f.verdict == Verdict::fail) f.change = "use larger service conductors, or a smaller main";
    return;
  }
  const auto next = derive::standard_rating_from(cx, DeviceKind::breaker, usable->value, "standard rating at or next above the ampacity", "Is");
  if (!next) cx.not_covered("above the standard ratings", plain);
  cx.working().because_of(usable->step);
  Finding& f = cx.require(rating, Must::at_most, *next, plain, v.rating.where);
  if (f.verdict == Verdict::fail) f.change = "use larger service conductors, or a smaller main";
}

}  // namespace

extern const Check check_service_conductor{
    .id = "service-conductor",
    .title = "Conductors of the service",
    .family = Family::conductors,
    .about = "Everything in a house is never on at once, so the conductors that carry all of it may have a share of the rating of the service alone: 83 % "
             "from 100 to 400 A, single phase, which gives the sizes that the book prints in a table. Other services have conductors whose "
             "ampacity is at most one standard rating below. Places hotter than 30 °C, and more than three counted conductors, are not reckoned "
             "with here.",
    .formula = "dwelling: Iz >= k * In; else In <= standard rating at or next above Iz",
    .reads = "supply.service.conductor, supply.service.material, supply.service.rating, supply.dwelling, supply.system, supply.terminals",
    .rules = "service-conductor, dwelling-service, ampacity, terminals, standard-ratings, count-adjustment",
    .run = run};

}  // namespace pullproof
