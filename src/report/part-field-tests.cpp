// The field test sheet: what a meter should read before and after the circuit is energized, with room for what it reads.
#include <fmt/format.h>

#include "derive/control-loads.hpp"
#include "derive/control.hpp"
#include "derive/drop.hpp"
#include "derive/impedance.hpp"
#include "derive/line.hpp"
#include "derive/load.hpp"
#include "derive/wiring.hpp"
#include "report/parts.hpp"

namespace pullproof::report {
namespace {

using doc::Role;
using doc::Spans;

std::string text_of(Resistance r) { return fmt::format("{} ohm", number_text(raw(r), raw(r) < 1 ? 3 : 2)); }
std::string text_of(Voltage v) { return fmt::format("{} V", number_text(raw(v), 1)); }
std::string text_of(Current i) { return fmt::format("{} A", number_text(raw(i), raw(i) < 1 ? 3 : 2)); }

/// Rows of a sheet. What cannot be worked out says why in place of the figure.
class TestSheet {
 public:
  TestSheet(const Source& source, std::string subject)
      : s_(source), subject_(std::move(subject)), table_(table(subject_, {{"Test"}, {"How"}, {"Should read"}, {"Reads", doc::Table::Align::start, true}})) {}

  template <class F>
  void row(std::string_view test, std::string_view how, F&& expected, Spans reads = {}) {
    std::string why;
    const std::optional<std::string> text = reckon(s_, subject_, why, std::forward<F>(expected));
    table_.rows.push_back({plain(test), plain(how), text ? plain(*text) : plain(fmt::format("not known: {}", why), Role::faint), std::move(reads)});
  }
  void fixed(std::string_view test, std::string_view how, std::string_view expected, Spans reads = {}) {
    table_.rows.push_back({plain(test), plain(how), plain(expected), std::move(reads)});
  }
  doc::Table take() { return std::move(table_); }

