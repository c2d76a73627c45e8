#include "lookups.hpp"

#include <optional>
#include <string_view>
#include <vector>

#include "code/edition.hpp"

namespace pullproof::mutation {
namespace {

Lookups* noted = nullptr;

Asked* of(const code::TableRef& t) { return noted != nullptr ? &(*noted)[std::string(t.name())] : nullptr; }
Asked* of(const code::RuleRef& r) { return noted != nullptr ? &(*noted)["rule " + std::string(r.name())] : nullptr; }

using Row = std::optional<std::size_t>;
using Text = std::string_view;

Row note(const code::TableRef& t, Row row) {
  if (Asked* a = of(t)) {
    if (row) a->rows.insert(*row);
    a->columns.insert("");  // its keys were read
  }
  return row;
}

}  // namespace

void note_lookups(Lookups* into) { noted = into; }

// The names are those of the Itanium C++ ABI, which g++ and clang both follow on Linux.
#define PULLPROOF_WRAP(result, name, symbol, ...)  \
  result real_##name(__VA_ARGS__) asm("__real_" symbol); \
  result wrap_##name(__VA_ARGS__) asm("__wrap_" symbol)

PULLPROOF_WRAP(Row, find, "_ZNK9pullproof4code8TableRef4findESt17basic_string_viewIcSt11char_traitsIcEE", const code::TableRef* t, Text key);
PULLPROOF_WRAP(Row, find_two, "_ZNK9pullproof4code8TableRef4findESt17basic_string_viewIcSt11char_traitsIcEES5_", const code::TableRef* t, Text key, Text second);
PULLPROOF_WRAP(Row, band, "_ZNK9pullproof4code8TableRef4bandESt17basic_string_viewIcSt11char_traitsIcEEd", const code::TableRef* t, Text through, double value);
PULLPROOF_WRAP(std::size_t, column, "_ZNK9pullproof4code8TableRef6columnESt17basic_string_viewIcSt11char_traitsIcEE", const code::TableRef* t, Text name);
PULLPROOF_WRAP(code::CellRef, parameter, "_ZNK9pullproof4code7RuleRefixESt17basic_string_viewIcSt11char_traitsIcEE", const code::RuleRef* r, Text name);
PULLPROOF_WRAP(std::vector<code::CellRef>, list, "_ZNK9pullproof4code7RuleRef4listESt17basic_string_viewIcSt11char_traitsIcEE", const code::RuleRef* r, Text name);
#undef PULLPROOF_WRAP

Row wrap_find(const code::TableRef* t, Text key) { return note(*t, real_find(t, key)); }
Row wrap_find_two(const code::TableRef* t, Text key, Text second) { return note(*t, real_find_two(t, key, second)); }
Row wrap_band(const code::TableRef* t, Text through, double value) {
  if (Asked* a = of(*t)) a->columns.emplace(through);
  return note(*t, real_band(t, through, value));
}
std::size_t wrap_column(const code::TableRef* t, Text name) {
  if (Asked* a = of(*t)) a->columns.emplace(name);
  return real_column(t, name);
}
code::CellRef wrap_parameter(const code::RuleRef* r, Text name) {
  if (Asked* a = of(*r)) a->columns.emplace(name);
  return real_parameter(r, name);
}
std::vector<code::CellRef> wrap_list(const code::RuleRef* r, Text name) {
  if (Asked* a = of(*r)) a->columns.emplace(name);
  return real_list(r, name);
}

}  // namespace pullproof::mutation
