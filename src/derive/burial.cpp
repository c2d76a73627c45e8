#include "derive/burial.hpp"

#include <fmt/format.h>

#include "job/words.hpp"

namespace pullproof::derive {
namespace {

constexpr std::string_view dwelling_unsaid = "the case does not say that it serves a dwelling (supply.dwelling)";

std::string_view location_name(Context& cx, const Way& w) {
  const Given<Under>& under = w.laid().under;
  if (!under) {
    cx.assume("over it", cx.text("what lies over '{}' is not given: taken as open ground, no driveway, slab or building", *w.name()));
    return "other";
  }
  switch (*under) {
    case Under::ground: return "other";
    case Under::concrete: return "trench-under-concrete";
    case Under::building: return "under-building";
    case Under::slab: return "under-slab";
    case Under::street: return "street";
    case Under::dwelling_driveway: return "dwelling-driveway";
    case Under::runway: return "runway";
    case Under::driveway: break;
  }
  const Given<bool>& dwelling = cx.job().supply.dwelling;
  cx.need(dwelling, "supply.dwelling", "a driveway of a one- or two-family dwelling asks for less cover than another");
  if (*dwelling) cx.assume("driveway", cx.text("the driveway over '{}' is taken as one of a one- or two-family dwelling", *w.name()));
  return *dwelling ? "dwelling-driveway" : "street";
}

}  // namespace

std::size_t burial_location(Context& cx, const Way& w, const code::TableRef& t) { return cx.row(t, location_name(cx, w)); }

std::string_view burial_column(Context& cx, const Way& w) {
  const auto t = cx.table("burial-column");
  const auto row = t.find(type_of(cx, w));
  return row ? t.cell(*row, "column").text() : std::string_view{};
}

std::string why_not_shallow(Context& cx, const Way& w) {
  const auto circuits = circuits_in(cx, w);
  if (circuits.empty()) return "no circuit of this case runs in it";
  if (w.raceway != nullptr && !w.raceway->also.empty()) return "other conductors run in it";
  const Voltage volts = cx.parameter("burial-residential", "voltage", units::volt);
  const Current amps = cx.parameter("burial-residential", "ocpd", units::ampere);
  for (const Circuit* c : circuits) {
    const Breaker& b = c->breaker;
    if (c->role.value_or(CircuitRole::branch) != CircuitRole::branch) return fmt::format("'{}' is a feeder", *c->name);
    if (!c->voltage) return fmt::format("the voltage of '{}' is not given", *c->name);
    if (!at_most(*c->voltage, volts)) return fmt::format("'{}' is a circuit of {}", *c->name, c->voltage.text);
    if (!b.rating) return fmt::format("the breaker of '{}' is not given", *c->name);
    if (!at_most(*b.rating, amps)) return fmt::format("the breaker of '{}' is {}", *c->name, b.rating.text);
    if (!b.gfci.value_or(false)) return fmt::format("'{}' is not protected by a GFCI", *c->name);
  }
  const Given<bool>& dwelling = cx.job().supply.dwelling;
  if (!dwelling.value_or(false)) return dwelling ? "it serves no dwelling" : std::string(dwelling_unsaid);
  return {};
}

std::optional<Cover> cover_for(Context& cx, const Way& w) {
  const std::string_view column = burial_column(cx, w);
  if (column.empty()) return std::nullopt;
  const auto t = cx.table("burial");
  const std::size_t row = burial_location(cx, w, t);
  const auto at = [&](std::string_view name) {
    return cx.cell(t, row, name, cx.text("cover asked for, {}", t.cell(row, "place").text()), "Cmin", units::inch);
  };
  const auto general = at(column);
  if (!general) cx.not_covered("no cover is printed for this", cx.edition().cite(t));
  Cover out{*general, cx.edition().cite(t), false, false, why_not_shallow(cx, w)};
  if (!out.why_not.empty()) {
    const auto shallow = t.cell(row, "residential").number();
    out.dwelling_decides = out.why_not == dwelling_unsaid && shallow && units::inch.of(*shallow) < out.least.value;
    return out;
  }
  auto shallow = at("residential");
  const bool slab = w.laid().under && *w.laid().under == Under::slab;
  if (slab && w.raceway != nullptr) shallow = cx.parameter("burial-slab-raceway", "cover", "cover asked for in a raceway under a slab", "Cmin", units::inch);
  if (shallow && shallow->value < out.least.value) {
    out.least = *shallow;
    out.cite = cx.cite(slab && w.raceway != nullptr ? "burial-slab-raceway" : "burial-residential");
    out.shallow = true;
  }
  return out;
}

}  // namespace pullproof::derive
