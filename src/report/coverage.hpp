#pragma once
// What the program knows and where it comes from, as text, Markdown and JSON.
#include <string>

#include "engine/coverage.hpp"
#include "report/text.hpp"

namespace pullproof::report {

std::string coverage_text(const Coverage& coverage, std::size_t width, bool color);
std::string coverage_markdown(const Coverage& coverage);
/// One object: `format` "pullproof-coverage-1", `version`, `editions`, `checks`, `entries`.
std::string coverage_json(const Coverage& coverage, std::string_view version);

}  // namespace pullproof::report
