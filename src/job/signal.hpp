#pragma once
// What a control run carries besides power for a coil: a bus, or power over Ethernet.
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "job/given.hpp"

namespace pullproof {

enum class Topology : std::uint8_t { point_to_point, daisy_chain, star, tree, ring };

/// A bus or a maker's link: limited by delay, reflections and load rather than by voltage drop.
struct Bus {
  Given<std::string_view> kind;  ///< as in the table of buses
  Given<BitRate> bit_rate;
  Given<Topology> topology;
  Given<double> nodes;
  Given<double> unit_load;  ///< of one node, against that of the standard
  Given<Length> stub_length;
  Given<double> terminations;    ///< terminating resistors
  Given<bool> termination_at_ends;
  Given<Resistance> termination;  ///< of one of them
  // What the maker says, which beats the standard.
  Given<double> maximum_nodes;
  Given<Length> maximum_stub;
  Given<bool> any_topology;
  Where where;
};

/// Power over Ethernet.
struct Poe {
  Given<double> type, poe_class;
  Given<Power> device_power;
  Where where;
};

}  // namespace pullproof
