#include "derive/resized.hpp"

#include <optional>

namespace pullproof::derive {

Resized::Resized(const Circuit& c) : circuit_(c) {
  for (Stretch& s : circuit_.path) {
    s.wire.size = {};
    if (s.cable == nullptr) continue;
    Cable& k = cables_.emplace_back(*s.cable);
    k.size = {};
    s.cable = &k;
  }
}

const Circuit& Resized::with(const ConductorSize& size) {
  circuit_.wire.size.value = size;
  circuit_.wire.size.present = true;
  return circuit_;
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
