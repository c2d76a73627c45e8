#pragma once
// What the rule data say of the bus that a control run carries.
#include "engine/context.hpp"

namespace pullproof::derive {

struct BusKind {
  code::TableRef table;
  std::size_t row = 0;
  bool binds = false;     ///< the standard itself says so; else it is advice
  bool by_rate = false;   ///< its reach goes by the bit rate
  Citation cite;          ///< under the standard's name
  std::string_view cell(std::string_view column) const { return table.cell(row, column).text(); }
  std::optional<double> number(std::string_view column) const { return table.cell(row, column).number(); }
};
/// Whether the case describes a bus on the run.
bool carries_bus(const Control& c);
/// Needs `control.bus.kind`.
BusKind bus_kind(Context& cx, const Control& c);

/// The row of the table of lengths for its kind and bit rate, nothing where the table has no figure. Needs
/// `control.bus.bit_rate` where the reach goes by it.
std::optional<std::size_t> bus_lengths(Context& cx, const Control& c, const BusKind& kind, const code::TableRef& lengths);

/// The length of the bus in metres, as standards give it.
Traced<Length> bus_length(Context& cx, const Control& c);

}  // namespace pullproof::derive
