#include "derive/device.hpp"

#include "calc/device.hpp"
#include "derive/load.hpp"
#include "job/words.hpp"

namespace pullproof::derive {

std::optional<Traced<Current>> standard_rating_from(Context& cx, DeviceKind kind, Current current, std::string_view name,
                                                    std::string_view symbol) {
  const auto t = cx.table("standard-ratings");
  for (std::size_t row = 0; row < t.rows(); ++row) {
    const auto rating = t.cell(row, "rating").number();
    if (rating && t.cell(row, word(kind)).yes() && at_least(units::ampere.of(*rating), current))
      return cx.cell(t, row, "rating", name, symbol, units::ampere);
  }
  return std::nullopt;
}

Traced<Current> standard_rating_to(Context& cx, DeviceKind kind, Current current, std::string_view name, std::string_view symbol) {
  const auto t = cx.table("standard-ratings");
  std::optional<std::size_t> best;
  for (std::size_t row = 0; row < t.rows(); ++row) {
    const auto rating = t.cell(row, "rating").number();
    if (rating && t.cell(row, word(kind)).yes() && at_most(units::ampere.of(*rating), current)) best = row;
  }
  if (!best) cx.not_covered("below the first standard rating", cx.edition().cite(t));
  return *cx.cell(t, *best, "rating", name, symbol, units::ampere);
}

std::optional<Current> largest_standard(const Context& cx, DeviceKind kind, Current current) {
  const auto t = cx.table("standard-ratings");
  std::optional<Current> out;
  for (std::size_t row = 0; row < t.rows(); ++row)
    if (const auto rating = t.cell(row, "rating").number(); rating && t.cell(row, word(kind)).yes() && at_most(units::ampere.of(*rating), current))
      out = units::ampere.of(*rating);
  return out;
}

DeviceKind device_kind(const Circuit& c) { return c.breaker.kind.value_or(DeviceKind::breaker); }

bool is_household_cooking(const Context& cx, const Circuit& c) {
  return c.role.value_or(CircuitRole::branch) == CircuitRole::branch && c.load.appliance && cx.job().supply.dwelling.value_or(true) &&
         cx.has_rule("range-conductor") && cx.listed("range-conductor", "appliances", *c.load.appliance);
}

bool carries_dwelling(Context& cx, const Circuit& c) {
  constexpr std::string_view rule = "dwelling-service";
  if (!c.entire_dwelling.value_or(false) || c.role.value_or(CircuitRole::branch) != CircuitRole::feeder || !c.breaker.rating) return false;
  if (!cx.need(cx.job().supply.dwelling, "supply.dwelling", "conductors of a dwelling's main feeder may be smaller")) return false;
  return line_of(cx, c).phases == 1 && at_least(*c.breaker.rating, cx.parameter(rule, "least", units::ampere)) &&
         at_most(*c.breaker.rating, cx.parameter(rule, "most", units::ampere));
}

std::optional<DeviceLimit> largest_device(Context& cx, const Circuit& c, const Conductors& k, const Traced<Current>& usable) {
  if (carries_dwelling(cx, c)) {
    const auto share = cx.parameter("dwelling-service", "percent", "share of the rating that the conductors need", "k", units::percent);
    return DeviceLimit{cx.apply(calc::rating_for_share, units::ampere, cx.cite("dwelling-service"), usable, share), cx.cite("dwelling-service")};
  }
  if (cx.listed("small-conductor-relief", "circuits", circuit_kind(cx, c))) return std::nullopt;
  if (k.cable != nullptr) {
    const auto types = cx.table("cable-types");
    if (types.cell(cx.row(types, *k.cable->type), "cord").yes()) return DeviceLimit{usable, cx.cite("cord-protection")};
  }
  DeviceLimit out{usable, cx.cite("ocpd-conductor")};
  const Current through = cx.parameter("next-size-up", "through", units::ampere);
  const bool several = c.load.receptacles.value_or(false) && c.role.value_or(CircuitRole::branch) == CircuitRole::branch;
  if (is_household_cooking(cx, c)) {
    out.cite = cx.cite("range-conductor");
  } else if (several) {
    cx.choose("several receptacles for portable loads", "not the next size up, but the ampacity itself", cx.cite("next-size-up"));
    out.cite = cx.cite("several-receptacles");
  } else if (at_most(usable.value, through)) {
    const auto next = standard_rating_from(cx, device_kind(c), usable.value, "standard rating at or next above the ampacity", "Is");
    if (next && at_most(next->value, through)) {
      cx.working().because_of(usable.step);
      out = {*next, cx.cite("next-size-up")};
    }
  } else {
    out.cite = cx.cite("over-800");
  }
  const auto small = cx.table("small-conductors");
  const auto row = small.find(k.size->label());
  if (!row) return out;
  const std::string_view column = k.material == Material::copper ? "copper" : "aluminum";
  const auto fixed = cx.cell(small, *row, column, cx.text("fixed limit for {} {}", k.size->label(), word(k.material)), "If", units::ampere);
  if (!fixed) return out;
  const bool lower = fixed->value < out.most.value;
  out.most = cx.apply(calc::lower_device, units::ampere, cx.cite("small-conductors"), out.most, *fixed);
  if (lower) out.cite = cx.cite("small-conductors");
  return out;
}

std::optional<DeviceLimit> largest_device(Context& cx, const Circuit& c, const CircuitAmpacity& found) {
  std::optional<DeviceLimit> lowest;
  const Conductors* before = nullptr;
  for (const StretchAmpacity& s : found.stretches) {
    const Conductors& k = s.conductors;
    if (before != nullptr && !s.cord && k.cable == before->cable && k.size.value == before->size.value && k.material == before->material) continue;
    const auto limit = largest_device(cx, c, k, s.cord ? s.usable : found.usable);
    if (!limit) return std::nullopt;
    if (!lowest || limit->most.value < lowest->most.value) lowest = limit;
    before = &k;
  }
  return lowest;
}

}  // namespace pullproof::derive
