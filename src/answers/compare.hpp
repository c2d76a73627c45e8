#pragma once
// What differs between two reports: of two cases, or of one case under two editions.
#include <string>
#include <string_view>
#include <vector>

#include "answers/draft.hpp"

namespace pullproof::answers {

/// A case under an edition, with its report.
struct Side {
  Draft draft;
  Report report;
};

/// A number of an answer on both sides, as people read it; empty on the side that does not have it.
struct Moved {
  std::string_view name;
  std::string a, b;
};

/// An answer that differs. One of the two is null where only the other side gives it.
struct Difference {
  const Finding* a = nullptr;
  const Finding* b = nullptr;
  bool verdict = false;        ///< the verdicts differ
  std::vector<Moved> numbers;  ///< demand, limit and share of it, those that differ
  const Finding& either() const { return a != nullptr ? *a : *b; }
};

/// A value of the case that is another.
struct OtherValue {
  std::string subject, key;  ///< "circuit heater", "wire.size"; of what is in no list, the subject is empty
  std::string a, b;          ///< as TOML; empty on the side that does not give it
};

struct Comparison {
  std::vector<OtherValue> values;
  std::vector<Difference> differences;  ///< where the verdict is another first, fails before others
  std::size_t clauses_alone = 0;        ///< answers that differ in nothing but the clause
  std::vector<std::string_view> assumed_by_a, assumed_by_b;  ///< by that side alone
};

/// Findings are matched by check and subject, and where a check says several things of one subject, in order. Points
/// into both sides.
Comparison compare(const Side& a, const Side& b);

}  // namespace pullproof::answers
