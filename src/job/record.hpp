#pragma once
// A case as a line of a stream, for engines that pipe lines.
#include <string>
#include <string_view>

#include "core/diagnostic.hpp"

namespace pullproof {

/// A case inside a line.
struct CaseRecord {
  std::string name;  ///< what reports call it: its own name, or "line 7"
  std::string text;  ///< TOML
};

/// Reads a line of JSON: either a text that is the case in TOML, or {"case": "...", "name": "..."} with the name left
/// out or not. Complains, located in the line, of anything else: the file of the complaint is `stream`, its line
/// `number`. Never throws for any line.
CaseRecord read_record(std::string_view line, std::size_t number, std::string_view stream, Diagnostics& diagnostics);

}  // namespace pullproof
