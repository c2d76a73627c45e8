#pragma once
// What a circuit has to carry.
#include "derive/line.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// The current that the load draws at its rating, from amperes, volt-amperes, watts and power factor, or the
/// currents of its motors, or the marked minimum circuit ampacity, in that order. Needs one of them.
Traced<Current> load_current(Context& cx, const Circuit& c, const Line& line);

/// The power factor, 1 where none is given, aloud.
Traced<double> power_factor(Context& cx, const Circuit& c, const Line& line);

/// What the appliance of a branch circuit counts as: the load current, but the demand of a household range where its
/// power is given.
Traced<Current> circuit_load(Context& cx, const Circuit& c, const Line& line);

/// What the whole circuit carries: the above, and everything else that is said to be on it. Needs the current of that.
Traced<Current> whole_load(Context& cx, const Circuit& c, const Line& line);

/// The current that flows while all of it runs, for voltage drop: nothing is raised and no demand factor taken off.
Traced<Current> drawn_current(Context& cx, const Circuit& c, const Line& line);

/// What the conductors or the device must carry: the load with its continuous part raised, by the rule of the
/// appliance where it has one, or the marked minimum circuit ampacity, which has that in it; and what else is on the
/// circuit, its largest motor raised (220.18).
struct DesignLoad {
  Traced<Current> current;
  Citation cite;
  bool marked = false;         ///< it is the marked minimum
  bool continuous = false;     ///< part of it runs three hours or more
  bool after_factors = false;  ///< held against the ampacity after all factors: marked minimum, motors, cooling
};
/// Needs `load.motors` for a motor without a marked minimum.
DesignLoad load_for_conductor(Context& cx, const Circuit& c, const Line& line);
DesignLoad load_for_device(Context& cx, const Circuit& c, const Line& line);

/// The kind of circuit that an appliance makes, by the edition's table of appliances: "ordinary", "motor",
/// "cooling". Where the appliance is not given, by the motors that the case describes; else ordinary.
std::string_view circuit_kind(const Context& cx, const Circuit& c);

}  // namespace pullproof::derive
