#include <algorithm>

#include "calc/control.hpp"
#include "calc/signal.hpp"
#include "derive/control-loads.hpp"
#include "derive/runs.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// A run of the source with what its loads draw while they run.
struct Run {
  const Control* control = nullptr;
  std::vector<derive::ControlDevice> devices;
};

/// The moment that asks the most of the source: one device pulls in while everything else runs.
struct PullIn {
  std::size_t run = 0, device = 0;
  Traced<Power> running, pulling;
};

/// The source as the first of its runs that gives a rating describes it.
const ControlSource& source_of(const std::vector<const Control*>& runs) {
  for (const Control* c : runs)
    if (c->source.rating || c->source.current) return c->source;
  return runs.front()->source;
}

std::vector<Run> loads_of(Context& cx, const std::vector<const Control*>& runs, const Traced<Voltage>& v) {
  std::vector<Run> out;
  for (const Control* c : runs) {
    if (!derive::says_what_it_draws(c->load)) cx.needs_input("control.load.current", cx.text("what the load of control {} draws counts at the source that it shares", *c->name));
    out.push_back({c, derive::devices_of(cx, *c, v)});
    for (const derive::ControlDevice& d : out.back().devices)
      if (!d.runs()) cx.needs_input("control.load.current", cx.text("of {} of control {} only the inrush is known; what it holds with counts at the source", d.name, *c->name));
  }
  return out;
}

Traced<Power> held(Context& cx, const std::vector<Run>& runs, const Traced<Voltage>& v) {
  std::optional<Traced<Power>> sum;
  for (const Run& r : runs) {
    const auto i = derive::total_current(cx, *r.control, v, r.devices);
    cx.working().rename(i.step, r.devices.size() > 1 ? "current of the loads together" : "current of the load", "I");
    const auto s = cx.apply(calc::control::power_of_current, units::volt_ampere, {}, v, i);
    cx.working().rename(s.step, runs.size() > 1 ? cx.text("volt-amperes of control {}", *r.control->name) : r.devices.size() > 1 ? "volt-amperes of the loads together" : "volt-amperes of the load", "S");
    sum = sum ? cx.apply(calc::signal::together, units::volt_ampere, {}, *sum, s) : s;
  }
  if (runs.size() > 1) cx.working().rename(sum->step, "volt-amperes of the loads together", "S");
  return *sum;
}

/// The device whose pulling in adds the most; nothing where none has an inrush.
std::optional<PullIn> worst(Context& cx, const std::vector<Run>& runs, const Traced<Voltage>& v) {
  std::optional<PullIn> out;
  Power most{};
  const auto running = [&](const derive::ControlDevice& d) { return d.power ? d.power->value : v.value * d.current->value; };
  for (std::size_t r = 0; r < runs.size(); ++r)
    for (std::size_t k = 0; k < runs[r].devices.size(); ++k) {
      const derive::ControlDevice& d = runs[r].devices[k];
      if (!d.inrush) continue;
      const Power more = v.value * d.inrush->value - running(d);
      if (out && more <= most) continue;
      most = more;
      out = PullIn{r, k, {}, {}};
    }
  if (!out) return out;
  const derive::ControlDevice& d = runs[out->run].devices[out->device];
  out->running = d.power ? *d.power : cx.apply(calc::control::power_of_current, units::volt_ampere, {}, v, *d.current);
  cx.working().rename(out->running.step, cx.text("volt-amperes of {} while it runs", d.name), "Sr");
  out->pulling = cx.apply(calc::control::power_of_current, units::volt_ampere, {}, v, *d.inrush);
  cx.working().rename(out->pulling.step, cx.text("volt-amperes of {} as it pulls in", d.name), "Sp");
  return out;
}

/// The voltage without load, from which the source falls as it is loaded.
Traced<Voltage> idle_voltage(Context& cx, const ControlSource& s, const Traced<Voltage>& v) {
  if (s.maximum_voltage) return cx.given("voltage without load", "Vx", s.maximum_voltage, units::volt);
  const auto idle = cx.parameter("control-transformer-idle", "idle", "usual voltage without load", "Vi", units::volt);
  const auto rated = cx.parameter("control-transformer-fall", "rated", "of a source of", "Vr", units::volt);
  const auto x = cx.apply(calc::signal::idle_like, units::volt, cx.cite("control-transformer-idle"), v, idle, rated);
  cx.assume("voltage without load", cx.text("control.source.maximum_voltage is not given: without load the source is taken to have {} V", number_text(raw(x.value), 1)),
            cx.cite("control-transformer-idle"));
  return x;
}

