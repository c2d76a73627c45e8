// Fuzzes the reader of rule files: a base edition of any bytes, then an amendment of the same bytes laid over a small
// edition. What is read without complaint can be frozen, and thawed to the same.
#include <cstdint>
#include <cstdlib>
#include <string>

#include "code/book.hpp"
#include "code/frozen.hpp"

using namespace pullproof;
using namespace pullproof::code;

namespace {

constexpr const char* edition_text = R"([edition]
id = "base"
title = "A base"
publisher = "Somebody"
)";
constexpr const char* table_text = R"([table.ampacity]
title = "Ampacity"
clause = "1"
basis = "memory"
source = "nobody"
key = ["size"]
columns = ["size", "cu-60"]
units = ["", "A"]
rows = [["14 AWG", 15], ["12 AWG", 20]]

[rule.continuous-load]
title = "Continuous load"
clause = "2"
basis = "memory"
source = "nobody"
percent = 125
)";

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  {
    Diagnostics diagnostics;
    const auto books = read_books({{"rules/base/edition.toml", edition_text}, {"rules/base/fuzzed.toml", text}}, diagnostics);
    if (diagnostics.empty() && thaw(freeze(books).view()).size() != books.size()) std::abort();
  }
  Diagnostics diagnostics;
  auto books = read_books({{"rules/base/edition.toml", edition_text}, {"rules/base/tables.toml", table_text}}, diagnostics);
  if (!diagnostics.empty()) std::abort();
  lay_over({"rules/local.toml", text}, books, diagnostics);
  if (diagnostics.empty()) freeze(books);
  for (const Diagnostic& d : diagnostics.sorted())
    if (render(d).empty()) std::abort();
  return 0;
}
