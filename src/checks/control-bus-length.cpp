#include "calc/signal.hpp"
#include "derive/bus.hpp"
#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Compares, as a rule of the bus or as advice.
template <class Q>
Finding& hold(Context& cx, bool binds, const Traced<Q>& has, Must must, const Traced<Q>& limit, const Citation& cite, Where where) {
  return binds ? cx.require(has, must, limit, cite, where) : cx.recommend(has, must, limit, cite, where);
}

/// How fast it may send at this length, by the table; empty where no rate of it does.
std::string_view slower(Context& cx, const Control& c, const code::TableRef& lengths, const Traced<Length>& length) {
  std::optional<double> best;
  for (std::size_t r = 0; r < lengths.rows(); ++r) {
    const auto reach = lengths.cell(r, "length").number();
    if (lengths.cell(r, "kind").text() == *c.bus.kind && reach && at_most(length.value, units::metre.of(*reach))) best = lengths.cell(r, "through").number();
  }
  if (!best || !c.bus.bit_rate || at_least(*best, c.bus.bit_rate->bits_per_second)) return {};
  return cx.text("send at {} kbit/s or less, ", number_text(*best / 1e3, 3));
}

void judge_length(Context& cx, const Control& c, const derive::BusKind& kind, const Traced<Length>& length) {
  const auto lengths = cx.table("bus-lengths");
  const auto row = derive::bus_lengths(cx, c, kind, lengths);
  const bool makers = c.maximum_length.present;
  const Where where = c.length ? c.length.where : c.bus.kind.where;
  if (row) {
    const auto limit = cx.cell(lengths, *row, "length", cx.text("longest {}{}", *c.bus.kind, kind.by_rate ? " at this bit rate" : ""), "Lx", units::metre);
    Citation cite = cx.edition().cite(lengths, *row, lengths.column("length"));
    cite.clause = kind.cite.clause;
    Finding& f = hold(cx, kind.binds && !makers, length, Must::at_most, *limit, cite, where);
    if (f.verdict != Verdict::pass) {
      f.change = cx.text("{}shorten it to {} m, or part it by a repeater", slower(cx, c, lengths, length), number_text(units::metre.show(limit->value), 1));
      return;
    }
    const auto usual = cx.cell(lengths, *row, "usual", "reach that some makers found or advise", "Lu", units::metre);
    if (usual && !makers) {
      Finding& g = cx.recommend(length, Must::at_most, *usual, cite, where);
      if (g.verdict == Verdict::advice) g.change = "read how far the maker of the devices lets it reach (control.maximum_length), or send slower";
    }
    return;
  }
  const auto product = kind.number("product");
  if (!product) cx.not_covered(cx.text("no reach of {} is known at {}: read the devices' manual and give control.maximum_length", *c.bus.kind, c.bus.bit_rate.text), kind.cite);
  const Citation cite = cx.cite("bus-product");
  const auto n = cx.cell(kind.table, kind.row, "product", "metres times bits in a second", "n", units::ratio);
  const auto rate = cx.given("bit rate", "f", c.bus.bit_rate, units::kilobit);
  const auto limit = cx.apply(calc::signal::reach, units::metre, cite, *n, rate);
  Finding& f = cx.recommend(length, Must::at_most, limit, cite, where);
  if (f.verdict == Verdict::advice) f.change = cx.text("send slower, shorten it to {} m, or read what the devices' maker permits (control.maximum_length)", number_text(units::metre.show(limit.value), 1));
}

/// Thin conductors lose the signal on the way.
void judge_size(Context& cx, const Control& c, const derive::BusKind& kind, const Traced<Length>& length) {
  const auto sizes = cx.table("bus-sizes");
  std::optional<std::size_t> row;
  for (std::size_t r = 0; r < sizes.rows() && !row; ++r)
    if (sizes.cell(r, "kind").text() == *c.bus.kind && at_most(length.value, units::metre.of(sizes.cell(r, "through").number().value_or(0)))) row = r;
  if (!row || c.smallest_size) return;  // the maker's word, which 'control-conductor' holds it against
  const std::string_view least = sizes.cell(*row, "size").text();
  cx.need(c.cable.size, "control.cable.size", cx.text("at this length {} takes at least {}", *c.bus.kind, least));
  Citation cite = cx.edition().cite(sizes, *row, sizes.column("size"));
  cite.clause = kind.cite.clause;
  const auto size = ConductorSize::parse(least);
  if (!size || *c.cable.size >= *size) return void(cx.pass(cx.text("{} is no smaller than the {} that {} takes at this length", c.cable.size->label(), least, *c.bus.kind), cite, c.cable.size.where));
  const std::string_view message = cx.text("{} is smaller than the {} that {} takes at this length", c.cable.size->label(), least, *c.bus.kind);
  const std::string_view change = cx.text("use {} or larger", least);
  if (kind.binds) cx.fail(message, change, cite, c.cable.size.where);
  else cx.advise(message, change, cite, c.cable.size.where);
}

/// Some links bound the resistance of each core instead.
void judge_core(Context& cx, const Control& c, const derive::BusKind& kind) {
  const auto limit = cx.cell(kind.table, kind.row, "core", cx.text("resistance that {} permits each core", *c.bus.kind), "Rx", units::ohm);
  if (!limit || c.maximum_loop_resistance) return;
  const derive::Loop loop = derive::loop_of(cx, c);
  const auto core = cx.apply(calc::signal::pair_set_resistance, units::ohm, {}, loop.length, loop.own);
  cx.working().rename(core.step, "resistance of one core", "R");
  Finding& f = hold(cx, kind.binds, core, Must::at_most, *limit, kind.cite, c.cable.size.where);
  if (f.verdict != Verdict::pass) f.change = "use larger conductors or a shorter run";
}

void run(Context& cx, const Control& c) {
  if (!derive::carries_bus(c)) return void(cx.not_applicable("no bus or data link of this run is described (control.bus)"));
  const derive::BusKind kind = derive::bus_kind(cx, c);
  if (kind.cell("topologies").empty() && !c.maximum_length)
    cx.needs_input("control.maximum_length", cx.text("the manual alone says how far {} reaches", *c.bus.kind));
  if (kind.cell("topologies").empty()) return void(cx.not_applicable("the manual's limit binds, which 'control-length' holds it against", cx.cite("control-manual")));
  const auto length = derive::bus_length(cx, c);
  judge_length(cx, c, kind, length);
  judge_size(cx, c, kind, length);
  judge_core(cx, c, kind);
}

}  // namespace

extern const Check check_control_bus_length{
    .id = "control-bus-length",
    .title = "Reach of a bus",
    .family = Family::control,
    .about = "A bus is not limited by the voltage that it loses but by the time its signals take and by what is left of them: the faster "
             "it sends, the shorter it has to be, and thin conductors shorten it further. The length, of the trunk from end to end, is held "
             "against the standard of its kind at its bit rate. What the maker of the devices permits beats that and is held by "
             "control-length; then the standard's figure is advice. Repeaters start a new bus.",
    .formula = "L <= Lx; where no figure is printed: Lx = n / f",
    .reads = "control.bus.kind, control.bus.bit_rate, control.length, control.path, raceway.length, control.maximum_length, control.cable, "
             "control.smallest_size, control.maximum_loop_resistance",
    .rules = "buses, bus-lengths, bus-sizes, bus-product, control-manual, small-gauge, metric-conductors, copper-temperature, control-temperature, "
             "control-stranding, control-path",
    .run = run};

}  // namespace pullproof