 private:
  const Source& s_;
  std::string subject_;
  doc::Table table_;
};

/// One conductor from end to end, at the temperature that the tables or the case give.
Resistance one_way(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  if (c.path.empty()) cx.needs_input("circuit.path", "the length is not known");
  Resistance sum{};
  for (const Stretch& st : c.path) sum += derive::impedance_of(cx, line, st, derive::conductors_on(cx, c, st)).resistance.value;
  return sum;
}

/// The grounding wire from end to end.
Resistance ground_way(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  if (c.path.empty()) cx.needs_input("circuit.path", "the length is not known");
  Resistance sum{};
  for (const Stretch& st : c.path) {
    const derive::GroundOn g = derive::ground_on(cx, c, st);
    if (!g.wire || !g.size) cx.needs_input("ground.size", "no wire of a known size runs all the way");
    derive::Conductors k = derive::conductors_on(cx, c, st);
    k.size = g.size;
    k.material = g.material;
    k.sets = 1;
    sum += derive::impedance_of(cx, line, st, k).resistance.value;
  }
  return sum;
}

std::string_view warm(const Circuit& c) {
  return c.wire.temperature ? c.wire.temperature.text : std::string_view("75 °C");
}

void circuit_sheet(Part& out, const Source& s, const Circuit& c) {
  const CircuitMeasured& m = c.measured;
  TestSheet sheet(s, name_of(c));
  const bool feeder = c.role.value_or(CircuitRole::branch) == CircuitRole::feeder;
  sheet.row("Grounding path", feeder ? "dead; from one panel's ground bar to the other's" : "dead; panel's ground bar to the appliance's frame", [&](Context& cx) {
    return fmt::format("at most {} for the wire at {}, less when cold, and the leads", text_of(ground_way(cx, c)), warm(c));
  });
  sheet.row("Circuit conductors", "dead, far end joined; out and back", [&](Context& cx) {
    return fmt::format("at most {} at {}, less when cold, and the leads", text_of(2.0 * one_way(cx, c)), warm(c));
  });
  sheet.row("Insulation", "dead, load and electronics disconnected; every conductor to every other and to ground", [&](Context& cx) {
    return fmt::format("at least {} at {} dc", cx.parameter_text("measured-insulation", "least"), cx.parameter_text("measured-insulation", "test"));
  }, as_written(m.insulation));
  sheet.fixed("Terminals", "torque at the device", m.torque_marked ? m.torque_marked.text : std::string_view("as marked on the device"), as_written(m.torque));
  sheet.row("Volts where it starts", "live, load off", [&](Context& cx) {
    const derive::Drop d = derive::drop_of(cx, c, {derive::Reach::supply});
    return fmt::format("about {}", text_of(d.source.value));
  });
  sheet.row("Volts where it starts", "live, load on", [&](Context& cx) {
    const derive::Drop d = derive::drop_of(cx, c, {derive::Reach::supply});
    return fmt::format("about {}", text_of(d.start.value));
  }, as_written(m.start_voltage));
  sheet.row(feeder ? "Volts at its end" : "Volts at the appliance", "live, load on, at the same time", [&](Context& cx) {
    const derive::Drop d = derive::drop_of(cx, c, {derive::Reach::supply});
    if (!d.fed) cx.not_covered("the run loses more than there is");
    return fmt::format("about {}, with the conductors at {}", text_of(d.load.value), warm(c));
  }, as_written(m.load_voltage));
  if (!feeder)
    sheet.row("Amperes", "live, load on", [&](Context& cx) { return fmt::format("about {}", text_of(derive::drawn_current(cx, c, derive::line_of(cx, c)).value)); }, as_written(m.current));
  const bool gfci = c.breaker.gfci.value_or(false) || c.disconnect.gfci.value_or(false) || c.receptacle.gfci.value_or(false);
  if (gfci) sheet.fixed("Ground-fault protection", "live, its test button", "opens, and resets");
  if (c.breaker.afci.value_or(false)) sheet.fixed("Arc-fault protection", "live, its test button", "opens, and resets");
  if (c.disconnect.where && c.disconnect.kind && *c.disconnect.kind != DisconnectKind::none) sheet.fixed("Disconnect", "opened; meter at the appliance, proved before and after", "0 V, every conductor");
  out.add(sheet.take());
}

void control_sheet(Part& out, const Source& s, const Control& c) {
  TestSheet sheet(s, name_of(c));
  sheet.row("Loop", "dead, disconnected, far end shorted", [&](Context& cx) {
    Control then = c;  // where it was read at some temperature, the figure is for that one
    if (c.measured.temperature) then.cable.temperature = c.measured.temperature;
    const derive::Loop loop = derive::loop_of(cx, then);
    const Temperature t = then.cable.temperature ? *then.cable.temperature : cx.parameter("control-temperature", "temperature", units::celsius);
    bool warmer = false;
    for (const Stretch& st : c.path) warmer = warmer || (!then.cable.temperature && st.raceway != nullptr && st.raceway->ambient && st.raceway->ambient->celsius > t.celsius);
    return warmer ? fmt::format("{} at the temperature of its raceway, less when colder, and the leads", text_of(loop.resistance.value))
                  : fmt::format("{} at {} °C, and the leads", text_of(loop.resistance.value), number_text(t.celsius, 1));
  }, as_written(c.measured.loop));
  sheet.fixed("Shorts", "dead, disconnected, far end open; each conductor to every other and to ground", "no connection");
  sheet.row("Volts of the source", "live, nothing connected", [&](Context& cx) {
    const std::string nominal = text_of(derive::source_voltage(cx, c).value);
    return c.source.maximum_voltage ? fmt::format("{} to {}", nominal, c.source.maximum_voltage.text) : fmt::format("{} or a little more", nominal);
  });
  sheet.row("Volts at the device", "live, everything on the run on", [&](Context& cx) {
    const auto source = derive::source_voltage(cx, c);
    const auto devices = derive::devices_of(cx, c, source);
    if (devices.empty() || !devices.front().runs()) cx.needs_input("control.load.current", "what the device draws is not known");
    const derive::Network network = derive::network_of(cx, c, source, devices);
    const derive::Arrival a = derive::arrival_at(cx, network, 0, derive::Moment::running);
    if (!a.voltage) cx.not_covered("the run loses more than there is");
    std::string text = fmt::format("about {}", text_of(a.voltage->value));
    if (c.load.minimum_voltage) text += fmt::format(", at least {}", c.load.minimum_voltage.text);
    return text;
  });
  out.add(sheet.take());
}

}  // namespace

void add_field_tests(Part& out, const Source& s) {
  out.heading(2, "Field test sheet", "field-tests");
  if (s.job.circuits.empty() && s.job.controls.empty()) return out.paragraph("The case describes no circuit and no control run.");
  out.paragraph("Before the dead tests: open, lock and tag, then prove that it is dead with a meter that was proved on a known source before and after. "
                "What the case says was read stands in the last column; the rest is to fill in.");
  for (const Circuit& c : s.job.circuits) circuit_sheet(out, s, c);
  for (const Control& c : s.job.controls) control_sheet(out, s, c);
  doc::Fields f;
  f.rows.push_back({"Meter, and when it was last calibrated", {}});
  f.rows.push_back({"Tested by", {}});
  f.rows.push_back({"Date", {}});
  out.add(std::move(f));
}

}  // namespace pullproof::report
