#pragma once
// What feeds a load: the feeders on the way from the supply, and the current that each of them carries.
#include <span>
#include <vector>

#include "derive/line.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// Between what conductors a load lies. Drops are counted in the volts of one such pair and never mixed with another.
enum class Pair : std::uint8_t { two_wire, to_neutral, line_to_line, three_phase };
Pair pair_of(const Line& line);

/// The feeders from the supply to the circuit and the circuit itself, in this order. Not covered beyond a few.
std::vector<const Circuit*> chain_to(Context& cx, const Circuit& c);

/// Whether the case gives this circuit a load of its own.
bool has_load(const Circuit& c);

/// The loads on a feeder that has none of its own: the circuits that it feeds, those of feeders without a load in
/// their place. Needs one at least.
std::vector<const Circuit*> loads_on(Context& cx, const Circuit& feeder);

/// The voltage at the supply between the conductors of this circuit: `supply.voltage`, converted where it is held
/// between others; else the circuit's nominal voltage.
Traced<Voltage> source_voltage(Context& cx, const Circuit& c, const Line& line);

/// The current through one link of a chain as the load at its end meets it: in phase and in quadrature with the
/// load's voltage, each times the number of conductors of the load's loop that it passes.
///
///   - Both conductors of a two-wire circuit: 2. Three balanced phases, line to line: sqrt(3).
///   - A feeder with a load of its own shares it evenly between its lines and leaves the neutral without current:
///     a load to neutral meets it in one conductor, so 1 (in two lines of a wye the neutral carries as much: 2).
///   - A feeder without a load of its own carries the loads of its circuits, added as phasors. Which line each of
///     them is on the case does not say, so all are taken on the same: what a load to neutral meets is 1 for each
///     load between lines and 2 for each to neutral, which returns in the neutral; a load between lines meets 2 and
///     1. That is exact for one load, and more than there is for several on different lines. Their power factors
///     count as at the feeder's end, which they are a degree or so away from.
///   - On three phases single-phase and three-phase loads are not added up: the feeder's own load is asked for.
struct LoopCurrent {
  Traced<Current> active, reactive;
};

/// The power factor of a load that does not give one.
enum class PowerFactor : std::uint8_t {
  assumed,  ///< as derive::power_factor says
  worst,    ///< the lagging one at which `angle` below loses most
};

/// `link` carries what the load of `seen` meets. `angle` is reactance over resistance of the link.
LoopCurrent loop_current(Context& cx, const Circuit& link, const Circuit& seen, PowerFactor unknown, double angle);

/// The same working with assumptions and questions said of `other`, which may be `c` itself.
template <class F>
auto on_behalf(Context& cx, const Circuit& c, const Circuit& other, F&& f) {
  if (&other == &c) return f(cx);
  Context its = cx.about(cx.text("circuit {}", *other.name));
  try {
    return f(its);
  } catch (Stop& stop) {
    stop.message = cx.text("circuit {}: {}", *other.name, stop.message);
    if (!stop.where) stop.where = other.where;
    throw;
  }
}

}  // namespace pullproof::derive
