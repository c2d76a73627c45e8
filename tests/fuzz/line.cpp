// Fuzzes a line of a stream on its whole way: read as JSON, read as a case, checked, and written as a record.
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "engine/load.hpp"
#include "engine/run.hpp"
#include "job/record.hpp"
#include "report/json.hpp"

using namespace pullproof;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  Diagnostics diagnostics;
  CaseRecord record = read_record(std::string_view(reinterpret_cast<const char*>(data), size), 1, "fuzz", diagnostics);
  std::optional<LoadedCase> loaded;
  if (diagnostics.empty()) loaded = load_case({}, record.name, std::move(record.text), {}, diagnostics);
  const std::string out = loaded ? report::json_record(1, run_checks(loaded->job, loaded->edition), true)
                                 : report::json_record(1, record.name, diagnostics.sorted());
  if (out.empty() || out.find('\n') != out.size() - 1) std::abort();  // a record is a line
  return 0;
}
