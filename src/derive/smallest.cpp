#include "derive/smallest.hpp"

#include <optional>

#include "derive/device.hpp"
#include "derive/load.hpp"
#include "derive/motor.hpp"
#include "derive/resized.hpp"

namespace pullproof::derive {
namespace {

/// What the conductors must carry, if the case says.
struct Demand {
  Current load{};    ///< against the usable ampacity
  Current raised{};  ///< with its continuous part raised, against the plain columns
};

std::optional<Demand> demand_of(Context& cx, const Circuit& c, const Line& line) {
  const Load& l = c.load;
  if (!l.current && !l.power && !l.apparent_power && !l.minimum_circuit_ampacity && !has_motors(c)) return std::nullopt;
  const DesignLoad raised = load_for_conductor(cx, c, line);
  return Demand{raised.after_factors ? raised.current.value : whole_load(cx, c, line).value, raised.current.value};
}

/// How one size does.
struct Trial {
  bool good = false;
  std::string_view how;
};

Trial attempt(Context& cx, const Circuit& c, const Line& line, const std::optional<Demand>& demand, Factors factors) {
  Context quiet = cx.scratch();
  const CircuitAmpacity found = ampacity_of(quiet, c, line, factors);
  const std::string_view size = c.wire.size->label();
  const std::string carries = brief_number(units::ampere.show(found.usable.value), 0);
  const std::string_view says = cx.text("{} carries {} A", size, carries);
  if (demand && !at_least(found.usable.value, demand->load)) return {false, cx.text("{}, less than the load", says)};
  // The smallest that may be read out of the rule, since a grounding conductor grows from it.
  const Current plain = found.plain_at_device.value;
  if (demand && !at_least(plain, demand->raised))
    return {false, cx.text("{} carries {} A before any factor, less than the load with its continuous part raised", size, brief_number(units::ampere.show(plain), 0))};
  const auto device = largest_device(quiet, c, found);
  if (!device || !c.breaker.rating) return {true, says};
  const std::string_view may = cx.text("{} and may have a device of {} A", says, number_text(units::ampere.show(device->most.value), 1));
  return {at_most(*c.breaker.rating, device->most.value), may};
}

/// The smallest size that may be used for it at all.
ConductorSize floor_of(Context& cx, const Conductors& k) {
  const std::string_view text = k.sets > 1 ? cx.parameter_text("parallel", "smallest")
                                           : cx.parameter_text("minimum-size", k.material == Material::copper ? "copper" : "aluminum");
  const auto size = ConductorSize::parse(text);
  if (!size) cx.not_covered("the smallest conductor size is not known", cx.cite("minimum-size"));
  return *size;
}

}  // namespace

SmallestConductor smallest_conductor(Context& cx, const Circuit& c, const Line& line) {
  SmallestConductor out;
  const std::optional<Demand> demand = demand_of(cx, c, line);
  Context quiet = cx.scratch();
  ConductorSize least;
  for (const Stretch& s : c.path) {
    const Conductors k = conductors_on(quiet, c, s);
    if (k.size.value > out.size) out.size = k.size.value;
    const ConductorSize floor = floor_of(cx, k);
    if (floor > least) least = floor;
  }
  Resized copy(c);
  Trial good = attempt(cx, copy.with(out.size), line, demand, Factors::all);
  out.enough = good.good;
  out.why = good.how;
  if (!out.enough) return out;
  // Ampacity does not fall with size, so the search goes down from what is installed and ends at the first that fails.
  const auto t = cx.table("ampacity");
  std::string_view fails = cx.text("{} is the smallest that is permitted", least.label());
  for (std::size_t row = t.rows(); row-- > 0;) {
    const auto size = ConductorSize::parse(t.cell(row, "size").text());
    if (!size || *size >= out.size) continue;
    if (*size < least) break;
    Trial next;
    try {
      next = attempt(cx, copy.with(*size), line, demand, Factors::all);
    } catch (const Stop& stop) {
      fails = cx.text("{}: {}", size->label(), stop.message);
      break;
    }
    if (!next.good) {
      fails = next.how;
      out.too_small = size;
      break;
    }
    out.size = *size;
    good = next;
  }
  out.why = cx.text("{}; {}", good.how, fails);
  return out;
}

bool would_do(Context& cx, const Circuit& c, const Line& line, const ConductorSize& size, Factors factors) {
  Resized copy(c);
  Context quiet = cx.scratch();
  return attempt(cx, copy.with(size), line, demand_of(quiet, c, line), factors).good;
}

}  // namespace pullproof::derive
