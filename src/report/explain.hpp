#pragma once
// What checks are about and what they rest on, for people at a terminal.
#include <optional>
#include <string>
#include <vector>

#include "code/edition.hpp"
#include "engine/check.hpp"
#include "job/key-list.hpp"

namespace pullproof::report {

/// All checks, by family.
std::string checks_text(std::size_t width, bool color);
/// One check in full: what it asks, its sum, the keys that it reads, its clauses in each edition, what it rests on in
/// `edition`, and what changes between editions.
std::string check_text(const Check& check, const code::Edition& edition, std::size_t width, bool color);

/// What a check reads by a name such as "circuit.wire" or "breaker.terminals": a whole table of a case, or a key.
struct ReadKey {
  std::string name;               ///< in full: "circuit.breaker.terminals"
  const KeyTable* table = nullptr;
  const Key* key = nullptr;       ///< null for a whole table
};
/// Nothing where a case has no such key.
std::optional<ReadKey> key_read(const std::vector<KeyTable>& all, std::string_view name);

std::string_view title(Family family);

}  // namespace pullproof::report
