#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Whether a place of an occupancy needs it; nothing where the place does not say.
std::optional<std::size_t> place_row(const code::TableRef& t, std::string_view occupancy, const Place& place) {
  std::optional<std::size_t> found;
  for (std::size_t r = 0; r < t.rows(); ++r)
    if (t.cell(r, "occupancy").text() == occupancy && derive::place_is(place, t.cell(r, "place").text()))
      if (!found || t.cell(r, "needed").yes()) found = r;
  return found;
}

bool rated(const Context& cx, Current rating) {
  for (const code::CellRef& item : cx.rule("afci").list("ratings")) {
    const Measured m = read_quantity(item.text(), Dimension::current);
    if (m.ok && at_most(rating, Current::from_value(m.si)) && at_least(rating, Current::from_value(m.si))) return true;
  }
  return false;
}

void judge(Context& cx, const Circuit& c, std::string_view where, Citation cite) {
  const StepId why = cx.choose("arc-fault rule", where, cite);
  if (c.extension) {
    const auto added = cx.given("wire added to the circuit", "L", c.extension, units::foot);
    const auto most = cx.parameter("afci-extension", "length", "extension that needs none", "Lx", units::foot);
    if (at_most(added.value, most.value)) {
      cx.require(added, Must::at_most, most, cx.cite("afci-extension"), c.extension.where);
      return;
    }
  }
  if (!c.breaker.afci)
    throw Stop{Verdict::needs_input, cx.text("breaker.afci is not given, and arc-fault protection is required: {}", where), "breaker.afci",
               "use an arc-fault breaker (breaker.afci = true)", {}, cite, {}};
  if (*c.breaker.afci) cx.pass(cx.text("protected from arc faults, as it has to be: {}", where), cite, c.breaker.afci.where, why);
  else cx.fail(cx.text("no arc-fault protection: {}", where), "use an arc-fault breaker (breaker.afci = true)", cite, c.breaker.afci.where, why);
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  const code::RuleRef rule = cx.rule("afci");
  const Citation cite = cx.edition().cite(rule);
  const derive::Line line = derive::line_of(cx, c);
  const Voltage nominal = cx.parameter("afci", "voltage", units::volt);
  const double share = cx.parameter("supply-voltage", "percent", units::percent);
  const bool that_voltage = at_most(raw(line.volts), raw(nominal) * (1 + share)) && at_least(raw(line.volts), raw(nominal) * (1 - share));
  if (line.dc || line.phases != 1 || !that_voltage) {
    cx.not_applicable(cx.text("only single-phase circuits of {} V are meant", number_text(raw(nominal), 0)), cite);
    return;
  }
  const Current rating = cx.need(c.breaker.rating, "breaker.rating", "arc-fault rules go by the rating of the circuit");
  if (!rated(cx, rating)) {
    cx.not_applicable(cx.text("circuits of {} A are not meant", number_text(raw(rating), 1)), cite);
    return;
  }
  if (c.breaker.afci.value_or(false) && !c.extension) {
    cx.pass("protected from arc faults", cite, c.breaker.afci.where);
    return;
  }
  const std::string_view occupancy = derive::needed_occupancy(cx);
  const auto occupancies = cx.table("afci-occupancies"), places = cx.table("afci-places");
  const auto row = occupancies.find(occupancy);
  const std::string_view clause = row ? occupancies.cell(*row, "clause").text() : std::string_view{};
  if (clause.empty()) {
    cx.not_applicable(occupancy == "other" ? "neither a dwelling nor another place that is meant" : cx.text("this edition does not name a {}", occupancy), cite);
    return;
  }
  Citation at = cx.edition().cite(occupancies, *row, occupancies.column("clause"));
  at.clause = clause;
  if (places.find(occupancy, "any")) return judge(cx, c, cx.text("an outlet in a {}", occupancy), at);
  const Given<Place>& place = derive::outlet_place(c);
  cx.need(place, "load.place", "which rooms need arc-fault protection is listed; say where the outlet is");
  const auto listed = place_row(places, occupancy, *place);
  if (listed && places.cell(*listed, "needed").yes()) return judge(cx, c, cx.text("an outlet in a {} of a dwelling", places.cell(*listed, "place").text()), at);
  if (!derive::names_area(*place)) cx.unclear("load.place", cx.text("load.place is '{}': say which room or area it is, since that decides", place.text), place.where);
  cx.not_applicable(cx.text("'{}' is none of the rooms that are meant", place.text), at);
}

}  // namespace

extern const Check check_afci{
    .id = "afci",
    .title = "Arc-fault protection",
    .family = Family::people,
    .about = "A damaged wire or loose splice arcs and sets fire long before a breaker trips. Circuits of 120 V and the small ratings "
             "that feed outlets or devices in the rooms people live in need a device that recognises it, hard-wired appliances "
             "as well as receptacles. Which occupancies and rooms goes by the edition. Protection by an outlet device at "
             "the first outlet is permitted under conditions that are not looked at here.",
    .formula = "L <= the extension that needs none",
    .reads = "supply.dwelling, supply.occupancy, circuit.voltage, breaker.rating, breaker.afci, load.place, receptacle.place, circuit.extension",
    .rules = "afci, afci-occupancies, afci-places, afci-extension, supply-voltage",
    .run = run};

}  // namespace pullproof
