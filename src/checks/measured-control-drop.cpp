#include "calc/measured.hpp"
#include "derive/control-loads.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Control& c) {
  const ControlMeasured& m = c.measured;
  if (!m.source_voltage && !m.load_voltage) return void(cx.not_applicable("the voltage was not measured with the load on", cx.cite("measured-control-drop")));
  cx.need(m.source_voltage, "measured.source_voltage", "the drop is between both ends");
  cx.need(m.load_voltage, "measured.load_voltage", "the drop is between both ends");
  cx.need(c.source.voltage, "control.source.voltage", "what the load draws is taken at it");
  const auto source = cx.given("volts at the source", "Vs", m.source_voltage, units::volt);
  const auto nominal = derive::source_voltage(cx, c);
  const derive::Network n = derive::network_of(cx, c, source, derive::devices_of(cx, c, nominal));
  if (!n.devices.front().runs()) cx.needs_input("control.load.current", "the drop goes by what the load draws while it runs");
  const derive::Arrival a = derive::arrival_at(cx, n, 0, derive::Moment::running);
  const Citation cite = cx.cite("measured-control-drop");
  if (!a.voltage) cx.not_covered("no voltage at the device is stable by the working", cite);
  const auto expected = cx.apply(calc::volts_lost, units::volt, {}, source, *a.voltage);
  cx.working().rename(expected.step, "drop that the cable accounts for", "Vd");
  const auto lost = cx.apply(calc::volts_lost, units::volt, {}, source, cx.given("volts at the device", "Vl", m.load_voltage, units::volt));
  const auto margin = cx.parameter("measured-control-drop", "margin", "margin of the meter", "m", units::volt);
  const auto most = cx.apply(calc::most_volts, units::volt, cite, expected, cx.parameter("measured-control-drop", "percent", "margin of the cable", "k", units::percent), margin);
  Finding& f = cx.recommend(lost, Must::at_most, most, cite, m.load_voltage.where);
  if (f.verdict == Verdict::advice) {
    f.change = cx.text("the cable accounts for {} V: look for a bad splice or terminal, then for a longer run, a smaller gauge or a load that draws more than the case says",
                       number_text(units::volt.show(expected.value), 2));
    return;
  }
  const auto fewest = cx.apply(calc::fewest_volts, units::volt, cite, expected, cx.parameter("measured-control-drop", "low-percent", "share below which a reading is repeated", "k", units::percent), margin);
  Finding& g = cx.recommend(lost, Must::at_least, fewest, cite, m.load_voltage.where);
  if (g.verdict == Verdict::advice) g.change = "repeat both readings with the load on; else it draws less, the gauge is larger or the run shorter than the case says";
}

}  // namespace

extern const Check check_measured_control_drop{
    .id = "measured-control-drop",
    .title = "Measured voltage at the control device",
    .family = Family::measured,
    .about = "With the load on, a meter reads the volts at the source and at the device. Clearly more is lost between them than the cable "
             "accounts for: a bad splice or terminal, or a longer run. The working takes the source at the volts that were read there.",
    .formula = "Vm = Vs - Vl; Vd * k - m <= Vm <= Vd * (1 + k) + m",
    .reads = "control.measured.source_voltage, control.measured.load_voltage, control.source.voltage, control.length, control.path, control.cable, control.load, control.also",
    .rules = "measured-control-drop, small-gauge, metric-conductors, copper-temperature, control-temperature, control-stranding, control-devices",
    .run = run};

}  // namespace pullproof
