#include "derive/ampacity.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Above the low band the conductors themselves have to stand the temperature of the terminals.
void conductors_stand(Context& cx, const Circuit& c) {
  const auto t = cx.table("insulation");
  const double least = cx.parameter("terminals", "high-conductor", units::count);
  for (const Stretch& s : c.path) {
    const derive::Conductors k = derive::conductors_on(cx, c, s);
    const std::string_view in = derive::name_of(s);
    if (k.type.empty()) {
      if (k.cable != nullptr)
        cx.not_covered(cx.text("the temperature of the cord in '{}' is not known", in), cx.cite("terminals"));
      cx.needs_input("wire.type", "the temperature of the insulation is held against the terminals");
    }
    if (k.fixture) continue;  // which is a failure of its own
    const std::size_t row = cx.row(t, k.type);
    const std::string_view place = derive::moisture_word(derive::moisture_in(cx, s).moisture);
    const auto rated = t.cell(row, place).number();
    if (!rated) continue;  // which is a failure of its own
    const Citation cite = cx.cite("terminals");
    if (*rated >= least)
      cx.pass(cx.text("{} in '{}' is a {} °C conductor, enough for terminals of this circuit", k.type, in, number_text(*rated, 0)), cite, k.type_where);
    else
      cx.fail(cx.text("{} in '{}' is a {} °C conductor; terminals of this circuit take {} °C ones", k.type, in, number_text(*rated, 0), number_text(least, 0)),
              cx.text("use conductors for {} °C or more", number_text(least, 0)), cite, k.type_where);
  }
}

void run(Context& cx, const Circuit& c) {
  if (!c.breaker.rating) cx.needs_input("breaker.rating", "the terminals' column goes by it");
  const derive::Terminals t = derive::terminals_of(cx, c, *c.breaker.rating);
  cx.pass(cx.text("the terminals give the {} °C column", t.column), cx.cite("terminals"), {}, t.why);
  if (!t.low) conductors_stand(cx, c);
}

}  // namespace

extern const Check check_terminal_temperature{
    .id = "terminal-temperature",
    .title = "Temperature of the terminals",
    .family = Family::conductors,
    .about = "A conductor at its own ampacity may be hotter than the terminal it ends in, which then loosens and burns. The lower "
             "marking of the two ends gives the column that caps the ampacity: unmarked terminals take the lower column on smaller "
             "circuits, and on larger ones the conductors have to stand the higher column themselves. Insulation for a higher "
             "temperature helps against heat and company, never above the terminals' column.",
    .formula = "",
    .reads = "breaker.rating, breaker.terminals, load.terminals, supply.terminals, wire.type, raceway.place, cable.type",
    .rules = "terminals, terminals-motor, insulation",
    .run = run};

}  // namespace pullproof
