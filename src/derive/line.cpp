#include "derive/line.hpp"

#include <cmath>

namespace pullproof::derive {
namespace {

constexpr std::string_view owner = "supply-voltage";

/// Nameplates say 115, 200, 230, 460 where systems say 120, 208, 240, 480: a small share apart is the same.
struct Nearness {
  double share = 0;
  bool operator()(Voltage a, Voltage nominal) const {
    return raw(nominal) > 0 && at_most(std::abs(raw(a) - raw(nominal)), share * raw(nominal));
  }
};

struct Found {
  System system;
  bool to_neutral = false, to_line = false;  ///< which of its voltages the circuit has
};

/// The share is the nameplate standard's, not the code book's: an edition that nobody has seen has it too.
double share_of(const Context& cx) {
  const auto r = cx.edition().rule("supply-voltage");
  const auto percent = r ? (*r)["percent"].number() : std::nullopt;
  if (!percent) cx.not_covered("how far a nameplate's voltage may be from the supply's is not known");
  return *percent * units::percent.in_si;
}

/// The supply system, and which of its voltages the circuit takes.
Found system_of(Context& cx, const Circuit& c, Voltage volts) {
  Found out;
  const Nearness near{share_of(cx)};
  const auto& given = cx.job().supply.system;
  if (given) {
    out.system = *given;
  } else if (near(volts, Voltage::from_value(120)) || near(volts, Voltage::from_value(240))) {
    out.system.line_to_line = Voltage::from_value(240);
    out.system.line_to_neutral = Voltage::from_value(120);
    out.system.wires = 3;
    cx.assume("supply system", "supply.system is not given: taken as 120/240 V 1-phase 3-wire");
  } else {
    cx.needs_input("supply.system", "the conductors that carry current and the voltage to ground depend on it");
  }
  const System& s = out.system;
  out.to_neutral = near(volts, s.line_to_neutral);
  out.to_line = near(volts, s.line_to_line);
  if (out.to_neutral || out.to_line) return out;
  const std::string_view line = cx.text("{} V", number_text(raw(s.line_to_line), 1));
  cx.fails_in(owner, cx.text("{} is no voltage of a {} supply", c.voltage.text, given.text),
              s.line_to_neutral > Voltage{}
                  ? cx.text("use {} or {} V, as the equipment allows", line, number_text(raw(s.line_to_neutral), 1))
                  : cx.text("use {}, as the equipment allows", line),
              cx.edition().cite(*cx.edition().rule("supply-voltage")), c.voltage.where);
}

int phases_of(Context& cx, const Circuit& c, const Found& f) {
  const auto wrong = [&](std::string_view message, std::string_view change) {
    cx.fails_in(owner, message, change, cx.edition().cite(*cx.edition().rule("supply-voltage")), c.phases.where);
  };
  if (!c.phases) {
    if (f.system.phases == 3 && f.to_line && c.breaker.poles) {
      const int phases = *c.breaker.poles >= 3 ? 3 : 1;
      cx.choose("phases", cx.text("circuit.phases is not given: a breaker of {} poles feeds {}", number_text(*c.breaker.poles, 0),
                                  phases == 3 ? "three phases" : "one phase"));
      return phases;
    }
    if (f.system.phases == 3 && f.to_line)
      cx.needs_input("circuit.phases", "a circuit from a three-phase supply may be 1-phase or 3-phase");
    return 1;
  }
  if (*c.phases != 1 && *c.phases != 3)
    wrong(cx.text("a circuit has 1 or 3 phases, not {}", number_text(*c.phases, 2)), "give circuit.phases as 1 or 3");
  if (*c.phases == 3 && f.system.phases != 3)
    wrong("the supply has no three phases", "feed it from a three-phase supply, or use single-phase equipment");
  if (*c.phases == 3 && !f.to_line)
    wrong(cx.text("{} is the voltage between a line and the neutral, and three phases have theirs between lines", c.voltage.text),
          cx.text("give circuit.voltage as {} V", number_text(raw(f.system.line_to_line), 1)));
  return static_cast<int>(*c.phases);
}

}  // namespace

Line line_of(Context& cx, const Circuit& c) {
  Line line;
  line.volts = cx.need(c.voltage, "circuit.voltage", "everything about the circuit starts from it");
  const Found found = system_of(cx, c, line.volts);
  const System& s = found.system;
  // Where the rule was not seen a neutral counts, and the checks that the count matters to are not covered anyway.
  const bool seen = cx.has_rule("count-neutral");
  const auto counts = [&](std::string_view key) { return seen ? static_cast<int>(cx.parameter("count-neutral", key, units::count)) : 1; };
  const bool named_neutral = c.wire.neutral && *c.wire.neutral != "none";
  const bool no_neutral = c.wire.neutral && *c.wire.neutral == "none";
  const bool high_leg = s.phases == 3 && s.wires == 4 && !s.wye;
  line.dc = s.dc;
  line.phases = s.dc ? 1 : phases_of(cx, c, found);
  line.nominal = found.to_line && !found.to_neutral ? s.line_to_line : s.line_to_neutral;
  if (line.phases == 3) line.nominal = s.line_to_line;
  line.to_ground = s.line_to_neutral > Voltage{} ? s.line_to_neutral : s.line_to_line;
  int neutral_counts = 0;
  std::string_view how;
  if (line.phases == 3) {
    line.hots = 3;
    line.neutral = named_neutral;
    const bool harmonic = named_neutral && s.wye && c.load.nonlinear.value_or(false);
    neutral_counts = !named_neutral ? 0
                     : harmonic     ? counts("wye-nonlinear-count")
                     : high_leg     ? counts("delta-high-leg-count")
                                    : counts("wye-linear-count");
    // The high leg of a delta stands √3 times the mid-tap voltage above ground.
    if (high_leg) line.to_ground = Voltage::from_value(raw(s.line_to_neutral) * std::sqrt(3.0));
    how = harmonic ? "three phases and a neutral under mostly harmonic load" : "three phases";
  } else if (found.to_neutral) {
    line.to_neutral = true;
    line.neutral = true;
    neutral_counts = counts("two-wire-count");
    how = "two wires, one of them the neutral, which carries the full current";
  } else if (s.wires == 2) {
    line.hots = no_neutral ? 2 : 1;
    line.neutral = !no_neutral;
    neutral_counts = no_neutral ? 0 : counts("two-wire-count");
    how = "two wires, both of which carry the full current";
  } else {
    line.hots = 2;
    line.neutral = named_neutral;
    neutral_counts = !named_neutral ? 0 : s.wye ? counts("wye-two-phases-count") : counts("multiwire-count");
    if (high_leg && !named_neutral) line.to_ground = Voltage::from_value(raw(s.line_to_neutral) * std::sqrt(3.0));
    how = !named_neutral ? "two lines without a neutral"
          : s.wye        ? "two lines of a wye system and the neutral, which carries about as much"
                         : "two lines and a neutral that carries only the difference";
  }
  line.counted = line.hots + neutral_counts;
  cx.working().choice("counted conductors of the circuit", "n", static_cast<double>(line.counted), units::count, how,
                      seen ? cx.cite("count-neutral") : Citation{});
  line.why_counted = cx.working().last();
  return line;
}

Line quiet_line(const Context& cx, const Circuit& c) {
  Context quiet = cx.scratch();
  return line_of(quiet, c);
}

}  // namespace pullproof::derive
