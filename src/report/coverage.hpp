#pragma once
// What the program knows and where it comes from, as text, Markdown and JSON.
#include <string>

#include "engine/coverage.hpp"
#include "report/text.hpp"

namespace pullproof::report {

/// "us-2017: Table 310.15(B)(16); us-2020, us-2023: Table 310.16; us-2026: not covered"
std::string clauses_text(const Coverage& coverage, const CoveredEntry& entry);

std::string coverage_text(const Coverage& coverage, std::size_t width, bool color);
std::string coverage_markdown(const Coverage& coverage);
/// One object: `format` "pullproof-coverage-1", `version`, `editions`, `checks`, `entries`.
std::string coverage_json(const Coverage& coverage, std::string_view version);

}  // namespace pullproof::report
