#include "derive/control-loads.hpp"

#include <algorithm>

namespace pullproof::derive {
namespace {

std::string_view name_of(Context& cx, const ControlLoad& load, std::size_t index) {
  if (load.name) return cx.text("'{}'", *load.name);
  return index == 0 ? std::string_view("the device") : cx.text("load {}", index + 1);
}

/// `key` of the load at `index`, as the case would write it.
std::string_view key_of(Context& cx, std::size_t index, std::string_view key) {
  return cx.text("control.{}.{}", index == 0 ? "load" : "also", key);
}

/// What a device of its sort usually draws, where the case names the sort and not the current; aloud.
std::optional<Traced<Current>> usual(Context& cx, const ControlLoad& load, std::size_t index, std::string_view column, std::string_view what,
                                     std::string_view symbol, std::string_view of) {
  if (!load.device || !cx.has_table("control-devices")) return std::nullopt;
  const auto t = cx.table("control-devices");
  const auto row = t.find(*load.device);
  const auto i = row ? cx.cell(t, *row, column, cx.text("usual {}, {}", what, *load.device), symbol, units::ampere) : std::nullopt;
  if (i)
    cx.assume(what, cx.text("the {} of {} is not given: taken as {} A, usual for its sort ({}); read its plate and give {}", what, of, number_text(raw(i->value), 3),
                            *load.device, key_of(cx, index, column == "inrush" ? "inrush" : "current")), cx.edition().cite(t));
  return i;
}

/// The lowest voltage that its sort usually works at, where the source has the voltage that this is for.
std::optional<Traced<Voltage>> usual_lowest(Context& cx, const ControlLoad& load, Voltage source) {
  if (load.minimum_voltage || !load.device || !cx.has_table("control-devices")) return std::nullopt;
  const auto t = cx.table("control-devices");
  const auto row = t.find(*load.device);
  if (!row || t.cell(*row, "rated").number() != raw(source)) return std::nullopt;
  return cx.cell(t, *row, "lowest", cx.text("usual lowest voltage, {}", *load.device), "Vm", units::volt);
}

ControlDevice device_of(Context& cx, const ControlLoad& load, std::size_t index, const Traced<Voltage>& source) {
  ControlDevice d;
  d.load = &load;
  d.name = name_of(cx, load, index);
  if (!says_what_it_draws(load)) cx.needs_input(key_of(cx, index, "current"), cx.text("what {} draws is not known", d.name));
  const bool constant_power = load.kind.value_or(ControlLoadKind::constant_current) == ControlLoadKind::constant_power;
  const Citation ohm;  // Ohm's and Kirchhoff's laws need no citation
  const auto current = [&](const Given<Current>& amps, const Given<Power>& va, std::string_view what, std::string_view symbol) {
    std::optional<Traced<Current>> i;
    if (amps) i = cx.given(cx.text("{} of {}", what, d.name), symbol, amps, units::ampere);
    else if (va) {
      const auto s = cx.given(cx.text("volt-amperes of {}", d.name), "S", va, units::volt_ampere);
      i = cx.apply(calc::control::current_of_power, units::ampere, ohm, s, source);
      cx.working().rename(i->step, cx.text("{} of {} at the source's voltage", what, d.name), symbol);
    }
    return i;
  };
  if (constant_power && load.apparent_power) {
    d.power = cx.given(cx.text("power of {}", d.name), "S", load.apparent_power, units::volt_ampere);
  } else if (constant_power && load.current) {
    const auto i = cx.given(cx.text("current of {} at the source's voltage", d.name), "I", load.current, units::ampere);
    d.power = cx.apply(calc::control::power_of_current, units::volt_ampere, ohm, source, i);
    cx.working().rename(d.power->step, cx.text("power of {}", d.name), "S");
  } else {
    d.current = current(load.current, load.apparent_power, "current", "I");
    if (!d.current) d.current = usual(cx, load, index, "holding", "current", "I", d.name);
    if (load.apparent_power && !load.current && !load.kind)
      cx.assume("kind of load", cx.text("{} is not given: {} is taken as a constant current at the source's voltage, as makers' tables do; "
                                        "an electronic load draws more as its voltage sags", key_of(cx, index, "kind"), d.name));
  }
  d.inrush = current(load.inrush, load.inrush_power, "inrush", "Ii");
  if (!d.inrush) d.inrush = usual(cx, load, index, "inrush", "inrush", "Ii", d.name);
  d.usual_lowest = usual_lowest(cx, load, source.value);
  if (!d.runs() && !d.inrush) cx.needs_input(key_of(cx, index, "current"), cx.text("what {} draws is not known", d.name));
  return d;
}

/// What a device draws while another is looked at: a load of which only the inrush is known is taken at it.
const Traced<Current>& running_current(const ControlDevice& d) { return d.current ? *d.current : *d.inrush; }

calc::control::Draw draw_of(const ControlDevice& d, Moment moment) {
  if (moment == Moment::pulling_in) return {false, raw(d.inrush->value)};
  if (d.power) return {true, raw(d.power->value)};
  return {false, raw(running_current(d).value)};
}

std::vector<calc::control::Draw> draws_of(const std::vector<ControlDevice>& devices, std::size_t k, Moment moment) {
  std::vector<calc::control::Draw> draws;
  for (std::size_t j = 0; j < devices.size(); ++j) draws.push_back(draw_of(devices[j], j == k ? moment : Moment::running));
  return draws;
}

/// The voltages at all loads while `k` is looked at.
std::optional<std::vector<Voltage>> voltages_with(const Network& n, std::size_t k, Moment moment, Length l, ResistancePerLength own,
                                                  ResistancePerLength common) {
  const auto draws = draws_of(n.devices, k, moment);
  if (draws.size() == 1) return calc::control::voltages_together(n.source.value, l * (own + common), Resistance{}, draws);
  if (n.together) return calc::control::voltages_together(n.source.value, Resistance{}, l * (own + common), draws);
  return calc::control::voltages_together(n.source.value, l * own, l * common, draws);
}

Traced<Current> sum_of(Context& cx, const std::vector<Traced<Current>>& currents, std::string_view name) {
  Traced<Current> sum = currents.front();
  for (std::size_t i = 1; i < currents.size(); ++i)
    sum = cx.apply(calc::control::both_currents, units::ampere, {}, sum, currents[i]);
  if (currents.size() > 1) cx.working().rename(sum.step, name, "Io");
  return sum;
}

/// What the others draw; nothing when they and device `k` have no stable voltage together.
std::optional<Traced<Current>> others_current(Context& cx, const Network& n, std::size_t k, Moment moment) {
  constexpr std::string_view name = "current of the others in the common conductor";
  std::vector<Traced<Current>> currents;
  bool constant = true;
  for (std::size_t j = 0; j < n.devices.size(); ++j) {
    if (j == k) continue;
    const ControlDevice& d = n.devices[j];
    constant = constant && !d.power;
    if (!d.runs())
      cx.assume("running current", cx.text("what {} draws while it runs is not given: taken as its inrush", d.name));
    if (!d.power) currents.push_back(running_current(d));
  }
  if (constant) return sum_of(cx, currents, name);
  const auto volts = voltages_with(n, k, moment, n.loop.length.value, n.loop.own.value, n.loop.common.value);
  if (!volts) return std::nullopt;
  for (std::size_t j = 0; j < n.devices.size(); ++j) {
    const ControlDevice& d = n.devices[j];
    if (j == k || !d.power) continue;
    const auto at = cx.working().choice(cx.text("voltage at {} meanwhile", d.name), "V", (*volts)[j], units::volt,
                                        "found together with all the others", {});
    currents.push_back(cx.apply(calc::control::current_at_device, units::ampere, {}, *d.power, at));
  }
  return sum_of(cx, currents, name);
}

}  // namespace

bool says_what_it_draws(const ControlLoad& load) {
  return load.current || load.apparent_power || load.inrush || load.inrush_power || load.device;
}

Traced<Voltage> source_voltage(Context& cx, const Control& c) {
  const auto& v = c.source.voltage;
  cx.need(v, "control.source.voltage", "what arrives at the device starts from it");
  return cx.working().given("voltage of the source", "Vs", v->volts, units::volt, v.text, v.where);
}

std::vector<ControlDevice> devices_of(Context& cx, const Control& c, const Traced<Voltage>& source) {
  std::vector<ControlDevice> out;
  out.push_back(device_of(cx, c.load, 0, source));
  for (const ControlLoad& load : c.also) out.push_back(device_of(cx, load, out.size(), source));
  return out;
}

bool draws_constant_current(const ControlDevice& d, Moment moment) { return moment == Moment::pulling_in || !d.power; }

Network network_of(Context& cx, const Control& c, const Traced<Voltage>& source, const std::vector<ControlDevice>& devices) {
  Network n{loop_of(cx, c), source, devices, false};
  if (devices.size() == 1) return n;
  const double needed = static_cast<double>(devices.size()) + 1;
  if (!c.cable.conductors) {
    cx.assume("conductors", "control.cable.conductors is not given: each load is taken to have a conductor of its own, and all of them one common");
  } else if (*c.cable.conductors < needed) {
    n.together = true;
    cx.assume("conductors", cx.text("{} loads on {} conductors: taken as side by side on two of them, which carry the current of all", devices.size(),
                                    c.cable.conductors.text));
  }
  return n;
}

std::optional<Voltage> voltage_with(const Network& n, std::size_t k, Moment moment, Length l, ResistancePerLength own, ResistancePerLength common) {
  const auto volts = voltages_with(n, k, moment, l, own, common);
  if (!volts) return std::nullopt;
  return (*volts)[k];
}

Arrival arrival_at(Context& cx, const Network& n, std::size_t k, Moment moment) {
  const Citation ohm;  // Ohm's and Kirchhoff's laws need no citation
  const ControlDevice& d = n.devices[k];
  const bool alone = n.devices.size() == 1;
  Arrival out;
  Traced<Voltage> volts;
  Traced<Resistance> own, common;
  if (!alone) {
    out.others = others_current(cx, n, k, moment);
    if (!out.others) return out;
  }
  if (n.together) common = n.loop.resistance;
  if (!alone && !n.together) {
    const auto part = [&](const Traced<ResistancePerLength>& r, std::string_view name, std::string_view symbol) {
      const auto x = cx.apply(calc::control::one_way, units::ohm, ohm, n.loop.length, r);
      cx.working().rename(x.step, name, symbol);
      return x;
    };
    own = part(n.loop.own, cx.text("resistance of the conductor of {}", d.name), "Ra");
    common = part(n.loop.common, "resistance of the common conductor", "Rc");
  }
  if (draws_constant_current(d, moment)) {
    const Traced<Current>& i = moment == Moment::pulling_in ? *d.inrush : running_current(d);
    const auto lost = alone        ? cx.apply(calc::control::drop, units::volt, ohm, i, n.loop.resistance)
                      : n.together ? cx.apply(calc::control::drop_together, units::volt, ohm, i, *out.others, n.loop.resistance)
                                   : cx.apply(calc::control::drop_shared, units::volt, ohm, i, own, *out.others, common);
    volts = cx.apply(calc::control::voltage_left, units::volt, ohm, n.source, lost);
  } else {
    const auto left = alone ? n.source : cx.apply(calc::control::left_by_others, units::volt, ohm, n.source, *out.others, common);
    const auto most = cx.apply(calc::control::most_power, units::volt_ampere, ohm, left, n.loop.resistance);
    if (!at_most(d.power->value, most.value) || left.value < Voltage{}) {
      out.asked = d.power;
      out.most = most;
      return out;
    }
    volts = cx.apply(calc::control::voltage_of_power, units::volt, ohm, left, *d.power, n.loop.resistance);
  }
  cx.working().rename(volts.step, cx.text("voltage at {}{}", d.name, moment == Moment::pulling_in ? " as it pulls in" : ""), "V");
  out.voltage = volts;
  return out;
}

Traced<Current> total_current(Context& cx, const Control& c, const Traced<Voltage>& source, const std::vector<ControlDevice>& devices) {
  std::vector<Traced<Current>> currents;
  std::optional<Network> network;
  for (std::size_t k = 0; k < devices.size(); ++k) {
    const ControlDevice& d = devices[k];
    if (!d.power) {
      currents.push_back(running_current(d));
      continue;
    }
    if (!network) network = network_of(cx, c, source, devices);
    const Arrival a = arrival_at(cx, *network, k, Moment::running);
    if (!a.voltage) cx.not_covered("no voltage at the loads is stable, so their current is not known", {});
    currents.push_back(cx.apply(calc::control::current_at_device, units::ampere, {}, *d.power, *a.voltage));
  }
  return sum_of(cx, currents, "current in the common conductor");
}

}  // namespace pullproof::derive
