#include <cmath>

#include "calc/control.hpp"
#include "derive/control-loads.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The voltage that picks the band: the highest without load, else the nominal one, with a word about it.
Traced<Voltage> voltage_for_limits(Context& cx, const Control& c) {
  if (c.source.maximum_voltage) return cx.given("highest voltage of the source", "Vx", c.source.maximum_voltage, units::volt);
  const auto v = derive::source_voltage(cx, c);
  cx.working().rename(v.step, "nominal voltage of the source", "Vx");
  cx.advise(cx.text("the voltage without load is not given: the limits are taken at the nominal {}, and a source idles higher", c.source.voltage.text),
            "give control.source.maximum_voltage from the data sheet", cx.cite("control-transformer-idle"), c.source.voltage.where);
  return v;
}

/// A limit that a row gives outright or through n and the voltage; nothing when both are blank.
std::optional<Traced<Power>> power_limit(Context& cx, const code::TableRef& t, std::size_t row, const std::string& group, const Traced<Voltage>& v) {
  if (const auto s = cx.cell(t, row, group + "-va", "most volt-amperes of such a source", "Sx", units::volt_ampere)) return s;
  const auto n = cx.cell(t, row, group + "-va-per-volt", "n of the volt-amperes", "n", units::ratio);
  if (!n) return std::nullopt;
  const auto s = cx.apply(calc::control::volts_times, units::volt_ampere, cx.edition().cite(t), *n, v);
  cx.working().rename(s.step, "most volt-amperes of such a source", "Sx");
  return s;
}
std::optional<Traced<Current>> current_limit(Context& cx, const code::TableRef& t, std::size_t row, const std::string& column,
                                             std::string_view name, const Traced<Voltage>& v) {
  if (const auto i = cx.cell(t, row, column, name, "Ix", units::ampere)) return i;
  const auto n = cx.cell(t, row, column + "-per-volt", "n of the current", "n", units::ratio);
  if (!n) return std::nullopt;
  const auto i = cx.apply(calc::control::over_volts, units::ampere, cx.edition().cite(t), *n, v);
  cx.working().rename(i.step, name, "Ix");
  return i;
}

/// The table and row of a source of this class and voltage; nothing when there is no such source.
struct Band {
  code::TableRef table;
  std::size_t row;
};
std::optional<Band> band_of(Context& cx, const Control& c, int klass, Voltage v) {
  const bool dc = c.source.voltage->dc;
  const auto find = [&](int k) -> std::optional<Band> {
    const auto t = cx.table(cx.text("class{}-{}", k, dc ? "dc" : "ac"));
    const auto row = t.band("through", raw(v));
    if (!row) return std::nullopt;
    return Band{t, *row};
  };
  const auto band = find(klass);
  if (klass != 3 || !band) return band;
  // The bands of Class 3 begin where those of Class 2 end: below, its source keeps to the limits of Class 2.
  const double over = band->table.cell(band->row, "over").number().value_or(0);
  if (raw(v) > over * (1 + slack)) return band;
  cx.choose("limits", cx.text("a Class 3 source of at most {} V keeps to the limits of Class 2", number_text(over, 0)), cx.edition().cite(band->table));
  return find(2);
}

void no_such_source(Context& cx, const Control& c, int klass, std::string_view kind, const Traced<Voltage>& v, const Citation& cite) {
  cx.fail(cx.text("no Class {} source {} has {} V {}", klass, kind, number_text(raw(v.value), 1), c.source.voltage->dc ? "dc" : "ac"),
          "use a source of a lower voltage, or wire the run as the class that it is", cite, c.source.voltage.where, v.step);
}

