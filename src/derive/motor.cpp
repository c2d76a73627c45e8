#include "derive/motor.hpp"

#include <algorithm>
#include <cmath>
#include <string>

#include "calc/motor.hpp"
#include "derive/device.hpp"
#include "derive/load.hpp"
#include "derive/sharing.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

/// The voltage column of a motor table: rated voltages stand for the systems around them (430.6(A), table heads).
std::string_view voltage_column(double volts, bool dc) {
  struct Band {
    double low, high;
    std::string_view column;
  };
  static constexpr Band ac[] = {{110, 127, "v-115"}, {195, 204, "v-200"}, {204, 216, "v-208"}, {216, 250, "v-230"},
                                {430, 500, "v-460"}, {540, 610, "v-575"}};
  static constexpr Band direct[] = {{85, 100, "v-90"}, {110, 130, "v-120"}, {170, 190, "v-180"}, {230, 250, "v-240"},
                                    {480, 500, "v-500"}, {540, 560, "v-550"}};
  const auto find = [&](const auto& bands) -> std::string_view {
    for (const Band& b : bands)
      if (volts >= b.low && volts <= b.high) return b.column;
    return {};
  };
  return dc ? find(direct) : find(ac);
}

/// What the unity columns of synchronous motors are multiplied by, by the note of Table 430.250: it prints two power factors.
std::optional<Traced<double>> synchronous_share(Context& cx, const Circuit& c) {
  cx.need(c.load.power_factor, "load.power_factor", "the table current of a synchronous motor depends on it");
  const auto is = [&](double ratio) { return std::abs(raw(*c.load.power_factor) - ratio) <= slack; };
  if (is(1)) return std::nullopt;
  for (const std::string_view which : {"high", "low"})
    if (is(cx.parameter("motor-synchronous", cx.text("{}-ratio", which), units::count)))
      return cx.parameter("motor-synchronous", cx.text("{}-percent", which), "share of the current at unity power factor", "k", units::percent);
  cx.not_covered("the table has no factor for this power factor of a synchronous motor", cx.cite("motor-synchronous"));
}

bool is_compressor(const Motor& m) { return m.rated_load_current || m.branch_selection_current; }

Traced<Current> table_current(Context& cx, const Circuit& c, const Motor& m, const Line& line) {
  const auto t = cx.table(line.dc ? "motor-dc" : line.phases == 3 ? "motor-three-phase" : "motor-single-phase");
  const bool synchronous = m.kind && *m.kind == MotorKind::synchronous && line.phases == 3 && !line.dc;
  std::string column{voltage_column(raw(line.volts), line.dc)};
  if (synchronous && !column.empty()) column.replace(0, 1, "synchronous");
  if (column.empty() || !t.has_column(column))
    cx.not_covered(cx.text("{} has no column for {} V", t.clause(), number_text(raw(line.volts), 1)), cx.edition().cite(t));
  for (std::size_t r = 0; r < t.rows(); ++r) {
    const double hp = t.cell(r, "horsepower").number().value_or(0);
    if (std::abs(hp - m.horsepower->value) > 0.001 * hp) continue;
    const auto given = cx.given("horsepower", "hp", m.horsepower, units::horsepower);
    const auto i = cx.cell(t, r, column, "table current of the motor", "I1", units::ampere);
    if (!i) break;
    cx.working().because_of(given.step);
    const auto k = synchronous ? synchronous_share(cx, c) : std::nullopt;
    if (!k) return *i;
    return cx.apply(calc::synchronous_current, units::ampere, cx.cite("motor-synchronous"), *k, *i);
  }
  if (m.nameplate_current) {
    cx.choose("motor current", cx.text("{} has no value for {}: the nameplate is taken", t.clause(), m.horsepower.text), cx.edition().cite(t));
    return cx.given("nameplate current", "I1", m.nameplate_current, units::ampere);
  }
  cx.not_covered(cx.text("{} has no value for {}; give load.motors.nameplate_current", t.clause(), m.horsepower.text), cx.edition().cite(t));
}

