#include "calc/control.hpp"
#include "derive/bus.hpp"
#include "derive/control-loads.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

using derive::Moment;

/// What one device has to have at one moment.
struct Demand {
  std::size_t device = 0;
  Moment moment = Moment::running;
  Traced<Voltage> lowest;
};

/// The longest run found by halving, for networks that no formula solves.
Length longest_by_halving(const derive::Network& n, const Demand& d) {
  const auto does = [&](Length l) {
    const auto v = derive::voltage_with(n, d.device, d.moment, l, n.loop.own.value, n.loop.common.value);
    return v && at_least(*v, d.lowest.value);
  };
  Length good{}, bad = Length::from_value(1);
  constexpr int most = 60;
  int i = 0;
  for (; i < most && does(bad); ++i) good = bad, bad *= 2.0;
  for (int j = 0; j < most; ++j) {
    const Length middle = (good + bad) / 2.0;
    (does(middle) ? good : bad) = middle;
  }
  return good;
}

Traced<Length> longest_run(Context& cx, const Control& c, const derive::Network& n, const Demand& d, const derive::Arrival& a) {
  const auto unit = derive::units_of(c).length;
  const Citation ohm;  // Ohm's and Kirchhoff's laws need no citation
  const derive::ControlDevice& device = n.devices[d.device];
  const bool constant_current = derive::draws_constant_current(device, d.moment);
  bool others_constant = true;
  for (std::size_t k = 0; k < n.devices.size(); ++k) others_constant = others_constant && (k == d.device || !n.devices[k].power);
  const auto& current = d.moment == Moment::pulling_in ? device.inrush : device.current;
  if (n.devices.size() == 1 && constant_current)
    return cx.apply(calc::control::longest, unit, ohm, n.source, d.lowest, *current, n.loop.own, n.loop.common);
  if (n.devices.size() == 1)
    return cx.apply(calc::control::longest_of_power, unit, ohm, n.source, d.lowest, *device.power, n.loop.own, n.loop.common);
  if (constant_current && others_constant && a.others && n.together)
    return cx.apply(calc::control::longest_together, unit, ohm, n.source, d.lowest, *current, *a.others, n.loop.own, n.loop.common);
  if (constant_current && others_constant && a.others)
    return cx.apply(calc::control::longest_shared, unit, ohm, n.source, d.lowest, *current, n.loop.own, *a.others, n.loop.common);
  return cx.working().choice("longest run", "Lx", longest_by_halving(n, d), unit, "found by halving, all loads solved together", ohm);
}

/// How far this cable would do and what else would do here, as the change of a fail or a remark on a pass.
void say_what_would_do(Context& cx, const Control& c, const derive::Network& n, const Demand& d, const derive::Arrival& a, Finding& f) {
  if (at_least(d.lowest.value, n.source.value)) {
    if (f.verdict != Verdict::pass) f.change = "the source gives too little even without a line: use a source of a higher voltage";
    return;
  }
  const auto longest = longest_run(cx, c, n, d, a);
  const std::string_view size = derive::smallest_size(cx, c, [&](ResistancePerLength r) {
    const auto v = derive::voltage_with(n, d.device, d.moment, n.loop.length.value, r, n.loop.alike ? r : n.loop.common.value);
    return v && at_least(*v, d.lowest.value);
  });
  const std::string_view far = derive::length_text(cx, c, longest.value);
  const std::string_view here = size.empty() ? std::string_view("no size of control cable would do for this length")
                                             : cx.text("{} would do for this length", size);
  f.beside = cx.choose("smallest size", here, cx.cite("control-sizes"), {longest.step});
  if (f.verdict == Verdict::pass) f.message = cx.text("{}; this cable would do for {}, and {}", f.message, far, here);
  else f.change = cx.text("this cable does for {} at most; {}; or use a source of a higher voltage", far, here);
}

void unstable(Context& cx, const derive::Network& n, std::size_t k, const derive::Arrival& a) {
  const Citation cite = cx.cite("control-power-limit");
  const Where where = n.devices[k].load->where;
  constexpr std::string_view change = "use larger conductors, a shorter run, or a source of a higher voltage";
  Finding& f = a.asked ? cx.require(*a.asked, Must::at_most, *a.most, cite, where)
                       : cx.fail("the loads have no stable voltage: together they ask for more power than the line can bring", {}, cite, where);
  f.change = change;
}

void judge_lowest(Context& cx, const Control& c, const derive::Network& n, Demand d, const derive::Arrival& a) {
  const derive::ControlDevice& device = n.devices[d.device];
  d.lowest = cx.given(cx.text("lowest voltage that {} works at", device.name), "Vm", device.load->minimum_voltage, units::volt);
  Finding& f = cx.require(*a.voltage, Must::at_least, d.lowest, cx.cite("control-manual"), device.load->minimum_voltage.where);
  say_what_would_do(cx, c, n, d, a, f);
}

/// What devices of its sort usually work at, where the maker's word is missing.
void judge_usual(Context& cx, const Control& c, const derive::Network& n, Demand d, const derive::Arrival& a) {
  const derive::ControlDevice& device = n.devices[d.device];
  d.lowest = *device.usual_lowest;
  Finding& f = cx.recommend(*a.voltage, Must::at_least, d.lowest, cx.edition().cite(cx.table("control-devices")), device.load->device.where);
  say_what_would_do(cx, c, n, d, a, f);
}