/// The smallest source made with at least this rating.
std::string_view made_for(Context& cx, Power least) {
  for (const code::CellRef& cell : cx.rule("control-transformers").list("ratings"))
    if (const auto made = read_quantity(cell.text(), Dimension::power); made.ok && at_least(Power::from_value(made.si), least))
      return cx.text("a source of {} or more, within its class", cell.text());
  return "a source of its own for some of the loads";
}

/// The smallest that keeps its voltage at or above `wanted`.
std::string_view keeping(Context& cx, Voltage idle, Voltage rated, Voltage wanted, Power asked) {
  if (wanted >= idle) return "larger conductors, a shorter run, or a source of a higher voltage";
  return made_for(cx, (idle - rated) / (idle - wanted) * asked);
}

/// What is left at the device that pulls in, the source sagging and its run losing volts.
void judge_sag(Context& cx, const ControlSource& s, const std::vector<Run>& runs, const PullIn& p, const Traced<Voltage>& v, const Traced<Power>& asked, const Traced<Power>& rating) {
  const Control& c = *runs[p.run].control;
  const derive::ControlDevice& d = runs[p.run].devices[p.device];
  const Citation fall = cx.cite("control-transformer-fall");
  const auto idle = idle_voltage(cx, s, v);
  const auto at_source = cx.apply(calc::signal::sagged, units::volt, fall, idle, v, asked, rating);
  if (at_source.value <= Voltage{}) {
    Finding& f = d.load->minimum_voltage ? cx.require(asked, Must::at_most, rating, fall, d.load->where) : cx.recommend(asked, Must::at_most, rating, fall, d.load->where);
    if (f.verdict != Verdict::pass) f.change = "a source of a larger rating within its class";
    return;
  }
  const bool told = d.load->minimum_voltage.present;
  const auto lowest = told ? cx.given(cx.text("lowest voltage that {} works at", d.name), "Vm", d.load->minimum_voltage, units::volt)
                           : cx.apply(calc::control::share_of_voltage, units::volt, cx.cite("control-transformer"), v,
                                      cx.parameter("control-transformer", "percent", "share of its voltage that the source keeps", "p", units::percent));
  auto arrives = at_source;
  cx.working().rename(arrives.step, cx.text("voltage of the source as {} pulls in", d.name), "Vt");
  if ((c.length || !c.path.empty()) && (c.cable.size || c.cable.resistance)) {
    derive::Network n = derive::network_of(cx, c, v, runs[p.run].devices);
    const auto stiff = derive::voltage_with(n, p.device, derive::Moment::pulling_in, n.loop.length.value, n.loop.own.value, n.loop.common.value);
    if (told && (!stiff || !at_least(*stiff, lowest.value)))
      cx.fails_in("control-drop", cx.text("the run alone leaves {} too little to pull in, whatever the source", d.name), "use larger conductors or a shorter run", cx.cite("control-manual"), d.load->where);
    n.source = at_source;
    const derive::Arrival a = derive::arrival_at(cx, n, p.device, derive::Moment::pulling_in);
    if (!a.voltage) cx.not_covered(cx.text("no voltage at {} is stable while it pulls in", d.name), fall);
    arrives = *a.voltage;
  }
  const Citation cite = cx.cite(told ? "control-manual" : "control-transformer");
  const Where where = told ? d.load->minimum_voltage.where : d.load->where;
  Finding& f = told ? cx.require(arrives, Must::at_least, lowest, cite, where) : cx.recommend(arrives, Must::at_least, lowest, cite, where);
  if (f.verdict != Verdict::pass) f.change = keeping(cx, idle.value, v.value, at_source.value + (lowest.value - arrives.value), asked.value);
}

