#pragma once
// What `compare` found, for people and for programs.
#include <string>

#include "answers/compare.hpp"
#include "report/text.hpp"

namespace pullproof::report {

std::string as_text(const answers::Comparison& comparison, const answers::Side& a, const answers::Side& b, const TextOptions& options);
std::string as_json(const answers::Comparison& comparison, const answers::Side& a, const answers::Side& b, std::string_view version, int exit_status);

}  // namespace pullproof::report
