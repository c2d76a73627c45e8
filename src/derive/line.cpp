#include "derive/line.hpp"

#include <cmath>

namespace pullproof::derive {
namespace {

/// Nameplates say 115, 200, 208, 230, 460 where systems say 120, 208, 240, 480: a tenth apart is the same.
bool about(Voltage a, Voltage b) { return raw(b) > 0 && std::abs(raw(a) - raw(b)) <= 0.1 * raw(b); }

}  // namespace

Line line_of(Context& cx, const Circuit& c) {
  Line line;
  line.volts = cx.need(c.voltage, "circuit.voltage", "everything about the circuit starts from it");
  System s;
  if (const auto& given = cx.job().supply.system) {
    s = *given;
  } else if (about(line.volts, Voltage::from_value(120)) || about(line.volts, Voltage::from_value(240))) {
    s.line_to_line = Voltage::from_value(240);
    s.line_to_neutral = Voltage::from_value(120);
    s.phases = 1;
    s.wires = 3;
    cx.assume("supply system", "supply.system is not given: taken as 120/240 V 1-phase 3-wire");
  } else {
    cx.needs_input("supply.system", "the number of conductors that carry current depends on it");
  }
  line.dc = s.dc;
  const bool named_neutral = c.wire.neutral && *c.wire.neutral != "none";
  const bool matches_neutral = s.line_to_neutral > Voltage{} && about(line.volts, s.line_to_neutral);
  const bool matches_line = about(line.volts, s.line_to_line);
  if (s.dc) {
    line.counted = 2;
    line.to_ground = line.volts;
    return line;
  }
  if (!matches_line && !matches_neutral)
    cx.needs_input("supply.system", cx.text("{} is no voltage of a {} supply", c.voltage.text, cx.job().supply.system.text));
  line.phases = c.phases ? static_cast<int>(*c.phases) : (s.phases == 3 && s.wires == 3 ? 3 : 1);
  if (!c.phases && s.phases == 3 && matches_line)
    cx.needs_input("circuit.phases", "a circuit from a three-phase supply may be 1-phase or 3-phase");
  if (line.phases == 2 || (line.phases == 3 && s.phases != 3))
    cx.needs_input("circuit.phases", "the supply does not have that many phases");
  const Voltage other_to_ground = s.line_to_neutral > Voltage{} ? s.line_to_neutral : s.line_to_line;
  const code::RuleRef neutral_rule = cx.rule("count-neutral");
  const auto counted = [&](std::string_view key) { return static_cast<int>(neutral_rule[key].number().value_or(1)); };
  const bool high_leg = s.phases == 3 && s.wires == 4 && !s.wye;
  line.to_ground = high_leg ? Voltage::from_value(raw(s.line_to_neutral) * std::sqrt(3.0)) : other_to_ground;
  int neutral_counts = 0;
  std::string_view how;
  if (line.phases == 3) {
    line.hots = 3;
    line.neutral = named_neutral;
    neutral_counts = !named_neutral                  ? 0
                     : c.load.nonlinear.value_or(false) ? counted("wye-nonlinear-count")
                     : high_leg                         ? counted("delta-high-leg-count")
                                                        : counted("wye-linear-count");
    how = c.load.nonlinear.value_or(false) ? "three phases and a neutral under mostly harmonic load" : "three phases";
  } else if (matches_neutral && !(matches_line && s.phases == 1 && s.wires == 2)) {
    line.to_neutral = true;
    line.hots = 1;
    line.neutral = true;
    line.to_ground = s.line_to_neutral;
    neutral_counts = counted("two-wire-count");
    how = "two wires, one of them the neutral, which carries the full current";
  } else {
    line.hots = 2;
    if (s.wires == 2) {  // a two-wire supply: one of its wires is grounded or both are lines; both carry
      line.hots = 1;
      line.neutral = true;
      neutral_counts = 1;
      how = "two wires";
    } else {
      line.neutral = named_neutral;
      neutral_counts = !named_neutral ? 0 : s.wye ? counted("wye-two-phases-count") : counted("multiwire-count");
      how = !named_neutral ? "two lines without a neutral"
            : s.wye        ? "two lines of a wye system and the neutral, which carries about as much"
                           : "two lines and a neutral that carries only the difference";
    }
  }
  line.counted = line.hots + neutral_counts;
  cx.working().choice("counted conductors of the circuit", "n", static_cast<double>(line.counted), units::count, how,
                      cx.edition().cite(neutral_rule));
  line.why_counted = cx.working().last();
  return line;
}

Line quiet_line(const Context& cx, const Circuit& c) {
  Context quiet = cx.scratch();
  return line_of(quiet, c);
}

}  // namespace pullproof::derive
