#pragma once
#include <string>

#include "core/report.hpp"

namespace pullproof::report {

struct TextOptions {
  bool color = false;      ///< ANSI colours, for a terminal that wants them
  bool full = false;       ///< with the working of every finding, and why what does not apply does not
  std::size_t width = 80;  ///< terminal cells
};

/// The report for people at a terminal: what it comes to, what was assumed, what fails and what would do, advice,
/// what is open, what passes, and the cautions.
std::string as_text(const Report& report, const TextOptions& options);

}  // namespace pullproof::report
