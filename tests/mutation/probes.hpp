#pragma once
// The cases that the tests hold the program against, each as a question about its report that has one right answer.
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "code/edition.hpp"
#include "lookups.hpp"

namespace pullproof::mutation {

/// One case as a test looks at it. `outcome` says, from the report under the edition of `store`, all that the test would
/// notice: when it says something else than it says without a change, the test fails.
struct Probe {
  std::string name;
  std::function<std::string(const std::shared_ptr<const code::Store>& store)> outcome;
  std::string usual;
  Lookups asked;
  /// Only asked of changes of these tables, where it costs much; of all where it is empty.
  std::set<std::string, std::less<>> only;
  /// Whether the test notices every word that is printed.
  bool every_word = false;
};

/// Cases of tests/checks, tests/editions, tests/inspection, tests/published/examples and cases/ of `root`, the first cases of
/// appliances, tables that tests/golden has whole, and the random cases of a file of the second opinion: a JSON object a
/// line, with `case` and what it `asks` of (checks).
std::vector<Probe> all_probes(const std::string& root, const std::string& random_cases);

}  // namespace pullproof::mutation
