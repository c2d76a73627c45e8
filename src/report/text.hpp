#pragma once
#include <string>

#include "core/report.hpp"

namespace pullproof::report {

struct TextOptions {
  bool color = false;  ///< ANSI colours, for a terminal that wants them
  bool full = false;   ///< with the working of every finding
  std::size_t width = 80;
};

/// The report for people at a terminal: assumptions first, cautions last.
std::string as_text(const Report& report, const TextOptions& options);

}  // namespace pullproof::report
