#pragma once
// What a person decides when they plan a job, and what it may be: the keys of a case that answers may change. A check
// says by its `reads` which of them bear on it; nothing here knows of any check.
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "code/edition.hpp"
#include "core/report.hpp"
#include "job/case.hpp"

namespace pullproof::answers {

enum class Kind : std::uint8_t { supply, circuit, raceway, cable, box, control };
std::string_view word(Kind kind);

/// A thing of the case: the supply, or one of a list.
struct Part {
  Kind kind = Kind::supply;
  std::size_t index = 0;
  friend bool operator==(const Part&, const Part&) = default;
};

/// Every part of a case: circuits first, a feeder before what it feeds; then what they run in, boxes and control runs.
std::vector<Part> parts_of(const Case& job);
/// "circuit heater", as findings name their subject.
std::string subject_of(const Case& job, const Part& part);
/// The parts that a check of `subject` looks at, itself among them.
std::vector<Part> around(const Case& job, std::string_view subject);

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
