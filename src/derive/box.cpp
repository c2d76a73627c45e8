#include "derive/box.hpp"

#include <fmt/format.h>

#include <map>

#include "calc/box.hpp"

namespace pullproof::derive {
namespace {

const Stretch* stretch_at(const Circuit& c, const BoxEntry& e) {
  for (const Stretch& s : c.path)
    if ((e.raceway != nullptr && s.raceway == e.raceway) || (e.cable != nullptr && s.cable == e.cable)) return &s;
  return nullptr;
}

/// Adds up volumes, one step for each kind of thing.
class Sum {
 public:
  explicit Sum(Context& cx) : cx_(cx) {}

  void add(double count, const ConductorSize& size, std::string_view what, std::string_view rule, StepId because = no_step) {
    if (count <= 0) return;
    const auto t = cx_.table("box-volume");
    const auto each = cx_.cell(t, cx_.row(t, size.label()), "volume", cx_.text("volume for {}", size.label()), "v1", units::cubic_inch);
    if (!each) cx_.not_covered(cx_.text("no box volume for {}", size.label()), cx_.edition().cite(t));
    const auto n = cx_.working().choice(what, "n", count, units::count, cx_.text("{} by {}", number_text(count, 2), size.label()), cx_.cite(rule));
    if (because != no_step) cx_.working().because_of(because);
    add(cx_.apply(calc::volume_of, units::cubic_inch, cx_.cite(rule), n, *each));
  }
  void add(const Traced<Volume>& v) {
    total_ = total_ ? cx_.apply(calc::volume_so_far, units::cubic_inch, cx_.cite("box-fill"), *total_, v) : v;
  }
  const std::optional<Traced<Volume>>& total() const { return total_; }

