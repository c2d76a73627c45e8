#pragma once
// How far a run may go: a table of sizes against the longest run that passes.
#include <optional>
#include <string>
#include <vector>

#include "answers/choices.hpp"
#include "answers/draft.hpp"
#include "answers/sizing.hpp"
#include "core/quantity.hpp"

namespace pullproof::answers {

struct ReachRow {
  std::string size;         ///< without quotes
  bool now = false;         ///< what the case has
  Length longest{};         ///< of the whole run, one way
  bool farther = false;     ///< it passes at the longest that a case may say
  Objection stops;          ///< what speaks against a run a little longer; not set where `farther`
  std::vector<Sized> with;  ///< what has to change along with the size, such as the ground
};

struct ReachTable {
  std::string subject;      ///< "circuit heater"
  std::string key;          ///< "wire.size"
  std::string stretch;      ///< subject of the stretch that is taken longer or shorter; empty where the run has a length of its own
  Length now{};             ///< of the whole run, 0 where the case does not say
  std::vector<ReachRow> rows;
  bool no_farther = false;  ///< sizes above those of the rows get no farther than the last of them
  std::optional<std::pair<std::string, Objection>> too_small;  ///< the largest size that does at no length, and why
};

struct Reach {
  std::vector<ReachTable> tables;  ///< one for each circuit and control run
  std::vector<Edit> sized;         ///< sizes that the case leaves open and that were worked out first
};

/// The length of the longest stretch of each run is varied, everything else stays, and all checks are run: the longest
/// run is the last at which nothing fails, nor (unless advice is let be) is advised against, that would not at 3 ft.
/// Lengths are found to a tenth of a foot, from below.
Reach reach_of(const Draft& draft, bool heed_advice = true);

}  // namespace pullproof::answers
