// Fuzzes the reading of quantities in text, of every dimension. What is read has to be finite, and an error has to
// begin in the text.
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "job/measure.hpp"

using namespace pullproof;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  constexpr unsigned dimensions = static_cast<unsigned>(Dimension::ratio) + 1;
  const std::string_view text(reinterpret_cast<const char*>(data + 1), size - 1);
  const auto want = static_cast<Dimension>(data[0] % dimensions);
  const Measured m = read_quantity(text, want);
  if (m.ok && !std::isfinite(m.si)) std::abort();
  if (!m.ok && (m.error.empty() || m.at > text.size())) std::abort();
  read_system(text);
  read_source_voltage(text);
  return 0;
}
