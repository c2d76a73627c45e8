#pragma once
// What a person decides when they plan a job, and what it may be: the keys of a case that answers may change. A check
// says by its `reads` which of them bear on it; nothing here knows of any check.
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "answers/part.hpp"
#include "code/edition.hpp"
#include "job/case.hpp"

namespace pullproof::answers {

struct Choice {
  Kind kind;
  std::string_view key;  ///< in the part's table: "wire.size"
  bool size;             ///< a size or rating, which `size` works out
  /// What it may be, as TOML, from the smallest or, of words, from the most usual.
  std::vector<std::string> (*values)(const Case& job, const code::Edition& edition, std::size_t index);
};

/// From the one that is decided first to the last.
std::span<const Choice> all_choices();

/// Where a choice of a part stands, for job/edit.hpp: "circuit.0.wire.size".
std::string path_of(const Choice& choice, const Part& part);
/// Whether a check that reads these keys (a list with ", " between) reads this one.
bool reads(std::string_view keys, const Choice& choice);
/// Whether a finding that misses `key` misses this one.
bool is_missing(std::string_view key, const Choice& choice);

}  // namespace pullproof::answers
