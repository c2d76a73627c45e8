#include "derive/load.hpp"

#include <algorithm>

#include "calc/load.hpp"
#include "calc/motor.hpp"
#include "derive/motor.hpp"
#include "derive/sharing.hpp"

namespace pullproof::derive {
namespace {

constexpr std::string_view owner = "load-current";

bool is_feeder(const Circuit& c) { return c.role.value_or(CircuitRole::branch) == CircuitRole::feeder; }

/// Whether the whole load is continuous: as given, else as the edition says of the appliance.
std::optional<bool> is_continuous(Context& cx, const Circuit& c) {
  if (c.load.continuous) return *c.load.continuous;
  const auto t = cx.edition().table("appliances");
  if (!c.load.appliance || !t || !t->seen()) return std::nullopt;
  const auto row = t->find(*c.load.appliance);
  if (!row) return std::nullopt;
  const bool yes = t->cell(*row, "continuous").yes();
  const Citation cite = cx.edition().cite(*t, *row, t->column("continuous"));
  if (yes)
    cx.choose("continuous load", cx.text("{}: a continuous load", *c.load.appliance), cite);
  else
    cx.assume("continuous load",
              cx.text("load.continuous is not given: {} is taken not to run three hours or more at its largest current", *c.load.appliance), cite);
  return yes;
}

/// The rule that raises the load of an appliance whatever the hours, and its percentage.
std::optional<DesignLoad> raised_appliance(Context& cx, const Circuit& c, Traced<Current> load) {
  const auto t = cx.edition().table("raised-appliances");
  if (is_feeder(c) || !c.load.appliance || !t || !t->seen()) return std::nullopt;
  const auto row = t->find(*c.load.appliance);
  if (!row) return std::nullopt;
  const std::string_view rule = t->cell(*row, "rule").text();
  const auto k = cx.parameter(rule, t->cell(*row, "parameter").text(), cx.text("factor for {}", *c.load.appliance), "k", units::percent);
  DesignLoad out;
  out.cite = cx.cite(rule);
  out.continuous = true;
  out.current = cx.apply(calc::all_continuous, units::ampere, out.cite, load, k);
  return out;
}

/// Whether a device that may carry all of its rating spares the load the increase: not where the appliance's own article
/// asks for the percentage, but for loads that only count as continuous.
bool spared(const Context& cx, const Circuit& c) {
  if (!c.breaker.full_load_rated.value_or(false)) return false;
  const auto t = cx.edition().table("raised-appliances");
  if (is_feeder(c) || !c.load.appliance || !t || !t->seen()) return true;
  const auto row = t->find(*c.load.appliance);
  const auto rule = row ? cx.edition().rule(t->cell(*row, "rule").text()) : std::nullopt;
  return !rule || !(*rule)["listed-percent"].blank();
}

DesignLoad marked_minimum(Context& cx, const Circuit& c) {
  DesignLoad out;
  out.marked = out.after_factors = true;
  out.cite = cx.cite("marked-minimum");
  out.current = cx.given("marked minimum circuit ampacity", "MCA", c.load.minimum_circuit_ampacity, units::ampere);
  return out;
}

DesignLoad with_continuous_part(Context& cx, const Circuit& c, const Line& line, std::string_view rule_name) {
  const std::string rule = std::string(rule_name) + (is_feeder(c) ? "-feeder" : "");
  const Traced<Current> load = circuit_load(cx, c, line);
  if (const auto raised = raised_appliance(cx, c, load)) return *raised;
  DesignLoad out;
  out.cite = cx.cite(rule);
  out.current = load;
  const auto factor = [&] { return cx.parameter(rule, "percent", "factor for continuous load", "k", units::percent); };
  if (c.load.continuous_current) {
    const auto part = cx.given("continuous part", "C", c.load.continuous_current, units::ampere);
    if (!at_most(part.value, load.value))
      cx.fails_in(owner, "the continuous part is more than the whole load", "read the nameplate again: one of the two is wrong", out.cite,
                  c.load.continuous_current.where);
    out.current = cx.apply(calc::with_continuous_part, units::ampere, out.cite, load, part, factor());
    out.continuous = true;
  } else if (const auto continuous = is_continuous(cx, c)) {
    out.continuous = *continuous;
    if (out.continuous) out.current = cx.apply(calc::all_continuous, units::ampere, out.cite, load, factor());
  } else {
    cx.assume("continuous load", "load.continuous is not given: the load is taken not to run three hours or more at its largest current",
              out.cite);
  }
  return out;
}

/// The load on a device and its conductors that are listed to carry the whole of its rating continuously.
DesignLoad unraised(Context& cx, const Circuit& c, const Line& line, std::string_view rule_name) {
  DesignLoad out;
  out.current = circuit_load(cx, c, line);
  out.cite = cx.cite(std::string(rule_name) + (is_feeder(c) ? "-feeder" : ""));
  cx.choose("continuous load", "the device is listed for 100 % of its rating, so nothing is added", out.cite);
  out.continuous = c.load.continuous.value_or(false) || c.load.continuous_current;
  return out;
}

Traced<Current> plus(Context& cx, const Traced<Current>& own, const std::optional<Traced<Current>>& others, const Citation& cite) {
  if (!others) return own;
  const auto sum = cx.apply(calc::currents_added, units::ampere, cite, own, *others);
  cx.working().rename(sum.step, "all loads of the circuit", "Is");
  return sum;
}

/// What a load with everything else on its circuit asks for: continuous parts raised, and the largest motor (220.18).
DesignLoad beside_others(Context& cx, const Circuit& c, DesignLoad load, std::string_view raised_by) {
  if (c.also_feeds.empty()) return load;
  const auto others = other_loads(cx, c, Which::all, raised_by);
  load.continuous = load.continuous || std::any_of(c.also_feeds.begin(), c.also_feeds.end(), [](const Share& s) { return s.continuous.value_or(false); });
  std::optional<Traced<Current>> largest;
  for (const Share& s : c.also_feeds)
    if (s.motor.value_or(false)) {
      const auto i = share_current(cx, s);
      if (!largest || i.value > largest->value) largest = i;
    }
  load.current = plus(cx, load.current, others, load.cite);
  if (!largest || has_motors(c) || load.marked) return load;
  const auto k = cx.parameter("motor-among-loads", "percent", "factor for the largest motor among other loads", "k", units::percent);
  load.current = cx.apply(calc::with_largest_motor, units::ampere, cx.cite("motor-among-loads"), load.current, *largest, k);
  return load;
}

DesignLoad ordinary_load(Context& cx, const Circuit& c, const Line& line, std::string_view rule) {
  const bool full = c.breaker.full_load_rated.value_or(false);
  return beside_others(cx, c, spared(cx, c) ? unraised(cx, c, line, rule) : with_continuous_part(cx, c, line, rule), full ? std::string_view{} : rule);
}

/// The demand of a household range (220.55): by percentage through column B, flat through the base, growing above it.
std::optional<Traced<Power>> range_demand(Context& cx, const Circuit& c) {
  if (is_feeder(c) || !c.load.appliance || !cx.has_rule("range-load") || !cx.listed("range-load", "appliances", *c.load.appliance))
    return std::nullopt;
  const Given<Power>& given = c.load.power ? c.load.power : c.load.apparent_power;
  if (!given || !cx.need(cx.job().supply.dwelling, "supply.dwelling", "household ranges have a demand below their rating")) return std::nullopt;
  const auto kilowatts = [&](std::string_view key) { return cx.parameter("range-load", key, units::kilowatt); };
  if (at_most(given.value, kilowatts("above"))) return std::nullopt;
  const auto power = cx.given("rating of the range", "P", given, units::kilowatt);
  const auto t = cx.table("ranges");
  const Citation cite = cx.cite("range-load");
  if (at_most(power.value, kilowatts("column-b-through"))) {
    const std::string_view column = power.value < kilowatts("column-a-below") ? "a" : "b";
    const auto share = cx.cell(t, 0, column, "demand factor of one", "p", units::percent);
    return cx.apply(calc::share_of_power, units::kilowatt, cite, power, *share);
  }
  const auto flat = cx.cell(t, 0, "c", "demand of one", "Dc", units::kilowatt);
  cx.working().because_of(power.step);
  if (at_most(power.value, kilowatts("base"))) return flat;
  if (!at_most(power.value, kilowatts("through"))) return std::nullopt;
  const auto base = cx.parameter("range-load", "base", "base rating", "B", units::kilowatt);
  const auto more = cx.parameter("range-load", "percent", "growth for each kilowatt", "p", units::percent);
  const auto steps = cx.apply(calc::whole_kilowatts, units::count, cite, power, base);
  return cx.apply(calc::grown_demand, units::kilowatt, cite, *flat, more, steps);
}

}  // namespace

Traced<double> power_factor(Context& cx, const Circuit& c, const Line& line) {
  if (c.load.power_factor) return cx.given("power factor", "pf", c.load.power_factor, units::ratio);
  if (line.dc) return cx.working().choice("power factor", "pf", 1.0, units::ratio, "direct current", {});
  return cx.assume("power factor", "pf", 1.0, units::ratio, "load.power_factor is not given: taken as 1");
}

Traced<Current> load_current(Context& cx, const Circuit& c, const Line& line) {
  const Load& l = c.load;
  if (l.current) return cx.given("load current", "I", l.current, units::ampere);
  const auto volts = [&] { return cx.given("circuit voltage", "V", c.voltage, units::volt); };
  if (l.apparent_power) {
    const auto s = cx.given("apparent power", "S", l.apparent_power, units::volt_ampere);
    const auto v = volts();
    return line.phases == 3 ? cx.apply(calc::current_from_va_3ph, units::ampere, {}, s, v)
                            : cx.apply(calc::current_from_va_1ph, units::ampere, {}, s, v);
  }
  if (l.power) {
    const auto p = cx.given("power", "P", l.power, units::watt);
    const auto v = volts();
    const auto pf = power_factor(cx, c, line);
    return line.phases == 3 ? cx.apply(calc::current_from_watts_3ph, units::ampere, {}, p, v, pf)
                            : cx.apply(calc::current_from_watts_1ph, units::ampere, {}, p, v, pf);
  }
  if (has_motors(c)) return running_current(cx, c, line);
  if (l.minimum_circuit_ampacity)
    return cx.given("marked minimum circuit ampacity, as the load", "I", l.minimum_circuit_ampacity, units::ampere);
  cx.needs_input("load.current", "give amperes, watts, volt-amperes or the marked minimum circuit ampacity");
}

Traced<Current> circuit_load(Context& cx, const Circuit& c, const Line& line) {
  const auto demand = range_demand(cx, c);
  if (!demand) return load_current(cx, c, line);
  const auto va = cx.working().choice("demand as a load", "S", demand->value, units::volt_ampere, "kilowatts of a range count as kilovolt-amperes", cx.cite("range-load"));
  cx.working().because_of(demand->step);
  const auto volts = cx.given("circuit voltage", "V", c.voltage, units::volt);
  return line.phases == 3 ? cx.apply(calc::current_from_va_3ph, units::ampere, cx.cite("range-load"), va, volts)
                          : cx.apply(calc::current_from_va_1ph, units::ampere, cx.cite("range-load"), va, volts);
}

Traced<Current> whole_load(Context& cx, const Circuit& c, const Line& line) {
  const auto own = circuit_load(cx, c, line);
  return plus(cx, own, other_loads(cx, c, Which::all), {});
}

Traced<Current> drawn_current(Context& cx, const Circuit& c, const Line& line) {
  const auto own = load_current(cx, c, line);
  return plus(cx, own, other_loads(cx, c, Which::all), {});
}

DesignLoad load_for_conductor(Context& cx, const Circuit& c, const Line& line) {
  constexpr std::string_view ordinary = "continuous-load-conductor";
  if (c.load.minimum_circuit_ampacity) return beside_others(cx, c, marked_minimum(cx, c), ordinary);
  if (has_motors(c)) {
    const MotorConductor motors = motor_conductor(cx, c, line);
    DesignLoad out;
    out.current = motors.current;
    out.cite = motors.cite;
    out.after_factors = true;
    return out;
  }
  const std::string_view kind = circuit_kind(cx, c);
  if (kind == "motor")
    cx.needs_input("load.motors", "the conductors of a motor go by the table current for its horsepower, or by a marked minimum circuit ampacity");
  if (kind == "cooling") {
    DesignLoad out;
    out.after_factors = true;
    out.cite = cx.cite("cooling-conductor");
    const auto k = cx.parameter("cooling-conductor", "percent", "factor for a compressor", "k", units::percent);
    out.current = cx.apply(calc::all_continuous, units::ampere, out.cite, load_current(cx, c, line), k);
    cx.working().rename(out.current.step, "compressor current raised", "Ic");
    return beside_others(cx, c, out, ordinary);
  }
  return ordinary_load(cx, c, line, ordinary);
}

DesignLoad load_for_device(Context& cx, const Circuit& c, const Line& line) {
  constexpr std::string_view ordinary = "continuous-load-device";
  if (c.load.minimum_circuit_ampacity) return beside_others(cx, c, marked_minimum(cx, c), ordinary);
  if (const std::string_view kind = circuit_kind(cx, c); kind == "cooling" || kind == "motor" || has_motors(c)) {
    DesignLoad out;  // nothing is raised: the device carries what runs, and has to let it start
    out.after_factors = true;
    out.cite = cx.cite(kind == "cooling" ? "cooling-device" : "motor-device");
    out.current = drawn_current(cx, c, line);
    return out;
  }
  return ordinary_load(cx, c, line, ordinary);
}

std::string_view circuit_kind(const Context& cx, const Circuit& c) {
  const auto t = cx.edition().table("appliances");
  if (c.load.appliance && t && t->has_column("kind"))
    if (const auto r = t->find(*c.load.appliance)) return t->cell(*r, "kind").text();
  if (!has_motors(c)) return "ordinary";
  const bool compressor = std::any_of(c.load.motors.begin(), c.load.motors.end(),
                                      [](const Motor& m) { return m.rated_load_current || m.branch_selection_current; });
  return compressor ? "cooling" : "motor";
}

}  // namespace pullproof::derive
