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

/// The end of a stretch. Volts are those that the load at the far end meets there.
struct Joint {
  const Circuit* circuit = nullptr;
  const Stretch* stretch = nullptr;
  Traced<Voltage> in_phase, across;  ///< lost from the start up to here
  Traced<Voltage> volts;             ///< what is left; set only where the load can be fed
  Traced<double> share;              ///< lost up to here, of the source
};

/// A constant current at the load's power factor, by the method of calc/drop.hpp. All volts are between the conductors
/// of `seen`: of a feeder that carries loads to neutral without a load of its own, between a line and the neutral.
struct Drop {
  const Circuit* seen = nullptr;
  Traced<Voltage> source;
  std::vector<Joint> joints;
  std::size_t before = 0;  ///< how many of them lie before the circuit's own
  Traced<Length> length;   ///< of the circuit's own stretches
  bool fed = false;        ///< whether the load can be fed at all; what follows is set only then
  Traced<Voltage> load;        ///< at the load
  Traced<Voltage> lost;
  Traced<double> share;        ///< of the source; the steps of all joints are behind it
  Traced<double> approximate;  ///< the same by the usual approximation
  Citation cite;               ///< of the impedance of the circuit's first stretch
};
Drop drop_of(Context& cx, const Circuit& c, const DropQuestion& question = {});

}  // namespace pullproof::derive
