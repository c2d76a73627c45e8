#include "derive/drop.hpp"

#include <algorithm>
#include <cmath>

#include "calc/drop.hpp"
#include "derive/load.hpp"

namespace pullproof::derive {
namespace {

// Near the source's, so that what is lost can be found again from the printed difference.
constexpr Unit<Voltage> fine_volt{"V", 1, 5};

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

/// What a link of the chain loses, at the end of each of its stretches.
struct Lost {
  std::vector<Joint> joints;
  Traced<Length> length;
  Citation cite;
};

Lost lost_in(Context& cx, const Circuit& link, const Circuit& seen, const std::optional<ConductorSize>& at_least, PowerFactor unknown) {
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
  Lost out{{}, impedances.front().length, impedances.front().cite};
  Working& w = cx.working();
  for (std::size_t n = 0; n < impedances.size(); ++n) {
    const Impedance& z = impedances[n];
    Joint joint;
    joint.circuit = &link;
    joint.stretch = &link.path[n];
    joint.in_phase = cx.apply(calc::drop_in_phase, units::volt, {}, z.resistance, i.active, z.reactance, i.reactive);
    w.rename(joint.in_phase.step, cx.text("drop in phase in '{}'", name_of(*joint.stretch)), "a");
    joint.across = cx.apply(calc::drop_in_quadrature, units::volt, {}, z.reactance, i.active, z.resistance, i.reactive);
    w.rename(joint.across.step, cx.text("drop in quadrature in '{}'", name_of(*joint.stretch)), "b");
    if (n > 0) {
      joint.in_phase = cx.apply(calc::sum_in_phase, units::volt, {}, out.joints.back().in_phase, joint.in_phase);
      joint.across = cx.apply(calc::sum_in_quadrature, units::volt, {}, out.joints.back().across, joint.across);
      out.length = cx.apply(calc::sum_length, units::foot, {}, out.length, z.length);
    }
    out.joints.push_back(joint);
  }
  return out;
}

/// Adds a link to the way: volts and share at each of its joints, from `start` on. False when it cannot be fed.
bool add_link(Context& cx, Lost lost, const Traced<Voltage>& start, Drop& drop) {
  Working& w = cx.working();
  const Traced<Voltage> a = lost.joints.back().in_phase, b = lost.joints.back().across;
  if (!calc::can_be_fed(start.value, a.value, b.value)) return false;
  const auto end = cx.apply(calc::end_voltage, fine_volt, {}, start, a, b);
  w.rename(end.step, cx.text("voltage at the end of '{}'", name_of(*lost.joints.back().stretch)), "Vr");
  for (Joint& j : lost.joints) {
    const std::string_view where = name_of(*j.stretch);
    j.volts = end;
    if (&j != &lost.joints.back()) {
      j.volts = cx.apply(calc::joint_voltage, fine_volt, {}, end, a, j.in_phase, b, j.across);
      w.rename(j.volts.step, cx.text("voltage at the end of '{}'", where), "Vj");
    }
    drop.lost = cx.apply(calc::lost_voltage, units::volt, {}, drop.source, j.volts);
    w.rename(drop.lost.step, cx.text("voltage lost at the end of '{}'", where), "Vd");
    j.share = cx.apply(calc::share_of_source, units::percent, {}, drop.lost, drop.source);
    w.rename(j.share.step, cx.text("voltage drop at the end of '{}'", where), "d");
    if (!drop.joints.empty()) w.because_of(drop.joints.back().share.step);  // so that the load's drop shows the way there
    drop.joints.push_back(j);
  }
  drop.load = end;
  drop.share = drop.joints.back().share;
  return true;
}

}  // namespace

Drop drop_of(Context& cx, const Circuit& c, const DropQuestion& question) {
  Drop drop;
  drop.seen = &seen_from(cx, c);
  drop.source = on_behalf(cx, c, *drop.seen, [&](Context& its) { return source_voltage(its, *drop.seen, line_of(its, *drop.seen)); });
  const auto chain = question.reach == Reach::supply ? chain_to(cx, c) : std::vector<const Circuit*>{&c};
  Traced<Voltage> start = drop.source;
  for (const Circuit* link : chain) {
    const Lost lost = on_behalf(cx, c, *link, [&](Context& its) {
      return lost_in(its, *link, *drop.seen, link == &c ? question.at_least : std::nullopt, question.unknown);
    });
    drop.start = start;
    drop.in_phase = lost.joints.back().in_phase;
    drop.across = lost.joints.back().across;
    drop.length = lost.length;
    drop.cite = lost.cite;
    drop.approximate = link == chain.front() ? drop.in_phase
                                             : cx.apply(calc::sum_of_circuits, units::volt, {}, drop.approximate, drop.in_phase);
    if (!add_link(cx, lost, start, drop)) return drop;
    start = drop.load;
  }
  drop.fed = true;
  const auto approximate = cx.apply(calc::approximate_share, units::percent, {}, drop.approximate, drop.source);
  cx.working().because_of(drop.share.step, approximate.step);
  return drop;
}

}  // namespace pullproof::derive
