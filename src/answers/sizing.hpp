#pragma once
// The smallest sizes with which all checks pass together.
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "answers/choices.hpp"
#include "answers/draft.hpp"

namespace pullproof::answers {

/// What a key may be, set by the person: "wire.size", "raceway.size"; with a name before it, "shed wall: raceway.size",
/// it holds for that part alone.
struct Limit {
  std::string key;
  std::vector<std::string> values;  ///< without quotes
};

struct SizingOptions {
  std::vector<Limit> at_least;  ///< one value each: nothing smaller
  std::vector<Limit> stock;     ///< these values alone
  std::vector<std::string> reopened;  ///< paths of given sizes that may grow
  bool heed_advice = true;      ///< advice from a comparison, such as the advised drop, is heeded where sizes can
};

/// Why a value will not do, or why a check cannot say.
struct Objection {
  std::string_view check;  ///< empty where the tables do not have it
  std::string subject, message;
  Verdict verdict = Verdict::fail;
  std::string limit = {}; ///< "the advised limit 3%"; empty without a comparison
  std::string missing = {}; ///< of an open answer: the key that would decide it
  std::string with = {};  ///< the value of a later size that this was said of: "wire.size = 12 AWG"; mostly empty
};

Objection objection_of(const Report& report, const Finding& f);

/// A size that was open.
struct Sized {
  std::string subject, key, path;
  std::string value;                  ///< as TOML
  std::string smaller;                ///< the next smaller one that there is; empty when this is the smallest
  std::vector<Objection> objections;  ///< to the smaller one
  std::string up_to;                  ///< of a device: the largest with which all else as it is passes, where every check can say; else empty
  std::vector<Objection> unsettled;   ///< checks that bear on it and cannot answer: it may be too small
};

/// A key for which nothing will do, with what speaks against each value.
struct Conflict {
  std::string subject, key;
  struct Exclusion {
    Objection objection;  ///< to the value that comes nearest to the ones that it does not rule out
    std::string value;    ///< that value
    std::vector<std::string> values;
    bool from_smallest = false, to_largest = false;  ///< whether they begin or end with what there is
  };
  std::vector<Exclusion> exclusions;  ///< by check; none when there is no value to choose from
  bool cut_short = false;  ///< still larger sizes were not tried, since so many in a row failed for the same reasons
};

struct Sizing {
  std::vector<Sized> sizes;
  std::vector<Edit> edits;
  std::optional<Conflict> conflict;
  std::vector<Objection> unheeded;  ///< advice that no sizes heed
  bool gave_up = false;  ///< the conflict is as far as the search came; something may do all the same
  std::size_t trials = 0;
};

/// Works out every size that is open: not given, and asked for by a check. The smallest are taken in this order: a
/// feeder before what it feeds; of each circuit the device, then the conductors, then the ground; then raceways, boxes,
/// the rest of each circuit, sources and cables of control runs. No earlier one can be smaller, whatever the later ones
/// are. A size that is given stays. The search goes back no further than to what bears on what failed.
Sizing size_case(const Draft& draft, const SizingOptions& options = {});

/// What is wrong with the limits: a key that no choice has, or a value that is none of it. Empty when all is well.
std::string wrong_limit(const Draft& draft, const SizingOptions& options);

}  // namespace pullproof::answers
