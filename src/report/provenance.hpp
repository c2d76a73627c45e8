#pragma once
// Where a report came from: which program, which case, which rules, so that the same can be made again.
#include <string>
#include <string_view>

#include "code/edition.hpp"

namespace pullproof::report {

/// SHA-256 of some bytes, in 64 lower-case hexadecimal digits, as `sha256sum` prints it.
std::string sha256(std::string_view bytes);

/// SHA-256 of everything that an edition says, with what it inherits: its name, its chain, and of each table and rule
/// name, clause, source and every cell. Two editions with the same hash decide alike, wherever they were read from.
std::string rules_sha256(const code::Edition& edition);

}  // namespace pullproof::report
