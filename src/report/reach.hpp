#pragma once
// What `reach` found, for people and for programs.
#include <string>

#include "answers/reach.hpp"
#include "core/report.hpp"
#include "report/text.hpp"

namespace pullproof::report {

/// `now` is the report of the case as it is.
std::string as_text(const answers::Reach& reach, const Report& now, const TextOptions& options);
std::string as_json(const answers::Reach& reach, const Report& now, std::string_view version, int exit_status);

}  // namespace pullproof::report
