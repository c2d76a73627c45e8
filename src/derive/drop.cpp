#include "derive/drop.hpp"

#include <algorithm>
#include <cmath>

#include "calc/drop.hpp"
#include "derive/load.hpp"

namespace pullproof::derive {
namespace {

/// The load whose volts count: the circuit's own; on a feeder without one, a load to neutral if it has any, since
/// its line and the neutral lose most.
const Circuit& seen_from(Context& cx, const Circuit& c) {
  if (c.role.value_or(CircuitRole::branch) != CircuitRole::feeder || has_load(c)) return c;
  const auto loads = loads_on(cx, c);
  for (const Circuit* l : loads)
    if (on_behalf(cx, c, *l, [&](Context& its) { return pair_of(quiet_line(its, *l)); }) == Pair::to_neutral) return *l;
  return *loads.front();
}

Conductors conductors_of(Context& cx, const Circuit& c, const Stretch& s, const std::optional<ConductorSize>& at_least) {
  Conductors k = conductors_on(cx, c, s);
  if (at_least && k.size.value < *at_least) k.size.value = *at_least;
  return k;
}

/// Adds one link of the chain: its impedances, its current, and what is lost at the end of each stretch.
void add_link(Context& cx, const Circuit& link, const Circuit& seen, const std::optional<ConductorSize>& at_least,
              PowerFactor unknown, Drop& drop) {
  if (link.path.empty()) cx.needs_input("circuit.path", "the drop depends on what the conductors run in, and how far");
  const Line line = line_of(cx, link);
  std::vector<Impedance> impedances;
  double r = 0, x = 0;
  for (const Stretch& s : link.path) {
    impedances.push_back(impedance_of(cx, line, s, conductors_of(cx, link, s, at_least)));
    r += raw(impedances.back().resistance.value);
    x += raw(impedances.back().reactance.value);
  }
  const LoopCurrent i = loop_current(cx, link, seen, unknown, x / r);
  Working& w = cx.working();
  for (std::size_t n = 0; n < impedances.size(); ++n) {
    const Impedance& z = impedances[n];
    const std::string_view where = name_of(link.path[n]);
    Joint joint;
    joint.circuit = &link;
    joint.stretch = &link.path[n];
    joint.in_phase = cx.apply(calc::drop_in_phase, units::volt, {}, z.resistance, i.active, z.reactance, i.reactive);
    w.rename(joint.in_phase.step, cx.text("drop in phase in '{}'", where), "a");
    joint.across = cx.apply(calc::drop_in_quadrature, units::volt, {}, z.reactance, i.active, z.resistance, i.reactive);
    w.rename(joint.across.step, cx.text("drop in quadrature in '{}'", where), "b");
    if (!drop.joints.empty()) {
      joint.in_phase = cx.apply(calc::sum_in_phase, units::volt, {}, drop.joints.back().in_phase, joint.in_phase);
      joint.across = cx.apply(calc::sum_in_quadrature, units::volt, {}, drop.joints.back().across, joint.across);
    }
    drop.joints.push_back(joint);
  }
  drop.length = impedances.front().length;
  for (std::size_t n = 1; n < impedances.size(); ++n)
    drop.length = cx.apply(calc::sum_length, units::foot, {}, drop.length, impedances[n].length);
  drop.cite = impedances.front().cite;
}

/// Volts and share at every joint, the last one the load.
void fill_joints(Context& cx, Drop& drop) {
  Working& w = cx.working();
  const Traced<Voltage> a = drop.joints.back().in_phase, b = drop.joints.back().across;
  drop.load = cx.apply(calc::load_voltage, units::volt, {}, drop.source, a, b);
  StepId before = no_step;
  for (std::size_t n = 0; n < drop.joints.size(); ++n) {
    Joint& j = drop.joints[n];
    const bool last = n + 1 == drop.joints.size();
    j.volts = last ? drop.load : cx.apply(calc::joint_voltage, units::volt, {}, drop.load, a, j.in_phase, b, j.across);
    if (!last) w.rename(j.volts.step, cx.text("voltage at the end of '{}'", name_of(*j.stretch)), "Vj");
    const auto lost = cx.apply(calc::lost_voltage, units::volt, {}, drop.source, j.volts);
    if (!last) w.rename(lost.step, cx.text("voltage lost at the end of '{}'", name_of(*j.stretch)), "Vd");
    if (last) drop.approximate = cx.apply(calc::approximate_share, units::percent, {}, a, drop.source);
    j.share = cx.apply(calc::share_of_source, units::percent, {}, lost, drop.source);
    if (!last) w.rename(j.share.step, cx.text("voltage drop at the end of '{}'", name_of(*j.stretch)), "d");
    w.because_of(before);  // so that the load's drop shows the way there
    before = j.share.step;
    drop.lost = lost;
  }
  drop.share = drop.joints.back().share;
  w.because_of(drop.share.step, drop.approximate.step);
}

}  // namespace

Drop drop_of(Context& cx, const Circuit& c, const DropQuestion& question) {
  Drop drop;
  drop.seen = &seen_from(cx, c);
  drop.source = on_behalf(cx, c, *drop.seen, [&](Context& its) { return source_voltage(its, *drop.seen, line_of(its, *drop.seen)); });
  const auto chain = question.reach == Reach::supply ? chain_to(cx, c) : std::vector<const Circuit*>{&c};
  for (const Circuit* link : chain) {
    if (link == &c) drop.before = drop.joints.size();
    on_behalf(cx, c, *link, [&](Context& its) {
      add_link(its, *link, *drop.seen, link == &c ? question.at_least : std::nullopt, question.unknown, drop);
    });
  }
  const Joint& end = drop.joints.back();
  drop.fed = calc::can_be_fed(drop.source.value, end.in_phase.value, end.across.value);
  if (drop.fed) fill_joints(cx, drop);
  return drop;
}

}  // namespace pullproof::derive