void judge_share(Context& cx, const Control& c, const derive::Network& n, Demand d, const derive::Arrival& a, bool makers) {
  const Citation cite = cx.cite(makers ? "control-manual" : "control-drop");
  const auto share = cx.apply(calc::control::share_lost, units::percent, {}, n.source, *a.voltage);
  if (d.moment == Moment::pulling_in) cx.working().rename(share.step, "voltage drop as it pulls in", "p");
  const auto limit = makers ? cx.given("the drop that the maker allows", "p", c.allowed_drop, units::percent)
                            : cx.parameter("control-drop", "percent", "usual limit of the drop", "p", units::percent);
  const bool binds = makers || cx.flag("control-drop", "binding");
  const Where where = makers ? c.allowed_drop.where : n.devices[d.device].load->where;
  Finding& f = binds ? cx.require(share, Must::at_most, limit, cite, where) : cx.recommend(share, Must::at_most, limit, cite, where);
  d.lowest = cx.apply(calc::control::lowest_after_drop, units::volt, cite, n.source, limit);
  say_what_would_do(cx, c, n, d, a, f);
}

/// What coils usually need to pull in, where the maker's word is missing.
void judge_pickup(Context& cx, const Control& c, const derive::Network& n, Demand d, const derive::Arrival& a) {
  const Citation cite = cx.cite("control-pickup");
  const auto share = cx.parameter("control-pickup", "percent", "share of its voltage that a coil pulls in at", "p", units::percent);
  d.lowest = cx.apply(calc::control::share_of_voltage, units::volt, cite, n.source, share);
  Finding& f = cx.recommend(*a.voltage, Must::at_least, d.lowest, cite, n.devices[d.device].load->where);
  say_what_would_do(cx, c, n, d, a, f);
}

void judge(Context& cx, const Control& c, const derive::Network& n, std::size_t k, Moment moment) {
  const derive::ControlDevice& device = n.devices[k];
  const derive::Arrival a = derive::arrival_at(cx, n, k, moment);
  if (!a.voltage) return unstable(cx, n, k, a);
  const Demand d{k, moment, {}};
  const bool at_the_end = k == 0;
  // The share that may be lost is a matter of the running current; without one, of the inrush.
  const bool share_counts = at_the_end && (moment == Moment::running || !device.runs());
  if (device.load->minimum_voltage) judge_lowest(cx, c, n, d, a);
  else if (device.usual_lowest) judge_usual(cx, c, n, d, a);
  if (share_counts && c.allowed_drop) judge_share(cx, c, n, d, a, true);
  const bool told = device.load->minimum_voltage || device.usual_lowest || c.allowed_drop;
  if (share_counts && (!told || cx.flag("control-drop", "binding"))) judge_share(cx, c, n, d, a, false);
  if (moment == Moment::pulling_in && !device.load->minimum_voltage && !device.usual_lowest && !(at_the_end && c.allowed_drop)) judge_pickup(cx, c, n, d, a);
}

void run(Context& cx, const Control& c) {
  const bool load_known = derive::says_what_it_draws(c.load);
  if (!load_known && c.poe.where) return void(cx.not_applicable("its device is fed over the data cable, which 'control-poe' looks at"));
  if (!load_known && derive::carries_bus(c)) return void(cx.not_applicable("it carries a bus, which is bounded by its reach; give control.load.current where it feeds a device as well"));
  if (!load_known && !c.source.voltage) {
    cx.not_applicable("neither the source's voltage nor what the device draws is given: there is no drop to work out");
    return;
  }
  if (!load_known && (c.maximum_length || c.maximum_loop_resistance)) {
    cx.not_applicable("what the device draws is not given; its maker's limit of the run stands in for the drop");
    return;
  }
  const auto source = derive::source_voltage(cx, c);
  const derive::Network n = derive::network_of(cx, c, source, derive::devices_of(cx, c, source));
  for (std::size_t k = 0; k < n.devices.size(); ++k) {
    if (n.devices[k].runs()) judge(cx, c, n, k, Moment::running);
    if (n.devices[k].inrush) judge(cx, c, n, k, Moment::pulling_in);
  }
}

}  // namespace

extern const Check check_control_drop{
    .id = "control-drop",
    .title = "Voltage at the control device",
    .family = Family::control,
    .about = "A relay, valve or display that gets too little voltage chatters, overheats its coil or does not work at all, and thin wire "
             "loses volts quickly. The current goes out and comes back, so the loop has twice the one-way length; what several loads "
             "share in one common conductor adds up there. A load of constant power draws more as its voltage sags. The voltage that is "
             "left is held against the lowest that the device works at, running and as it pulls in, or the drop against what the maker "
             "allows; where the maker says neither, a usual limit is advice. Loads are taken to draw in phase, which loses the most.",
    .formula = "V = Vs - I * R, R = 2 * L * r; constant power: V^2 - Vs * V + S * R = 0; shared: V = Vs - I * Ra - (I + Io) * Rc; V >= Vm",
    .reads = "control.source.voltage, control.length, control.path, raceway.length, raceway.ambient, control.cable.size, "
             "control.cable.common_size, control.cable.conductors, control.cable.resistance, control.cable.material, control.cable.stranding, "
             "control.cable.temperature, control.load, control.also, control.allowed_drop, control.bus, control.poe",
    .rules = "small-gauge, metric-conductors, conductor-properties, conductor-material, copper-temperature, resistance-temperature, "
             "control-temperature, control-stranding, control-material, control-sizes, control-manual, control-drop, control-pickup, "
             "control-power-limit, control-path, control-devices",
    .run = run};

}  // namespace pullproof
