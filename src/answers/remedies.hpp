#pragma once
// What would mend each fail, found by trying.
#include <vector>

#include "answers/draft.hpp"

namespace pullproof::answers {

/// All changes that the remedies of a report ask for, taken together.
struct Repair {
  std::vector<Edit> edits;
  bool complete = false;  ///< with them nothing fails, and nothing is open that was not
};

/// Looks for a remedy for each fail of `report`, which is of the draft as it stands, and puts it there. For each check
/// that fails, every choice that it reads is tried, the nearest values first; of those that mend it the one is taken
/// that breaks nothing else, changes least and stays with what failed. Where a change breaks something, that is mended
/// in turn. Remedies build on one another in the order of the report. The search ends after a while, which a note of the
/// report says then.
Repair add_remedies(Report& report, const Draft& draft);

}  // namespace pullproof::answers
