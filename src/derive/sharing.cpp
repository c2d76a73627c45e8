#include "derive/sharing.hpp"

#include "calc/load.hpp"
#include "calc/motor.hpp"

namespace pullproof::derive {

bool shared(Context& cx, const Circuit& c) {
  if (c.individual && *c.individual && !c.also_feeds.empty())
    cx.unclear("circuit.individual", "circuit.individual is true, and circuit.also_feeds names other loads", c.individual.where);
  return !c.also_feeds.empty() || (c.individual && !*c.individual);
}

bool fastened(Context& cx, const Circuit& c) {
  if (c.load.fastened) return *c.load.fastened;
  const auto connection = connection_of(cx, c);
  if (connection == Connection::hard_wired) return true;
  cx.needs_input("load.fastened", "what is fastened in place and what is moved about have different shares of a circuit");
}

Traced<Current> share_current(Context& cx, const Share& s) {
  cx.need(s.current, "circuit.also_feeds.current", "all loads of the circuit are added");
  return cx.given(cx.text("current of {}", s.name ? *s.name : "another load"), "I", s.current, units::ampere);
}

std::optional<Traced<Current>> other_loads(Context& cx, const Circuit& c, Which which, std::string_view raised_by) {
  std::optional<Traced<Current>> sum;
  for (const Share& s : c.also_feeds) {
    if (which != Which::all && s.motor.value_or(false) != (which == Which::motors)) continue;
    Traced<Current> i = share_current(cx, s);
    if (!raised_by.empty() && s.continuous.value_or(false)) {
      const auto k = cx.parameter(raised_by, "percent", "factor for continuous load", "k", units::percent);
      i = cx.apply(calc::all_continuous, units::ampere, cx.cite(raised_by), i, k);
    } else if (!raised_by.empty() && !s.continuous) {
      cx.assume("continuous load", cx.text("circuit.also_feeds.continuous is not given: {} is taken not to run three hours or more",
                                           s.name ? *s.name : "what else is on the circuit"));
    }
    sum = sum ? cx.apply(calc::currents_added, units::ampere, {}, *sum, i) : i;
  }
  return sum;
}

std::optional<double> receptacle_count(const Circuit& c) {
  const Receptacle& r = c.receptacle;
  if (!r.kind && r.count.value_or(1) <= 1) return std::nullopt;
  return r.count.value_or(1) * (r.kind && *r.kind == ReceptacleKind::duplex ? 2 : 1);
}

bool rating_listed(const Context& cx, std::string_view rule, std::string_view key, Current rating) {
  for (const code::CellRef& item : cx.rule(rule).list(key)) {
    const Measured m = read_quantity(item.text(), Dimension::current);
    if (m.ok && at_most(rating, Current::from_value(m.si)) && at_least(rating, Current::from_value(m.si))) return true;
  }
  return false;
}

}  // namespace pullproof::derive
