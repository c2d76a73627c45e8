#include <fmt/format.h>

#include <string>

#include "derive/load.hpp"
#include "derive/sharing.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

std::string_view amperes(Context& cx, Current i) { return cx.text("{} A", number_text(raw(i), 1)); }

/// A receptacle alone on its circuit.
void alone(Context& cx, const Circuit& c, const Traced<Current>& receptacle) {
  const auto circuit = cx.given("rating of the circuit", "In", c.breaker.rating, units::ampere);
  Finding& f = cx.require(receptacle, Must::at_least, circuit, cx.cite("single-receptacle"), c.receptacle.rating.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use a receptacle of at least {}, or a smaller device", amperes(cx, circuit.value));
}

/// The row for this receptacle on this circuit, and what is listed for the circuit in words.
std::optional<std::size_t> listed(const code::TableRef& t, const Circuit& c, std::string& choices) {
  std::optional<std::size_t> found;
  for (std::size_t r = 0; r < t.rows(); ++r) {
    const double circuit = t.cell(r, "circuit").number().value_or(0), receptacle = t.cell(r, "receptacle").number().value_or(0);
    if (circuit != raw(*c.breaker.rating)) continue;
    choices += fmt::format("{}{} A", choices.empty() ? "" : " or ", number_text(receptacle, 1));
    if (receptacle == raw(*c.receptacle.rating)) found = r;
  }
  return found;
}

void several(Context& cx, const Circuit& c, const Traced<Current>& receptacle) {
  const auto t = cx.table("receptacles");
  std::string choices;
  const auto row = listed(t, c, choices);
  const Citation cite = cx.edition().cite(t);
  if (!row) {
    cx.fail(cx.text("receptacles of {} are not listed for a circuit of {} with several", amperes(cx, receptacle.value), amperes(cx, *c.breaker.rating)),
            choices.empty() ? "use a circuit of a rating for several outlets" : cx.text("use receptacles of {}", choices), cite, c.receptacle.rating.where,
            receptacle.step);
    return;
  }
  cx.pass(cx.text("receptacles of {} suit a circuit of {} with several", amperes(cx, receptacle.value), amperes(cx, *c.breaker.rating)), cite,
          c.receptacle.rating.where, receptacle.step);
  const auto most = cx.cell(t, *row, "cord-load", "most for one plugged-in load", "Im", units::ampere);
  if (!most || !c.load.appliance) return;
  const auto load = derive::load_current(cx, c, derive::line_of(cx, c));
  Finding& f = cx.require(load, Must::at_most, *most, cite, c.load.where);
  if (f.verdict == Verdict::fail) f.change = "give it a circuit of its own with a single receptacle, or a larger circuit";
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  if (!c.receptacle.where && derive::connection_of(cx, c) != Connection::plug && !c.load.receptacles.value_or(false)) {
    cx.not_applicable("no receptacle is described");
    return;
  }
  cx.need(c.receptacle.rating, "receptacle.rating", "the receptacle has to suit the circuit");
  cx.need(c.breaker.rating, "breaker.rating", "the receptacle has to suit the circuit");
  const auto receptacle = cx.given("rating of the receptacle", "Ir", c.receptacle.rating, units::ampere);
  const auto count = derive::receptacle_count(c);
  const bool many = c.load.receptacles.value_or(false) || derive::shared(cx, c) || count.value_or(1) > 1;
  if (many) return several(cx, c, receptacle);
  if (count) return alone(cx, c, receptacle);
  // Single or duplex: ask only where that decides.
  std::string choices;
  const auto t = cx.table("receptacles");
  const bool as_several = listed(t, c, choices).has_value(), as_single = at_least(receptacle.value, *c.breaker.rating);
  if (as_several != as_single)
    cx.needs_input("receptacle.kind", "a single receptacle alone on its circuit and a duplex have different ratings to keep to");
  if (!as_single) return several(cx, c, receptacle);
  cx.assume("receptacle", "receptacle.kind is not given: taken as one single receptacle", cx.cite("single-receptacle"));
  alone(cx, c, receptacle);
}

}  // namespace

extern const Check check_receptacle_rating{
    .id = "receptacle-rating",
    .title = "Receptacle and circuit",
    .family = Family::circuits,
    .about = "A single receptacle alone on its circuit is rated at least as the circuit, so that nothing larger than it can carry is "
             "fed through it. Several, and a duplex is two, have the ratings of a table, which also limits what one plugged-in "
             "load may draw.",
    .formula = "single: Ir >= In; several: by the table, and I <= Im for one plugged-in load",
    .reads = "receptacle.rating, receptacle.kind, receptacle.count, breaker.rating, load.connection, load.receptacles, load.current, "
             "circuit.individual, circuit.also_feeds",
    .rules = "single-receptacle, receptacles, appliances",
    .run = run};

}  // namespace pullproof
