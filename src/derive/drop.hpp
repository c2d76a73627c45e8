#pragma once
// Voltage along a run, from where it starts to the load.
#include <optional>
#include <vector>

#include "derive/feeding.hpp"
#include "derive/impedance.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// How much of the way to the load is looked at.
enum class Reach : std::uint8_t {
  circuit,  ///< the circuit alone, as if it started at the supply
  supply,   ///< with all feeders before it
};

/// A drop is asked for as the case has it, or with something else in its place, to see what would do.
struct DropQuestion {
  Reach reach = Reach::circuit;
  std::optional<ConductorSize> at_least = std::nullopt;  ///< the circuit's own conductors, where they are smaller, in this size
  PowerFactor unknown = PowerFactor::assumed;
};

/// The end of a stretch.
struct Joint {
  const Circuit* circuit = nullptr;
  const Stretch* stretch = nullptr;
  Traced<Voltage> in_phase, across;  ///< lost since its circuit began: A and B of calc/drop.hpp
  Traced<Voltage> volts;             ///< what is left
  Traced<double> share;              ///< lost since the source, of the source's voltage
};

/// Constant currents at the loads' power factors, by the method of calc/drop.hpp. All volts are between the conductors
/// of `seen`: of a feeder that carries loads to neutral without a load of its own, between a line and the neutral.
struct Drop {
  const Circuit* seen = nullptr;
  Traced<Voltage> source;
  Traced<Voltage> start;        ///< where the circuit itself begins: at the source or at the end of its feeder
  Traced<Voltage> in_phase, across;  ///< lost in the circuit itself
  Traced<Length> length;        ///< of the circuit itself
  Citation cite;                ///< of the impedance of its first stretch
  bool fed = false;             ///< whether everything on the way can be fed; what follows is set only then
  std::vector<Joint> joints;    ///< from the source to the load
  Traced<Voltage> load;         ///< left at the load
  Traced<Voltage> lost;
  Traced<double> share;         ///< of the source; the steps of all joints are behind it
  Traced<Voltage> approximate;  ///< lost by the usual approximation
};
Drop drop_of(Context& cx, const Circuit& c, const DropQuestion& question = {});

}  // namespace pullproof::derive