void judge_pull_in(Context& cx, const ControlSource& s, const std::vector<Run>& runs, const Traced<Voltage>& v, const Traced<Power>& all, const std::optional<Traced<Power>>& rating) {
  const auto p = worst(cx, runs, v);
  if (!p) {
    const auto steady = [](const derive::ControlDevice& d) { return d.power.has_value(); };
    const bool coils = std::any_of(runs.begin(), runs.end(), [&](const Run& r) { return !std::all_of(r.devices.begin(), r.devices.end(), steady); });
    if (!s.voltage->dc && coils)
      cx.assume("inrush", "no load gives an inrush (control.load.inrush): taken to draw no more as it starts; a contactor, a relay or a valve does");
    return;
  }
  const derive::ControlDevice& d = runs[p->run].devices[p->device];
  if (runs.size() > 1 || runs.front().devices.size() > 1)
    cx.assume("one at a time", cx.text("one load pulls in at a time, {} the largest of them, while the others run", d.name));
  const auto asked = cx.apply(calc::signal::at_pull_in, units::volt_ampere, {}, all, p->running, p->pulling);
  cx.working().rename(asked.step, cx.text("volt-amperes as {} pulls in", d.name), "Si");
  if (s.inrush_rating) {
    Finding& f = cx.require(asked, Must::at_most, cx.given("volt-amperes that the source gives for a moment", "Sx", s.inrush_rating, units::volt_ampere), cx.cite("control-manual"), s.inrush_rating.where);
    if (f.verdict == Verdict::fail) f.change = "a source of a larger rating within its class";
    return;
  }
  if (!rating) return;
  if (at_most(asked.value, rating->value)) {
    cx.require(asked, Must::at_most, *rating, cx.cite("control-manual"), s.rating.where);
    return;
  }
  if (s.voltage->dc) {
    cx.advise(cx.text("{} VA are asked for as {} pulls in, more than its rating, and a dc supply limits its current", number_text(raw(asked.value), 1), d.name),
              "read in its data sheet what it gives for a moment (control.source.inrush_rating), or use a larger one", cx.cite("control-manual"), s.voltage.where, asked.step);
    return;
  }
  judge_sag(cx, s, runs, *p, v, asked, *rating);
}

void run(Context& cx, const Control& c) {
  const auto& same = derive::runs_of_source(cx, c);
  if (same.front() != &c) return void(cx.not_applicable(cx.text("counted at control {}, which starts from the same source", *same.front()->name)));
  const ControlSource& s = source_of(same);
  if (!s.rating && !s.current && !s.inrush_rating) return void(cx.not_applicable("the rating of the source is not given (control.source.rating)"));
  if (same.size() == 1 && !derive::says_what_it_draws(c.load)) return void(cx.not_applicable("what the load draws is not given (control.load.current)"));
  cx.need(s.voltage, "control.source.voltage", "the loads are added up at it");
  const auto v = cx.working().given("voltage of the source", "Vs", s.voltage->volts, units::volt, s.voltage.text, s.voltage.where);
  const auto runs = loads_of(cx, same, v);
  const auto all = held(cx, runs, v);
  const Citation cite = cx.cite("control-manual");
  std::optional<Traced<Power>> rating;
  if (s.rating) rating = cx.given("rating of the source", "Sn", s.rating, units::volt_ampere);
  else if (s.current) rating = cx.apply(calc::control::power_of_current, units::volt_ampere, cite, v, cx.given("nameplate current of the source", "In", s.current, units::ampere));
  if (rating) {
    cx.working().rename(rating->step, "rating of the source", "Sn");
    Finding& f = cx.require(all, Must::at_most, *rating, cite, s.rating ? s.rating.where : s.current.where);
    if (f.verdict == Verdict::fail) {
      f.change = cx.text("{}, or fewer loads on it", made_for(cx, all.value));
      return;
    }
  }
  judge_pull_in(cx, s, runs, v, all, rating);
}

}  // namespace

extern const Check check_control_transformer{
    .id = "control-transformer",
    .title = "Size of the control transformer",
    .family = Family::control,
    .about = "A transformer that is too small hums along until a coil pulls in: for that moment a contactor or a valve asks for several "
             "times what it holds with, the voltage sags, and the coil chatters or never closes. What all loads of a source hold with, over "
             "all runs that name it, stays within its rating. As the largest pulls in while the others run, the volt-amperes stay within "
             "what the maker lets the source give for a moment; where that is not known, the sag of its voltage is worked out from its "
             "voltage without load, and what is left at the device after the run's own loss is held against the lowest that it works at.",
    .formula = "S <= Sn; Si = S - Sr + Sp <= Sx; Vt = Vx - (Vx - Vs) * Si / Sn; Vt less the drop of the run >= Vm",
    .reads = "control.source, control.load, control.also, control.length, control.path, control.cable",
    .rules = "control-transformer, control-transformer-fall, control-transformer-idle, control-transformers, control-devices, control-manual, small-gauge, "
             "copper-temperature",
    .run = run};

}  // namespace pullproof
