#include "derive/load.hpp"

#include "calc/load.hpp"

namespace pullproof::derive {
namespace {

/// Whether the whole load is continuous: as given, else as the edition says of the appliance.
std::optional<bool> is_continuous(Context& cx, const Circuit& c) {
  if (c.load.continuous) return *c.load.continuous;
  const auto t = cx.edition().table("appliances");
  if (!c.load.appliance || !t || !t->seen()) return std::nullopt;
  const auto row = t->find(*c.load.appliance);
  if (!row) return std::nullopt;
  const bool yes = t->cell(*row, "continuous").yes();
  cx.choose("continuous load", cx.text("{}: {}", *c.load.appliance, yes ? "a continuous load" : "no continuous load"),
            cx.edition().cite(*t, *row, t->column("continuous")));
  return yes;
}

DesignLoad design_load(Context& cx, const Circuit& c, const Line& line, std::string_view rule_name) {
  DesignLoad out;
  if (c.load.minimum_circuit_ampacity) {
    out.marked = true;
    out.cite = cx.cite("marked-minimum");
    out.current = cx.given("marked minimum circuit ampacity", "MCA", c.load.minimum_circuit_ampacity, units::ampere);
    return out;
  }
  const bool feeder = c.role.value_or(CircuitRole::branch) == CircuitRole::feeder;
  const std::string rule = std::string(rule_name) + (feeder ? "-feeder" : "");
  const Traced<Current> load = load_current(cx, c, line);
  out.cite = cx.cite(rule);
  out.current = load;
  if (c.load.continuous_current) {
    const auto part = cx.given("continuous part", "C", c.load.continuous_current, units::ampere);
    if (part.value > load.value) cx.needs_input("load.continuous_current", "the continuous part is more than the whole load");
    const auto k = cx.parameter(rule, "percent", "factor for continuous load", "k", units::percent);
    out.current = cx.apply(calc::with_continuous_part, units::ampere, out.cite, load, part, k);
    out.continuous = true;
  } else if (const auto continuous = is_continuous(cx, c)) {
    out.continuous = *continuous;
    if (!out.continuous) return out;
    const auto k = cx.parameter(rule, "percent", "factor for continuous load", "k", units::percent);
    out.current = cx.apply(calc::all_continuous, units::ampere, out.cite, load, k);
  } else {
    cx.assume("continuous load", "load.continuous is not given: the load is taken not to run three hours or more at its largest current",
              out.cite);
  }
  return out;
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
  if (l.minimum_circuit_ampacity)
    return cx.given("marked minimum circuit ampacity, as the load", "I", l.minimum_circuit_ampacity, units::ampere);
  cx.needs_input("load.current", "give amperes, watts, volt-amperes or the marked minimum circuit ampacity");
}

DesignLoad load_for_device(Context& cx, const Circuit& c, const Line& line) {
  if (c.breaker.full_load_rated.value_or(false) && !c.load.minimum_circuit_ampacity) {
    const bool feeder = c.role.value_or(CircuitRole::branch) == CircuitRole::feeder;
    DesignLoad out;
    out.current = load_current(cx, c, line);
    out.cite = cx.cite(feeder ? "continuous-load-device-feeder" : "continuous-load-device");
    cx.choose("continuous load", "the device is listed for 100 % of its rating, so nothing is added", out.cite);
    out.continuous = c.load.continuous.value_or(false) || c.load.continuous_current;
    return out;
  }
  return design_load(cx, c, line, "continuous-load-device");
}

DesignLoad load_for_conductor(Context& cx, const Circuit& c, const Line& line) {
  if (c.breaker.full_load_rated.value_or(false) && !c.load.minimum_circuit_ampacity) return load_for_device(cx, c, line);
  return design_load(cx, c, line, "continuous-load-conductor");
}

std::string_view circuit_kind(const Context& cx, const Circuit& c) {
  const auto t = cx.edition().table("appliances");
  if (c.load.appliance && t && t->has_column("kind"))
    if (const auto r = t->find(*c.load.appliance)) return t->cell(*r, "kind").text();
  return "ordinary";
}

}  // namespace pullproof::derive
