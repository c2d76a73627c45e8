#include "derive/bus.hpp"

#include "derive/control.hpp"

namespace pullproof::derive {

bool carries_bus(const Control& c) { return bool(c.bus.where) || c.bus.kind; }

BusKind bus_kind(Context& cx, const Control& c) {
  cx.need(c.bus.kind, "control.bus.kind", "how a bus is laid out and how far it reaches goes by its kind");
  const auto t = cx.table("buses");
  BusKind k{t, cx.row(t, *c.bus.kind), false, false, {}};
  k.binds = k.cell("binds") == "yes";
  k.by_rate = k.cell("rate") == "yes";
  k.cite = cx.edition().cite(t, k.row, t.column("standard"));
  k.cite.clause = k.cell("standard");
  return k;
}

std::optional<std::size_t> bus_lengths(Context& cx, const Control& c, const BusKind& kind, const code::TableRef& lengths) {
  if (kind.by_rate) cx.need(c.bus.bit_rate, "control.bus.bit_rate", cx.text("{} reaches less far the faster it sends", *c.bus.kind));
  const double rate = kind.by_rate ? c.bus.bit_rate->bits_per_second : 0;
  for (std::size_t r = 0; r < lengths.rows(); ++r)
    if (lengths.cell(r, "kind").text() == *c.bus.kind && at_most(rate, lengths.cell(r, "through").number().value_or(0))) return r;
  return std::nullopt;
}

Traced<Length> bus_length(Context& cx, const Control& c) {
  if (c.length) return cx.given("length, end to end", "L", c.length, units::metre);
  const auto sum = run_length(cx, c);
  return cx.working().choice("length, end to end", "L", sum.value, units::metre, "as its raceways together", {});
}

}  // namespace pullproof::derive