 private:
  Context& cx_;
  std::optional<Traced<Volume>> total_;
};

double rule_count(Context& cx, std::string_view rule) { return cx.parameter(rule, "count", units::count); }

/// By the rule, a wide device counts for each gang it is mounted in.
void add_devices(Context& cx, const Box& b, const ConductorSize& largest, Sum& sum) {
  for (const BoxDevice& d : b.devices) {
    const auto each = cx.parameter("box-devices", "count", "count for each yoke or gang", "k", units::count);
    const auto gangs = d.gangs ? cx.given("gangs of the device", "g", d.gangs, units::count)
                               : cx.working().choice("gangs of the device", "g", 1.0, units::count, "one yoke", {});
    const auto n = cx.apply(calc::device_count, units::count, cx.cite("box-devices"), each, gangs);
    if (!d.size) cx.assume("device", cx.text("the size on a device of '{}' is not given: taken as {}", *b.name, largest.label()), cx.cite("box-devices"));
    sum.add(n.value, d.size.value_or(largest), "devices", "box-devices", n.step);
  }
}

void add_grounds(Context& cx, const Box& b, const std::vector<Incoming>& in, Sum& sum) {
  double grounds = 0;
  std::optional<ConductorSize> largest;
  const auto ground = [&](const ConductorSize& size, double count) {
    grounds += count;
    if (!largest || size > *largest) largest = size;
  };
  for (const Incoming& i : in)
    if (i.ground) ground(*i.ground, 1);
  for (const Other& o : b.also)
    if (o.bare.value_or(false) && o.size) ground(*o.size, o.count.value_or(1));
  if (!largest) return;
  const code::RuleRef rule = cx.rule("box-grounding");
  const auto first = cx.parameter("box-grounding", "count", "count of the first grounds together", "k", units::count);
  const auto share = cx.parameter("box-grounding", "further-ratio", "count of each further one", "q", units::ratio);
  const double included = rule["included-count"].number().value_or(grounds);
  const auto g = cx.working().choice("grounds that come in", "g", grounds, units::count, "one with each run that has one", {});
  const auto g0 = cx.working().constant("grounds that count together", "g0", std::min(included, std::max(grounds, 1.0)), units::count, cx.cite("box-grounding"));
  const auto n = cx.apply(calc::grounds_counted, units::count, cx.cite("box-grounding"), first, share, g, g0);
  sum.add(n.value, *largest, "grounds", "box-grounding", n.step);
  if (b.isolated_ground)
    sum.add(cx.parameter("box-grounding", "isolated-count", units::count), *b.isolated_ground, "isolated grounds", "box-grounding");
}

}  // namespace

std::vector<Incoming> incoming(Context& cx, const Box& b) {
  std::vector<Incoming> out;
  for (const Circuit& c : cx.job().circuits)
    for (const BoxEntry& e : b.entries) {
      const Stretch* s = stretch_at(c, e);
      if (s == nullptr) continue;
      Context quiet = cx.scratch();
      const Line line = line_of(quiet, c);
      const Conductors k = conductors_on(cx, c, *s);
      const GroundOn g = ground_on(cx, c, *s);
      Incoming i{&c, &e, *k.size, (line.hots + (line.neutral ? 1 : 0)) * k.sets, std::nullopt};
      if (line.dc) i.count = 2 * k.sets;
      // The wire that serves another circuit too comes in once, with the circuit that it belongs to.
      if (g.wire && g.shared == nullptr) i.ground = cx.need(g.size, "ground.size", "it takes room in the box");
      out.push_back(i);
    }
  return out;
}

std::optional<ConductorSize> largest_conductor(const std::vector<Incoming>& in, const Box& b) {
  std::optional<ConductorSize> largest;
  for (const Incoming& i : in)
    if (!largest || i.size > *largest) largest = i.size;
  for (const Other& o : b.also)
    if (o.size && (!largest || *o.size > *largest)) largest = *o.size;
  return largest;
}

bool goes_by_volume(Context& cx, const Box& b, const std::vector<Incoming>& in) {
  const auto largest = largest_conductor(in, b);
  const auto through = ConductorSize::parse(cx.parameter_text("box-fill", "through"));
  return largest && through && *largest <= *through;
}

Traced<Volume> needed_volume(Context& cx, const Box& b, const std::vector<Incoming>& in) {
  const ConductorSize largest = *largest_conductor(in, b);
  const bool through = b.passes_through.value_or(false);
  if (!b.passes_through) cx.assume("splices", cx.text("box '{}' does not say that conductors pass through: each is taken as spliced in it", *b.name), cx.cite("box-conductor"));
  std::map<std::string_view, std::pair<ConductorSize, double>> counts;  // by size
  const auto add = [&](const ConductorSize& size, double n) {
    auto& at = counts[size.label()];
    at.first = size;
    at.second += n;
  };
  std::map<const Circuit*, double> passed;  // entries seen of a circuit that passes through: the second is the same wire
  for (const Incoming& i : in)
    if (!through || passed[i.circuit]++ == 0) add(i.size, i.count);
  for (const Other& o : b.also)
    if (!o.bare.value_or(false)) add(cx.need(o.size, "box.also.size", "it takes room in the box"), o.count.value_or(1));
  Sum sum(cx);
  const double each = rule_count(cx, "box-conductor");
  for (const auto& [label, entry] : counts) sum.add(entry.second * each, entry.first, "conductors", "box-conductor");
  // A loop is the second counting of a wire that has been counted once as passing through.
  if (b.loops) sum.add(*b.loops * (rule_count(cx, "box-loop") - each), largest, "loops", "box-loop");
  if (b.clamps.value_or(false)) sum.add(rule_count(cx, "box-clamps"), largest, "cable clamps", "box-clamps");
  if (b.fittings) sum.add(*b.fittings * rule_count(cx, "box-support-fittings"), largest, "support fittings", "box-support-fittings");
  add_devices(cx, b, largest, sum);
  add_grounds(cx, b, in, sum);
  for (const TerminalBlock& t : b.terminal_blocks)
    sum.add(rule_count(cx, "box-terminal-blocks"), t.size.value_or(largest), "terminal blocks", "box-terminal-blocks");
  if (b.barrier_volume) sum.add(cx.given("barrier", "v", b.barrier_volume, units::cubic_inch));
  else if (b.barrier)
    sum.add(cx.parameter("box-barrier", *b.barrier == Barrier::metal ? "metal" : "nonmetallic", "barrier without a marked volume", "v", units::cubic_inch));
  const Traced<Volume> total = *sum.total();
  cx.working().rename(total.step, "volume that the contents need", "S");
  return total;
}

Traced<Volume> box_volume(Context& cx, const Box& b) {
  if (b.volume) return cx.given("volume of the box", "Vb", b.volume, units::cubic_inch);
  if (!b.kind || !b.size) cx.needs_input("box.volume", "give the marked volume, or kind and size of a standard box");
  const auto t = cx.table("box-sizes");
  const auto row = t.find(*b.kind, *b.size);
  if (!row) cx.needs_input("box.volume", cx.text("{} {} is no standard box of {}", *b.kind, *b.size, t.clause()));
  const auto v = cx.cell(t, *row, "volume", "volume of the box", "Vb", units::cubic_inch);
  if (!v) cx.not_covered("no volume is listed", cx.edition().cite(t));
  return *v;
}

}  // namespace pullproof::derive
