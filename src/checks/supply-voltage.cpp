#include "derive/line.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void nameplate_fits(Context& cx, const Circuit& c, const derive::Line& line) {
  const Voltage nominal = line.nominal;
  const std::string_view between = line.phases == 3  ? "between its three lines"
                                   : line.to_neutral ? "between a line and the neutral"
                                   : line.hots == 2  ? "between two lines"
                                                     : "between its two wires";
  const Citation cite = cx.cite("supply-voltage");
  if (line.volts == nominal) {
    cx.pass(cx.text("{} is what the supply has {}", c.voltage.text, between), cite, c.voltage.where);
    return;
  }
  const auto t = cx.table("nominal-voltages");
  for (std::size_t r = 0; r < t.rows(); ++r) {
    const auto volts = [&](std::string_view column) { return Voltage::from_value(t.cell(r, column).number().value_or(0)); };
    if (volts("nominal") != nominal) continue;
    if (!at_least(line.volts, volts("lowest")) || !at_most(line.volts, volts("highest"))) break;
    cx.pass(cx.text("{} on the nameplate is made for the {} V that the supply has {}", c.voltage.text, number_text(raw(nominal), 1), between),
            cx.edition().cite(t), c.voltage.where);
    return;
  }
  cx.advise(cx.text("{} is near the {} V that the supply has {}, but is no usual nameplate voltage for it", c.voltage.text,
                    number_text(raw(nominal), 1), between),
            cx.text("make sure that the maker allows {} V", number_text(raw(nominal), 1)), cite, c.voltage.where);
}

void poles_fit(Context& cx, const Circuit& c, const derive::Line& line) {
  if (c.breaker.kind && *c.breaker.kind == DeviceKind::fuse) return;
  const Citation cite = cx.cite("breaker-poles");
  if (!c.breaker.poles) {
    cx.assume("poles", cx.text("breaker.poles is not given: the breaker is taken to open the circuit's {} together",
                               line.hots == 1 ? "ungrounded conductor" : line.hots == 2 ? "two ungrounded conductors" : "three ungrounded conductors"),
              cite);
    return;
  }
  if (c.breaker.handle_ties.value_or(false) && line.hots == 2) {
    cx.pass("identified handle ties join the poles of both lines", cite, c.breaker.handle_ties.where);
    return;
  }
  if (c.multiwire.value_or(false) && *c.breaker.poles < line.hots)
    cx.fails_in("multiwire", "the breaker opens fewer poles than there are lines", cx.text("use a {}-pole breaker", line.hots), cite, c.breaker.poles.where);
  const auto poles = cx.given("poles of the breaker", "n", c.breaker.poles, units::count);
  const auto hots = cx.working().choice("ungrounded conductors", "h", static_cast<double>(line.hots), units::count, "of this circuit", {});
  Finding& f = cx.require(poles, Must::at_least, hots, cite, c.breaker.poles.where);
  if (f.verdict != Verdict::fail) return;
  f.change = line.hots == 2 ? "use a 2-pole breaker, or two single-pole ones with an identified handle tie where the load is between lines alone"
                            : "use a 3-pole breaker";
}

void run(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  nameplate_fits(cx, c, line);
  poles_fit(cx, c, line);
}

}  // namespace

extern const Check check_supply_voltage{
    .id = "supply-voltage",
    .title = "Voltage, phases and poles",
    .family = Family::load,
    .about = "Equipment on the wrong voltage burns or does not start. The circuit's voltage has to be one that the supply has "
             "between two lines or between a line and the neutral, where nameplates say 115, 200, 230 or 460 for a nominal 120, "
             "208, 240 or 480; the phases that it asks for have to exist; and the breaker opens every ungrounded conductor.",
    .formula = "",
    .reads = "circuit.voltage, circuit.phases, supply.system, breaker.poles, breaker.handle_ties, breaker.kind, wire.neutral",
    .rules = "supply-voltage, nominal-voltages, breaker-poles, count-neutral",
    .run = run};

}  // namespace pullproof