Traced<Current> current_of(Context& cx, const Circuit& c, const Motor& m, const Line& line) {
  if (is_compressor(m)) {
    if (!m.branch_selection_current) return cx.given("rated-load current", "I1", m.rated_load_current, units::ampere);
    if (!m.rated_load_current) return cx.given("branch-circuit selection current", "I1", m.branch_selection_current, units::ampere);
    const auto a = cx.given("rated-load current", "Ia", m.rated_load_current, units::ampere);
    const auto b = cx.given("branch-circuit selection current", "Ib", m.branch_selection_current, units::ampere);
    return cx.apply(calc::greater_current, units::ampere, cx.cite("cooling-current"), a, b);
  }
  if (m.horsepower) return table_current(cx, c, m, line);
  if (m.nameplate_current) return cx.given("nameplate current", "I1", m.nameplate_current, units::ampere);
  cx.needs_input("load.motors.horsepower", "give horsepower, or the nameplate current of a small or special motor");
}

MotorKind kind_of(Context& cx, const Motor& m, const Line& line) {
  if (m.kind) return *m.kind;
  if (line.dc) return MotorKind::direct_current;
  if (line.phases == 3) {
    cx.assume("kind of motor", "load.motors.kind is not given: taken as a polyphase squirrel-cage motor, not of design B", cx.cite("motor-device"));
    return MotorKind::polyphase;
  }
  return MotorKind::single_phase;
}

std::string_view device_column(const Circuit& c) {
  if (c.breaker.kind.value_or(DeviceKind::breaker) == DeviceKind::breaker) return "breaker";
  return c.breaker.time_delay.value_or(false) ? "time-delay-fuse" : "fuse";
}

/// The most for a motor that does not start otherwise, not rounded up (430.52(C)(1) Exception No. 2).
Traced<Current> raised_share(Context& cx, std::string_view column, const Traced<Current>& motor) {
  constexpr std::string_view rule = "motor-device-raised";
  const Citation cite = cx.cite(rule);
  const auto share = [&](std::string_view key) {
    return cx.apply(calc::device_share, units::ampere, cite, cx.parameter(rule, key, "raised share of the table current", "k", units::percent), motor);
  };
  if (column == "breaker") return share(motor.value > cx.parameter(rule, "breaker-through", units::ampere) ? "large-breaker-percent" : "breaker-percent");
  if (column != "fuse") return share("time-delay-percent");
  const auto most = share("fuse-percent");
  const Current through = cx.parameter(rule, "fuse-through", units::ampere);
  if (at_most(most.value, through)) return most;
  // Fuses above this rating have a smaller share of their own.
  const auto large = share("large-fuse-percent");
  return large.value > through ? large : cx.parameter(rule, "fuse-through", "largest fuse of the smaller ratings", "Im", units::ampere);
}

MotorDevice compressor_device(Context& cx, const Circuit& c, const std::vector<MotorCurrent>& motors) {
  const bool raised = c.load.hard_start.value_or(false);
  const auto k = cx.parameter("cooling-device", raised ? "raised-percent" : "percent", "share for the compressor", "k", units::percent);
  MotorDevice out;
  out.cite = cx.cite(several_motors(c) ? "cooling-group-device" : "cooling-device");
  out.most = cx.apply(calc::device_share, units::ampere, cx.cite("cooling-device"), k, motors.front().current);
  if (const auto rest = rest_of(cx, c, motors, Beside::circuit)) {
    cx.working().rename(out.most.step, "most for the largest motor", "Im");
    out.most = cx.apply(calc::device_with_rest, units::ampere, out.cite, out.most, *rest);
  }
  // Not rounded up; but a device below the least need not be used.
  const Current least = cx.parameter("cooling-device", "least", units::ampere);
  const Current ceiling = std::max(out.most.value, least);
  out.allowed = standard_rating_to(cx, c.breaker.kind.value_or(DeviceKind::breaker), ceiling, "largest standard device", "Id");
  cx.working().because_of(out.most.step);
  return out;
}

}  // namespace

bool has_motors(const Circuit& c) { return !c.load.motors.empty(); }

bool several_motors(const Circuit& c) {
  return has_motors(c) && (c.load.motors.size() > 1 || c.load.other_current || !c.also_feeds.empty());
}

std::vector<MotorCurrent> motor_currents(Context& cx, const Circuit& c, const Line& line) {
  std::vector<MotorCurrent> out;
  for (const Motor& m : c.load.motors) out.push_back({&m, current_of(cx, c, m, line), is_compressor(m)});
  std::stable_sort(out.begin(), out.end(), [](const MotorCurrent& a, const MotorCurrent& b) { return a.current.value > b.current.value; });
  return out;
}