void judge_limited_class(Context& cx, const Control& c, int klass) {
  const ControlSource& s = c.source;
  if (s.listed && !*s.listed) {
    cx.fail(cx.text("the source is not listed as Class {}; neither its voltage nor a fuse makes it one", klass),
            "use a listed source of that class, or wire the run as Class 1", cx.cite("class2-source"), s.listed.where);
    return;
  }
  if (!s.listed) cx.assume("listing", cx.text("control.source.listed is not given: taken as listed and marked Class {}", klass), cx.cite("class2-source"));
  cx.need(s.voltage, "control.source.voltage", "the limits of a source go by its voltage, ac or dc");
  const auto v = voltage_for_limits(cx, c);
  const auto band = band_of(cx, c, klass, v.value);
  const Citation limits = cx.cite("class2-limits");
  if (!band) return no_such_source(cx, c, klass, "at all", v, limits);
  bool by_device = s.overcurrent.present;
  if (s.inherently_limited) by_device = !*s.inherently_limited;
  else if (!by_device)
    cx.assume("limitation", "control.source.inherently_limited is not given, nor control.source.overcurrent: taken as limited by its own nature");
  const std::string group = by_device ? "limited" : "inherent";
  const Citation cite = cx.edition().cite(band->table);
  const auto va = power_limit(cx, band->table, band->row, group, v);
  const auto amps = current_limit(cx, band->table, band->row, group + "-amps", "most nameplate current of such a source", v);
  if (!va && !amps) return no_such_source(cx, c, klass, by_device ? "limited by an overcurrent device" : "limited by its own nature", v, cite);
  if (!s.rating && !s.current) cx.needs_input("control.source.rating", "its volt-amperes, or control.source.current, decide whether it keeps to its class");
  const std::string_view change = cx.text("this is no Class {} source: use one with a smaller rating, or wire the run as Class 1", klass);
  const auto judge = [&](Finding& f) {
    if (f.verdict == Verdict::fail) f.change = change;
  };
  if (s.rating && va) judge(cx.require(cx.given("rating of the source", "S", s.rating, units::volt_ampere), Must::at_most, *va, cite, s.rating.where));
  if (s.current && amps) judge(cx.require(cx.given("nameplate current of the source", "I", s.current, units::ampere), Must::at_most, *amps, cite, s.current.where));
  if (!by_device) return;
  cx.need(s.overcurrent, "control.source.overcurrent", "a source that does not limit itself has a device that does");
  const auto most = current_limit(cx, band->table, band->row, "limited-ocpd", "largest device for such a source", v);
  if (!most) return;
  Finding& f = cx.require(cx.given("overcurrent device of the source", "In", s.overcurrent, units::ampere), Must::at_most, *most, cite, s.overcurrent.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("a device of at most {} A", number_text(std::floor(raw(most->value) * 100 * (1 + slack)) / 100, 2));
}

void judge_class1(Context& cx, const Control& c) {
  const ControlSource& s = c.source;
  cx.need(s.voltage, "control.source.voltage", "the limits of a source go by its voltage");
  const auto v = s.maximum_voltage ? cx.given("highest voltage of the source", "Vx", s.maximum_voltage, units::volt) : derive::source_voltage(cx, c);
  const Citation limited = cx.cite("class1-limits");
  const Voltage most_volts = cx.parameter("class1-limits", "voltage", units::volt);
  const Power most_power = cx.parameter("class1-limits", "power", units::volt_ampere);
  const bool low = at_most(v.value, most_volts);
  const bool beyond = !cx.rule("class1-not-limited")["voltage"].blank();
  if (beyond && (!low || (s.rating && !at_most(*s.rating, most_power)))) {
    const auto limit = cx.parameter("class1-not-limited", "voltage", "most voltage of a Class 1 source that is not power-limited", "Vc", units::volt);
    Finding& f = cx.require(v, Must::at_most, limit, cx.cite("class1-not-limited"), s.voltage.where);
    if (f.verdict == Verdict::fail) f.change = "describe it as a circuit: it is no control circuit of this class";
    return;
  }
  constexpr std::string_view change = "this is no Class 1 source here: describe it as a circuit, under the rules of power wiring";
  Finding& f = cx.require(v, Must::at_most, cx.parameter("class1-limits", "voltage", "most voltage of a Class 1 source", "Vc", units::volt), limited, s.voltage.where);
  if (f.verdict == Verdict::fail) f.change = change;
  if (!s.rating) {
    if (!beyond) cx.needs_input("control.source.rating", "its volt-amperes decide whether it keeps to its class");
    return;
  }
  Finding& g = cx.require(cx.given("rating of the source", "S", s.rating, units::volt_ampere), Must::at_most,
                          cx.parameter("class1-limits", "power", "most volt-amperes of a Class 1 source", "Sx", units::volt_ampere), limited, s.rating.where);
  if (g.verdict == Verdict::fail) g.change = change;
}

/// Outputs of sources are not joined.
void judge_joined(Context& cx, const Control& c) {
  if (!c.source.joined.value_or(false)) return;
  const Citation cite = cx.cite("class2-parallel");
  if (c.source.listed_for_joining.value_or(false))
    return void(cx.pass("its output is joined with another source's, and they are listed for that", cite, c.source.listed_for_joining.where));
  cx.fail("its output is joined with that of another source, so neither bounds what the wire may carry", "give each source its own wiring, or use sources that are listed for being joined",
          cite, c.source.joined.where);
}

/// A transformer on a supply of a high voltage to ground has its secondary grounded.
void judge_grounding(Context& cx, const Control& c) {
  if (!c.source.voltage || c.source.voltage->dc || !cx.job().supply.system || !cx.has_rule("low-voltage-grounding")) return;
  const System& s = *cx.job().supply.system;
  const Voltage to_ground = s.line_to_neutral > Voltage{} ? s.line_to_neutral : s.line_to_line;
  const Voltage limit = cx.parameter("low-voltage-grounding", "voltage", units::volt);
  if (at_least(c.source.voltage->volts, cx.parameter("low-voltage-grounding", "below", units::volt)) || at_most(to_ground, limit)) return;
  cx.advise(cx.text("the supply may stand {} V to ground: a transformer fed from over {} V to ground has its low-voltage side grounded",
                    number_text(raw(to_ground), 0), number_text(raw(limit), 0)),
            "ground one side of the transformer's output, or feed it from a circuit of a lower voltage to ground; ask the authority", cx.cite("low-voltage-grounding"),
            c.source.voltage.where);
}

/// The highest voltage is no lower than the nominal one.
void judge_voltages(Context& cx, const Control& c) {
  const ControlSource& s = c.source;
  if (!s.maximum_voltage || !s.voltage || at_least(*s.maximum_voltage, s.voltage->volts)) return;
  Stop stop;
  stop.message = cx.text("the highest voltage, {}, is below the nominal {}; without load it is no lower", s.maximum_voltage.text, s.voltage.text);
  stop.missing = "control.source.maximum_voltage";
  stop.where = s.maximum_voltage.where;
  throw stop;
}

void run(Context& cx, const Control& c) {
  const bool known = c.source.control_class || c.source.voltage || c.source.rating || c.source.current;
  if (!known) return void(cx.not_applicable("nothing is given about the source"));
  cx.need(c.source.control_class, "control.source.class", "the class of a circuit follows its source");
  const int klass = static_cast<int>(*c.source.control_class);
  judge_voltages(cx, c);
  judge_grounding(cx, c);
  if (klass != 1) judge_joined(cx, c);
  if (klass == 1) judge_class1(cx, c);
  else judge_limited_class(cx, c, klass);
}

}  // namespace

extern const Check check_control_source{
    .id = "control-source",
    .title = "Source of the control circuit",
    .family = Family::control,
    .about = "What makes small wire without a raceway safe is its source, which cannot give enough to burn or to shock: the class follows "
             "the source, not the voltage on the wire. A Class 2 or 3 source is listed as one; its volt-amperes, its current and its "
             "overcurrent device lie within the table for its highest voltage, which a transformer has without load. A fuse behind a "
             "general transformer makes none. What the tables say of the output with the protection bypassed is the listing laboratory's "
             "to measure and is not looked at. Outputs of such sources are not joined. Whether the source is large enough for its loads "
             "control-transformer says.",
    .formula = "S <= limit or n * Vx; I <= limit or n / Vx",
    .reads = "control.source, supply.system",
    .rules = "class2-source, class2-limits, class2-ac, class2-dc, class3-ac, class3-dc, class1-limits, class1-not-limited, class2-parallel, "
             "control-transformer-idle, low-voltage-grounding",
    .run = run};

}  // namespace pullproof
