#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const auto t = cx.table("bending-space");
  const Given<ConductorSize> size = c.path.empty() ? c.wire.size : derive::conductors_on(cx, c, c.path.front()).size;
  if (!size) cx.needs_input("wire.size", "the room to bend it depends on its size");
  const auto row = t.find(size->label());
  static constexpr std::string_view columns[] = {"one", "two", "three", "four", "five"};
  const double wires = c.breaker.wires_per_terminal.value_or(1);
  const std::string_view column = columns[static_cast<std::size_t>(wires) - 1];
  if (!row || t.cell(*row, "one").blank()) {
    cx.not_applicable(cx.text("none is asked for {}", size->label()), cx.edition().cite(t));
    return;
  }
  const auto least = cx.cell(t, *row, column, "least bending space", "Lb", units::inch);
  if (!least)
    cx.not_covered(cx.text("no bending space is given for {} wires of {} on a terminal", number_text(wires, 0), size->label()), cx.edition().cite(t));
  const Citation cite = cx.edition().cite(t, *row, t.column(column));
  if (!c.breaker.bending_space) {
    cx.advise(cx.text("{} at the terminals needs {} in to bend: measure it (breaker.bending_space)", size->label(),
                      number_text(units::inch.show(least->value), 2)),
              "measure from the terminal to the wall opposite", cite, c.breaker.where, least->step);
    return;
  }
  const auto given = cx.given("bending space", "L", c.breaker.bending_space, units::inch);
  Finding& f = cx.require(given, Must::at_least, *least, cite, c.breaker.bending_space.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use an enclosure with {} in, or smaller wire", number_text(units::inch.show(least->value), 2));
}

}  // namespace

extern const Check check_bending_space{
    .id = "bending-space",
    .title = "Room to bend wires at terminals",
    .family = Family::boxes,
    .about = "Large wire that is forced around a corner works its terminal loose. From 8 AWG up a space is asked between the terminal "
             "and the wall that the wire leaves by, more for more wires on a terminal. Where nothing was measured, the space that is "
             "needed is given as advice.",
    .formula = "L >= Lb",
    .reads = "wire.size, breaker.bending_space, breaker.wires_per_terminal",
    .rules = "bending-space",
    .run = run};

}  // namespace pullproof
