#pragma once
// What `size` found, for people and for programs.
#include <string>

#include "answers/sizing.hpp"
#include "core/report.hpp"
#include "report/text.hpp"

namespace pullproof::report {

/// `done` is the report of the completed case, or of the case as it is where nothing was found.
std::string as_text(const answers::Sizing& sizing, const Report& done, const TextOptions& options);
std::string as_json(const answers::Sizing& sizing, const Report& done, std::string_view version, int exit_status);

}  // namespace pullproof::report
