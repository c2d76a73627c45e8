#include "derive/feeding.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "calc/drop.hpp"
#include "derive/load.hpp"
#include "derive/motor.hpp"

namespace pullproof::derive {
namespace {

// A case must not take forever: nobody builds more feeders in a row, nor adds up more circuits of a panel by hand.
constexpr std::size_t most_feeders = 4, most_loads = 24;
constexpr Unit<double> conductors_unit{"", 1, 6};

/// The supply's system, or the one that `line_of` takes aloud where none is given.
System system_of(const Context& cx) {
  if (const auto& s = cx.job().supply.system) return *s;
  System s;
  s.line_to_line = Voltage::from_value(240);
  s.line_to_neutral = Voltage::from_value(120);
  s.wires = 3;
  return s;
}
bool high_leg(const System& s) { return s.phases == 3 && s.wires == 4 && !s.wye; }

double times_off(Voltage a, Voltage b) { return raw(a) > 0 && raw(b) > 0 ? std::max(raw(a) / raw(b), raw(b) / raw(a)) : 1e9; }

Traced<double> conductors(Context& cx, double n, std::string_view how) {
  return cx.working().choice("conductors of the loop that the current passes", "c", n, conductors_unit, how, {});
}

/// A load that the case gives, on a loop like that of the load that looks, or shared by the lines of a feeder.
Traced<double> passed(Context& cx, const Circuit& link, Pair carrier, Pair seen) {
  const System system = system_of(cx);
  if (carrier == seen)
    return seen == Pair::three_phase ? conductors(cx, calc::sqrt3, "three balanced phases, line to line: sqrt(3)")
                                     : conductors(cx, 2, "out and back");
  if (seen == Pair::line_to_line && carrier == Pair::three_phase)
    return conductors(cx, calc::sqrt3, "two lines of three balanced phases: sqrt(3)");
  if (seen == Pair::to_neutral && carrier == Pair::line_to_line && system.wye) {
    cx.assume("neutral", cx.text("two lines of a wye share the load of '{}' evenly, and its neutral carries as much as each", *link.name));
    return conductors(cx, 2, "a line and the neutral, which carries as much");
  }
  if (seen == Pair::to_neutral && (carrier == Pair::line_to_line || !high_leg(system))) {
    cx.assume("neutral", cx.text("the lines of '{}' share its load evenly, and its neutral carries no current", *link.name));
    return conductors(cx, 1, "one line; the balanced neutral carries nothing");
  }
  if (high_leg(system) && seen == Pair::to_neutral)
    cx.not_covered("a load to neutral on a three-phase feeder of a delta supply: the drop of one of its lines is not worked out here");
  cx.unclear("circuit.fed_by", cx.text("a circuit of this voltage and phases cannot start from '{}'", *link.name));
}

/// One of the loads that are added up on a feeder: on the same line as the load that looks.
Traced<double> passed_in_sum(Context& cx, const Circuit& feeder, const Circuit& load, Pair carrier, Pair seen) {
  if (carrier == seen && seen != Pair::three_phase) return conductors(cx, 2, "out and back, on the same conductors");
  if (carrier == seen) return conductors(cx, calc::sqrt3, "three balanced phases, line to line: sqrt(3)");
  const bool alike = system_of(cx).phases == 1;
  const bool single = (carrier == Pair::to_neutral || carrier == Pair::line_to_line) && (seen == Pair::to_neutral || seen == Pair::line_to_line);
  if (!alike || !single)
    cx.needs_input("load.current", cx.text("'{}' feeds circuits of several kinds, and how they share its lines is not known: give '{}' its own load ('{}' is one of them)",
                                           *feeder.name, *feeder.name, *load.name));
  return conductors(cx, 1, "the line that both share");
}

LoopCurrent current_of(Context& cx, const Circuit& c, const Line& line, const Traced<double>& passes, PowerFactor unknown,
                       double angle) {
  const auto current = drawn_current(cx, c, line);
  cx.working().rename(current.step, cx.text("load current of '{}'", *c.name), "I");
  const bool worst = unknown == PowerFactor::worst && !c.load.power_factor && !line.dc;
  const auto pf = worst ? cx.working().choice("power factor", "pf", 1 / std::sqrt(1 + angle * angle), units::ratio, "the worst lagging one", {})
                        : power_factor(cx, c, line);
  const auto q = cx.apply(calc::reactive_factor, units::ratio, {}, pf);
  return {cx.apply(calc::active_current, units::ampere, {}, passes, current, pf),
          cx.apply(calc::reactive_current, units::ampere, {}, passes, current, q)};
}

void gather_loads(Context& cx, const Circuit& feeder, std::size_t depth, std::vector<const Circuit*>& into) {
  if (depth > most_feeders) cx.not_covered(cx.text("more than {} feeders in a row", most_feeders));
  for (const Circuit& c : cx.job().circuits) {
    if (c.feeder != &feeder) continue;
    if (c.role.value_or(CircuitRole::branch) == CircuitRole::feeder && !has_load(c)) gather_loads(cx, c, depth + 1, into);
    else into.push_back(&c);
    if (into.size() > most_loads)
      cx.needs_input("load.current", cx.text("more than {} circuits hang on '{}': give it its own load", most_loads, *feeder.name));
  }
}

LoopCurrent summed(Context& cx, const Circuit& feeder, Pair seen, PowerFactor unknown, double angle) {
  const auto loads = loads_on(cx, feeder);
  std::string names;
  for (const Circuit* l : loads) names += (names.empty() ? "" : ", ") + std::string(*l->name);
  cx.assume("load of the feeder", cx.text("'{}' is given no load: it carries the loads of {}{}", *feeder.name, names,
                                          loads.size() > 1 ? " together, taken as all on the same line" : ""));
  std::optional<LoopCurrent> sum;
  for (const Circuit* l : loads) {
    const LoopCurrent one = on_behalf(cx, feeder, *l, [&](Context& its) {
      const Line line = line_of(its, *l);
      return current_of(its, *l, line, passed_in_sum(its, feeder, *l, pair_of(line), seen), unknown, angle);
    });
    if (!sum) sum = one;
    else sum = LoopCurrent{cx.apply(calc::sum_active, units::ampere, {}, sum->active, one.active),
                           cx.apply(calc::sum_reactive, units::ampere, {}, sum->reactive, one.reactive)};
  }
  return *sum;
}

}  // namespace

Pair pair_of(const Line& line) {
  if (line.dc) return Pair::two_wire;
  if (line.phases == 3) return Pair::three_phase;
  return line.to_neutral ? Pair::to_neutral : Pair::line_to_line;
}

bool has_load(const Circuit& c) {
  const Load& l = c.load;
  return l.current || l.apparent_power || l.power || l.minimum_circuit_ampacity;
}

std::vector<const Circuit*> chain_to(Context& cx, const Circuit& c) {
  std::vector<const Circuit*> chain{&c};
  for (const Circuit* f = c.feeder; f != nullptr; f = f->feeder) {
    if (chain.size() > most_feeders) cx.not_covered(cx.text("more than {} feeders in a row", most_feeders));
    chain.push_back(f);
  }
  std::reverse(chain.begin(), chain.end());
  return chain;
}

std::vector<const Circuit*> loads_on(Context& cx, const Circuit& feeder) {
  std::vector<const Circuit*> loads;
  gather_loads(cx, feeder, 1, loads);
  if (loads.empty()) cx.needs_input("load.current", "the feeder has no load of its own, and no circuit is fed by it");
  return loads;
}

Traced<Voltage> source_voltage(Context& cx, const Circuit& c, const Line& line) {
  const Given<Voltage>& held = cx.job().supply.voltage;
  if (!held) return cx.given("source voltage, nominal", "Vs", c.voltage, units::volt);
  const System system = system_of(cx);
  const Voltage between_lines = line.dc ? line.volts : system.line_to_line, to_neutral = line.dc ? Voltage{} : system.line_to_neutral;
  const bool held_to_neutral = times_off(*held, to_neutral) < times_off(*held, between_lines);
  if (times_off(*held, held_to_neutral ? to_neutral : between_lines) > 1.2)
    cx.unclear("supply.voltage", cx.text("{} is more than a fifth off every voltage of the supply", held.text), held.where);
  const bool wanted_to_neutral = !line.dc && line.to_neutral;
  if (held_to_neutral == wanted_to_neutral) return cx.given("source voltage", "Vs", held, units::volt);
  const auto v = cx.given("voltage at the supply", "V", held, units::volt);
  if (wanted_to_neutral)
    return system.wye ? cx.apply(calc::neutral_of_wye, units::volt, {}, v) : cx.apply(calc::half_of_line, units::volt, {}, v);
  return system.wye ? cx.apply(calc::line_of_wye, units::volt, {}, v) : cx.apply(calc::twice_neutral, units::volt, {}, v);
}

LoopCurrent loop_current(Context& cx, const Circuit& link, const Circuit& seen, PowerFactor unknown, double angle) {
  const Line line = line_of(cx, link);
  const Line looking = quiet_line(cx, seen);
  const bool feeder = link.role.value_or(CircuitRole::branch) == CircuitRole::feeder;
  if (feeder && !has_load(link)) return summed(cx, link, pair_of(looking), unknown, angle);
  if (line.dc && times_off(line.volts, looking.volts) > 1.2)
    cx.not_covered("direct current at more than one voltage: a three-wire supply is not worked out here");
  if (&link != &seen && !(seen.load.minimum_circuit_ampacity && !seen.load.current && !seen.load.power && !seen.load.apparent_power) &&
      (has_load(seen) || has_motors(seen))) {
    Context quiet = cx.scratch();
    if (drawn_current(quiet, link, line).value < drawn_current(quiet, seen, looking).value * (1 - slack))
      cx.unclear("load.current", cx.text("'{}' is given less current than '{}' alone draws from it", *link.name, *seen.name));
  }
  return current_of(cx, link, line, passed(cx, link, pair_of(line), pair_of(looking)), unknown, angle);
}

}  // namespace pullproof::derive