std::vector<MotorCurrent> circuit_motors(Context& cx, const Circuit& c, const Line& line) {
  std::vector<MotorCurrent> out = motor_currents(cx, c, line);
  for (const Share& s : c.also_feeds)
    if (s.motor.value_or(false)) out.push_back({nullptr, share_current(cx, s), false});
  std::stable_sort(out.begin(), out.end(), [](const MotorCurrent& a, const MotorCurrent& b) { return a.current.value > b.current.value; });
  return out;
}

std::optional<Traced<Current>> rest_of(Context& cx, const Circuit& c, const std::vector<MotorCurrent>& motors, Beside beside,
                                       std::string_view raised_by) {
  std::optional<Traced<Current>> sum;
  const auto add = [&](const Traced<Current>& i) { sum = sum ? cx.apply(calc::currents_added, units::ampere, {}, *sum, i) : i; };
  for (std::size_t i = 1; i < motors.size(); ++i) add(motors[i].current);
  if (c.load.other_current) add(cx.given("other load", "Ib", c.load.other_current, units::ampere));
  if (beside == Beside::circuit)
    if (const auto others = other_loads(cx, c, Which::no_motors, raised_by)) add(*others);
  return sum;
}

MotorConductor motor_conductor(Context& cx, const Circuit& c, const Line& line) {
  const auto motors = circuit_motors(cx, c, line);
  const bool several = several_motors(c);
  const bool cooling = std::any_of(motors.begin(), motors.end(), [](const MotorCurrent& m) { return m.compressor; });
  const std::string_view rule = cooling ? "cooling-conductor" : several ? "motor-group-conductor" : "motor-conductor";
  MotorConductor out;
  out.cite = cx.cite(rule);
  const auto k = cx.parameter(rule, "percent", "factor for the largest motor", "k", units::percent);
  out.current = cx.apply(calc::motor_raised, units::ampere, out.cite, k, motors.front().current);
  if (const auto rest = rest_of(cx, c, motors, Beside::circuit, several ? "motor-group-conductor" : "")) out.current = cx.apply(calc::currents_added, units::ampere, out.cite, out.current, *rest);
  cx.working().rename(out.current.step, "current for the conductors of the motors", "Im");
  return out;
}

Traced<Current> running_current(Context& cx, const Circuit& c, const Line& line) {
  const auto motors = motor_currents(cx, c, line);
  if (const auto rest = rest_of(cx, c, motors, Beside::load)) {
    const auto sum = cx.apply(calc::currents_added, units::ampere, {}, motors.front().current, *rest);
    cx.working().rename(sum.step, "currents of all motors", "I");
    return sum;
  }
  return motors.front().current;
}

