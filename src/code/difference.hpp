#pragma once
// What two editions say differently.
#include <string>
#include <vector>

#include "code/edition.hpp"

namespace pullproof::code {

/// One thing that is said otherwise: a field, a cell ("14 AWG, cu-75"), a row, a column or a parameter.
struct Difference {
  std::string what, was, now;
  Where origin;  ///< what set it; nowhere for a field
};

/// Everything but the clause, which a new edition may only number otherwise.
std::vector<Difference> content_differences(const TableRef& a, const TableRef& b);
std::vector<Difference> content_differences(const RuleRef& a, const RuleRef& b);

struct EntryDifference {
  bool table = false;
  std::string_view name, title, clause;  ///< as the one that has it, or the second
  std::string_view only_in;              ///< the id of the edition that alone has it; else empty
  std::vector<Difference> inside;        ///< fields first: title, clause, basis, source, seen
};

/// Tables, then rules, by name. Those that say the same are left out.
std::vector<EntryDifference> differences(const Edition& a, const Edition& b);

}  // namespace pullproof::code
