#pragma once
// A second reader of formulas: works out the printed text of a formula from names and values, knowing nothing of the
// functions in src/calc.
#include <functional>
#include <optional>
#include <set>
#include <string>
#include <string_view>

namespace pullproof::test {

struct Evaluated {
  double value = 0;
  std::string error;            ///< empty when the text was a formula
  std::set<std::string> names;  ///< names that were asked for
};

/// Numbers, + - * / ^, parentheses, pi, sqrt min max floor ceil round abs cos sin acos; ^ binds to the right and
/// closer than a sign, as in print. `value_of` gives the value of a name, or nothing for a name that is none.
Evaluated evaluate(std::string_view text, const std::function<std::optional<double>(std::string_view name)>& value_of);

}  // namespace pullproof::test