std::optional<Traced<Horsepower>> combined_horsepower(Context& cx, const Circuit& c, const Line& line) {
  const bool known = std::all_of(c.load.motors.begin(), c.load.motors.end(), [](const Motor& m) { return m.horsepower.present && !is_compressor(m); });
  if (line.dc || !known) return std::nullopt;
  const Citation cite = cx.cite("motor-disconnect-combination");
  const auto running = cx.table(line.phases == 3 ? "motor-three-phase" : "motor-single-phase");
  const auto locked = cx.table(line.phases == 3 ? "locked-rotor-three-phase" : "locked-rotor-single-phase");
  const std::string_view column = voltage_column(raw(line.volts), false);
  if (column.empty() || !running.has_column(column) || !locked.has_column(column))
    cx.not_covered(cx.text("{} has no column for {} V", locked.clause(), number_text(raw(line.volts), 1)), cx.edition().cite(locked));
  const auto row_of = [](const code::TableRef& t, double hp) -> std::optional<std::size_t> {
    for (std::size_t r = 0; r < t.rows(); ++r)
      if (std::abs(t.cell(r, "horsepower").number().value_or(0) - hp) <= 0.001 * hp) return r;
    return std::nullopt;
  };
  std::optional<Traced<Current>> all_running, all_locked;
  for (const Motor& m : c.load.motors) {
    const auto own = current_of(cx, c, m, line);
    const auto row = row_of(locked, raw(*m.horsepower));
    const auto printed = row ? cx.cell(locked, *row, column, cx.text("locked-rotor current of {}", m.horsepower.text), "Il", units::ampere) : std::nullopt;
    const auto k = printed ? std::optional<Traced<double>>{} : std::optional(cx.parameter("motor-disconnect-combination", "locked-count", "locked-rotor over table current", "k", units::count));
    const auto still = printed ? *printed : cx.apply(calc::locked_small, units::ampere, cite, *k, own);
    all_running = all_running ? cx.apply(calc::currents_added, units::ampere, cite, *all_running, own) : own;
    all_locked = all_locked ? cx.apply(calc::currents_added, units::ampere, cite, *all_locked, still) : still;
  }
  const auto least = [&](const code::TableRef& t, const Traced<Current>& sum) {
    for (std::size_t r = 0; r < t.rows(); ++r)
      if (const auto i = t.cell(r, column).number(); i && at_least(units::ampere.of(*i), sum.value)) return t.cell(r, "horsepower").number().value_or(0);
    cx.not_covered("the motors together are beyond the tables", cx.edition().cite(t));
  };
  const double by_running = least(running, *all_running), by_locked = least(locked, *all_locked);
  const auto out = cx.working().choice("horsepower of the motors together", "P", Horsepower{std::max(by_running, by_locked)}, units::horsepower,
                                       cx.text("of one motor with {} A, and {} A with its rotor locked", number_text(raw(all_running->value), 1), number_text(raw(all_locked->value), 1)), cite);
  cx.working().because_of(all_running->step);
  cx.working().because_of(all_locked->step);
  return out;
}

bool feeds_motors(const Context& cx, const Circuit& feeder) {
  if (feeder.role.value_or(CircuitRole::branch) != CircuitRole::feeder) return false;
  const auto is_fed = [&](const Circuit& c) {
    if (c.role.value_or(CircuitRole::branch) == CircuitRole::feeder) return false;
    for (const Circuit* f = c.feeder; f != nullptr; f = f->feeder)
      if (f == &feeder) return true;
    return false;
  };
  return std::any_of(cx.job().circuits.begin(), cx.job().circuits.end(), [&](const Circuit& c) {
    return is_fed(c) && cx.listed("small-conductor-relief", "circuits", circuit_kind(cx, c));
  });
}

MotorDevice motor_device(Context& cx, const Circuit& c, const Line& line) {
  const auto motors = circuit_motors(cx, c, line);
  if (motors.front().compressor) return compressor_device(cx, c, motors);
  if (several_motors(c))
    cx.not_covered("several motors on one circuit: the device follows the listing of the group, or each has its own", cx.cite("motor-group-device"));
  return motor_device(cx, c, line, motors.front());
}

MotorDevice motor_device(Context& cx, const Circuit& c, const Line& line, const MotorCurrent& motor) {
  const auto t = cx.table("motor-device");
  const std::string_view kind = word(motor.motor != nullptr ? kind_of(cx, *motor.motor, line) : line.phases == 3 ? MotorKind::polyphase : MotorKind::single_phase);
  const std::size_t row = cx.row(t, kind);
  const std::string_view column = device_column(c);
  const DeviceKind device = c.breaker.kind.value_or(DeviceKind::breaker);
  MotorDevice out;
  out.cite = cx.cite("motor-device");
  const auto k = cx.cell(t, row, column, cx.text("share for a {} motor", kind), "k", units::percent);
  if (!k) cx.not_covered("no share is listed", cx.edition().cite(t));
  out.most = cx.apply(calc::device_share, units::ampere, out.cite, *k, motor.current);
  const auto up = standard_rating_from(cx, device, out.most.value, "next standard device", "Id");
  if (!up) cx.not_covered("above the standard ratings", out.cite);
  cx.working().because_of(out.most.step);
  out.allowed = *up;
  if (!c.load.hard_start.value_or(false)) return out;
  // What the motor may have anyhow stays: the raised share adds to it or does nothing.
  out.most = raised_share(cx, column, motor.current);
  if (const auto within = largest_standard(cx, device, out.most.value); within && *within > up->value) {
    out.cite = cx.cite("motor-device-raised");
    out.allowed = standard_rating_to(cx, device, out.most.value, "largest standard device", "Id");
    cx.working().because_of(out.most.step);
  }
  return out;
}

}  // namespace pullproof::derive
