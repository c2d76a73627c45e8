#pragma once
#include <memory>
#include <string>

#include "core/diagnostic.hpp"
#include "job/case.hpp"

namespace pullproof {

/// Largest case file that is read.
inline constexpr std::size_t largest_case = 1024 * 1024;

/// Reads a case from TOML text; `file` is its name for messages. Every complaint about the text is added to
/// `diagnostics`, located; when there is any, the case returned is null. Names are linked: stretches point at
/// their raceways and cables, circuits at their feeders. Never throws for any input.
std::shared_ptr<const Case> read_case(std::string file, std::string text, Diagnostics& diagnostics);

/// As read_case, but gives what could be read in spite of complaints, so that more of them can be looked for.
/// Such a case is not to be checked.
std::shared_ptr<const Case> read_case_partly(std::string file, std::string text, Diagnostics& diagnostics);

}  // namespace pullproof
