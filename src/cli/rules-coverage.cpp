// rules coverage: every check, table and rule, what it rests on, and where each edition has it.
#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "engine/check.hpp"
#include "report/coverage.hpp"

namespace pullproof::cli {

int rules_coverage(const Options& options) {
  const Shelf shelf = open_shelf(options);
  const std::string only = options.words.empty() ? std::string{} : options.words[0];
  const Coverage found = coverage_of(shelf.store, only);
  if (!only.empty() && found.checks.empty() && found.entries.empty()) {
    const Coverage all = coverage_of(shelf.store);
    std::vector<std::string_view> names;
    for (const CoveredCheck& c : all.checks) names.push_back(c.id);
    for (const CoveredEntry& e : all.entries) names.push_back(e.name);
    throw CommandError("there is no check, table or rule '" + only + "'", suggestion(only, names));
  }
  switch (options.format) {
    case Format::markdown: put(report::coverage_markdown(found)); break;
    case Format::json: put(report::coverage_json(found, PULLPROOF_VERSION)); break;
    default: put(report::coverage_text(found, page_width(), wants_color(options.color)));
  }
  return status_pass;
}

}  // namespace pullproof::cli
