// Fuzzes the reader of cases: any bytes give a case or complaints, never both and never neither, and each complaint
// can be shown.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "job/read.hpp"

using namespace pullproof;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Diagnostics diagnostics;
  const auto job = read_case("case.toml", std::string(reinterpret_cast<const char*>(data), size), diagnostics);
  if ((job == nullptr) == diagnostics.empty()) std::abort();
  for (const Diagnostic& d : diagnostics.sorted())
    if (render(d).empty()) std::abort();
  return 0;
}
