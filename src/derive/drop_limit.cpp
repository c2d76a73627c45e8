#include "derive/drop_limit.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

#include "calc/drop.hpp"

namespace pullproof::derive {
namespace {

using Keeps = std::function<bool(const Drop&)>;

/// The drop with something else in place of what the case has, on a sheet that nobody sees.
bool would_do(const Context& cx, const Circuit& c, const DropQuestion& question, const Keeps& keeps) {
  Context quiet = cx.scratch();
  try {
    const Drop drop = drop_of(quiet, c, question);
    return drop.fed && keeps(drop);
  } catch (const Stop&) {
    return false;  // no impedance in the tables for this size
  }
}

/// The length of the circuit, its stretches in proportion, that leaves exactly `target` at the load. Nothing where no
/// more than that is there when it begins.
std::optional<Traced<Length>> longest_run(Context& cx, const Drop& drop, const Traced<Voltage>& target) {
  if (!(target.value < drop.start.value)) return std::nullopt;
  return cx.apply(calc::longest_run, units::foot, {}, drop.length, target, drop.start, drop.in_phase, drop.across);
}

/// The smallest size of the tables, larger than the circuit's smallest, with which the limit is kept when no
/// conductor of the circuit is smaller.
std::optional<ConductorSize> smallest_size(const Context& cx, const Circuit& c, DropQuestion question, const Keeps& keeps) {
  Context quiet = cx.scratch();
  std::optional<ConductorSize> present;
  for (const Stretch& s : c.path) {
    const ConductorSize size = *conductors_on(quiet, c, s).size;
    if (!present || size < *present) present = size;
  }
  const auto t = cx.table("conductor-properties");
  for (std::size_t r = 0; r < t.rows(); ++r) {
    if (t.cell(r, "stranding").text() != "stranded") continue;
    const auto size = ConductorSize::parse(t.cell(r, std::size_t{0}).text());
    if (!size || *size <= *present) continue;
    question.at_least = *size;
    if (would_do(cx, c, question, keeps)) return size;
  }
  return std::nullopt;
}

/// A length in the unit that the circuit's lengths are written in, rounded down.
std::string_view length_text(Context& cx, const Circuit& c, Length length) {
  const Stretch& first = c.path.front();
  const std::string_view written = first.raceway != nullptr ? first.raceway->length.text : first.cable->length.text;
  const Unit<Length>& unit = written.ends_with('m') ? units::metre : units::foot;
  const double shown = std::floor(unit.show(length) * 10 * (1 + 1e-10)) / 10;
  return cx.text("{} {}", number_text(shown, 1), unit.name);
}

std::string_view ways_out(Context& cx, const Circuit& c, const DropQuestion& question, const Keeps& keeps,
                          const std::optional<Traced<Length>>& longest) {
  const auto size = smallest_size(cx, c, question, keeps);
  const std::string_view at = longest ? cx.text("keep this wire to {} in all", length_text(cx, c, longest->value)) : "";
  if (size && longest) return cx.text("use {} or larger at this length, or {}", size->label(), at);
  if (size) return cx.text("use {} or larger at this length", size->label());
  if (longest) return cx.text("no single size does at this length: {}, or take conductors in parallel or a higher voltage", at);
  return c.feeder != nullptr && question.reach == Reach::supply
             ? cx.text("what feeds it loses too much already: make the conductors of '{}' larger", *c.feeder->name)
             : std::string_view("take a higher voltage or another appliance");
}

/// What every message ends with.
std::string_view rest_of_message(Context& cx, const Circuit& c, const Drop& drop, const std::optional<Traced<Length>>& longest) {
  const double vs = raw(drop.source.value), vr = raw(drop.load.value);
  const double lost = raw(drop.lost.value), approximate = raw(drop.approximate.value);
  const std::string_view left = cx.text("{} V of {} V lost ({} V by the usual approximation), {} V left{}", brief_number(lost, 0),
                                        brief_number(vs, vr), brief_number(approximate, 0), brief_number(vr, vs),
                                        drop.seen == &c ? "" : cx.text(" between the conductors of '{}'", *drop.seen->name));
  if (!longest) return left;
  return cx.text("{}; with this wire the limit is reached at {}", left, length_text(cx, c, longest->value));
}

/// The circuit's own check reports it; those that look further wait for that one.
Finding& cannot_be_fed(Context& cx, const Circuit& c, const DropQuestion& question, const Drop& drop, std::string_view change) {
  const std::string_view message = cx.text("the load cannot be fed: at this length the conductors would lose more than the {} V there are",
                                           number_text(raw(drop.source.value), 1));
  if (question.reach == Reach::supply) cx.fails_in("drop-branch", message, change, drop.cite, c.wire.size.where);
  return cx.fail(message, change, drop.cite, c.wire.size.where, drop.in_phase.step);
}

/// Whether a power factor on the way is the program's, not the case's.
bool power_factor_assumed(Context& cx, const Circuit& c, const DropQuestion& question) {
  const auto chain = question.reach == Reach::supply ? chain_to(cx, c) : std::vector<const Circuit*>{&c};
  return std::any_of(chain.begin(), chain.end(), [](const Circuit* link) { return !link->load.power_factor; });
}

void settle_power_factor(Context& cx, const Circuit& c, DropQuestion question, const Keeps& keeps) {
  if (!power_factor_assumed(cx, c, question)) return;
  question.unknown = PowerFactor::worst;
  if (would_do(cx, c, question, keeps)) return;
  cx.needs_input("load.power_factor", "the limit is kept at a power factor of 1 and broken at a lower one");
}

}  // namespace

Finding& hold_share(Context& cx, const Circuit& c, const DropQuestion& question, std::string_view rule, std::string_view what) {
  const Citation cite = cx.cite(rule);
  const bool binding = cx.flag(rule, "binding");
  const auto limit = cx.parameter(rule, "percent", binding ? "the limit" : "the advised limit", "p", units::percent);
  const Drop drop = drop_of(cx, c, question);
  const auto target = cx.apply(calc::allowed_voltage, units::volt, cite, drop.source, limit);
  const auto longest = longest_run(cx, drop, target);
  const Keeps keeps = [&](const Drop& d) { return at_most(d.share.value, limit.value); };
  if (!drop.fed) return cannot_be_fed(cx, c, question, drop, ways_out(cx, c, question, keeps, longest));
  if (keeps(drop)) settle_power_factor(cx, c, question, keeps);
  cx.working().rename(drop.share.step, what, "d");
  Finding& f = binding ? cx.require(drop.share, Must::at_most, limit, cite, c.wire.size.where)
                       : cx.recommend(drop.share, Must::at_most, limit, cite, c.wire.size.where);
  f.message = cx.text("{}: {}", f.message, rest_of_message(cx, c, drop, longest));
  if (longest) f.beside = longest->step;
  if (f.verdict != Verdict::pass) f.change = ways_out(cx, c, question, keeps, longest);
  return f;
}

Finding& hold_voltage(Context& cx, const Circuit& c, const DropQuestion& question, const Traced<Voltage>& lowest,
                      const Citation& cite) {
  const Drop drop = drop_of(cx, c, question);
  const auto longest = longest_run(cx, drop, lowest);
  const Keeps keeps = [&](const Drop& d) { return at_least(d.source.value - d.lost.value, lowest.value); };
  if (!drop.fed) return cannot_be_fed(cx, c, question, drop, ways_out(cx, c, question, keeps, longest));
  if (keeps(drop)) settle_power_factor(cx, c, question, keeps);
  const auto left = cx.apply(calc::voltage_left, units::volt, {}, drop.source, drop.lost);
  cx.working().because_of(drop.share.step);  // shows the way there
  Finding& f = cx.require(left, Must::at_least, lowest, cite, c.load.minimum_voltage.where);
  f.message = cx.text("{}: {}", f.message, rest_of_message(cx, c, drop, longest));
  if (longest) f.beside = longest->step;
  if (f.verdict != Verdict::pass) f.change = ways_out(cx, c, question, keeps, longest);
  return f;
}

}  // namespace pullproof::derive
