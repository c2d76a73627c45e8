#include "derive/sharing.hpp"

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
