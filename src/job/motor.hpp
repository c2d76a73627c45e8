#pragma once
// Motors and compressors of a load.
#include "core/quantity.hpp"
#include "job/given.hpp"

namespace pullproof {

enum class MotorKind : std::uint8_t { single_phase, polyphase, design_b, synchronous, wound_rotor, direct_current };

/// A motor or a motor-compressor by its nameplate.
struct Motor {
  Given<std::string_view> name;
  Given<Horsepower> horsepower;
  Given<MotorKind> kind;
  Given<Current> nameplate_current;  ///< full load
  Given<Current> rated_load_current, branch_selection_current;  ///< of a motor-compressor
  Given<double> service_factor;
  Given<Temperature> temperature_rise;  ///< marked, in K; written in °C
  Given<Current> overload;              ///< setting of its overload device
  Given<bool> thermally_protected;      ///< marked so, or protected by its impedance
  Where where;
};

}  // namespace pullproof
