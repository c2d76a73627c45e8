#include "calc/measured.hpp"
#include "derive/drop.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const CircuitMeasured& m = c.measured;
  if (!m.start_voltage && !m.load_voltage && !m.current) {
    cx.not_applicable("nothing was measured with the load on", cx.cite("measured-drop"));
    return;
  }
  cx.need(m.start_voltage, "measured.start_voltage", "the drop is between both ends");
  cx.need(m.load_voltage, "measured.load_voltage", "the drop is between both ends");
  cx.need(m.current, "measured.current", "the drop goes by the current of that moment");
  Circuit then = c;  // the circuit as it was when it was read
  then.load.current = m.current;
  then.load.motors.clear();
  const derive::Drop drop = derive::drop_of(cx, then);
  if (!drop.fed) cx.not_covered("the wire cannot feed the measured current", drop.cite);
  const auto lost = cx.apply(calc::volts_lost, units::volt, {}, cx.given("volts where it starts", "Vs", m.start_voltage, units::volt),
                             cx.given("volts at the load", "Vl", m.load_voltage, units::volt));
  const auto margin = cx.parameter("measured-drop", "margin", "margin of the meter", "m", units::volt);
  const auto more = cx.parameter("measured-drop", "percent", "margin of the wire", "k", units::percent);
  const Citation cite = cx.cite("measured-drop");
  const auto most = cx.apply(calc::most_volts, units::volt, cite, drop.lost, more, margin);
  Finding& f = cx.recommend(lost, Must::at_most, most, cite, m.load_voltage.where);
  if (f.verdict == Verdict::advice) {
    f.change = cx.text("the wire accounts for {} V: look for a bad joint or a loose terminal with the power off, then for a longer run or a smaller wire than the case says",
                       number_text(units::volt.show(drop.lost.value), 2));
    return;
  }
  const auto share = cx.parameter("measured-drop", "low-percent", "share below which a reading is repeated", "k", units::percent);
  const auto fewest = cx.apply(calc::fewest_volts, units::volt, cite, drop.lost, share, margin);
  Finding& g = cx.recommend(lost, Must::at_least, fewest, cite, m.load_voltage.where);
  if (g.verdict == Verdict::advice)
    g.change = "repeat the reading with the load on at both ends at once; else the wire is larger or the run shorter than the case says";
}

}  // namespace

extern const Check check_measured_drop{
    .id = "measured-drop",
    .title = "Measured voltage drop",
    .family = Family::measured,
    .about = "After the pull a meter tells whether the joints are good: volts at both ends with the load on, and the amperes of that "
             "moment. The drop that the wire accounts for at that current is worked out as for the voltage drop checks. Clearly more "
             "suggests a bad joint, clearly less a reading to repeat. Measuring live is for qualified people with rated meters and "
             "protection.",
    .formula = "Vm = Vs - Vl; Vd * k - m <= Vm <= Vd * (1 + k) + m",
    .reads = "measured.start_voltage, measured.load_voltage, measured.current, circuit.path, circuit.wire, load.power_factor",
    .rules = "measured-drop, conductor-properties, ac-impedance",
    .run = run};

}  // namespace pullproof
