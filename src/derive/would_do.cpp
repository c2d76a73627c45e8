#include "derive/would_do.hpp"

#include <optional>

namespace pullproof::derive {

Resized::Resized(const Circuit& c) : circuit_(c) {
  cables_.reserve(c.path.size());
  for (Stretch& s : circuit_.path)
    if (s.cable != nullptr) s.cable = &cables_.emplace_back(*s.cable);
}

void Resized::set(ConductorSize size) {
  const auto to = [&](Given<ConductorSize>& g) {
    g.value = size;
    g.present = true;
  };
  to(circuit_.wire.size);
  for (Stretch& s : circuit_.path)
    if (s.wire.size) to(s.wire.size);
  for (Cable& k : cables_) to(k.size);
}

std::vector<std::string_view> larger_sizes(const Context& cx, const Circuit& c) {
  std::optional<ConductorSize> smallest;
  const auto look = [&](const Given<ConductorSize>& g) {
    if (g && (!smallest || *g < *smallest)) smallest = *g;
  };
  look(c.wire.size);
  for (const Stretch& s : c.path) {
    look(s.wire.size);
    if (s.cable != nullptr) look(s.cable->size);
  }
  std::vector<std::string_view> out;
  const auto t = cx.table("ampacity");
  for (std::size_t r = 0; r < t.rows(); ++r) {
    const std::string_view label = t.cell(r, "size").text();
    const auto size = ConductorSize::parse(label);
    if (size && (!smallest || *size >= *smallest)) out.push_back(label);
  }
  return out;
}

}  // namespace pullproof::derive
