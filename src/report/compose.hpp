#pragma once
// Makes the document of a report: every section that a permit desk, an inspector and the installer look for, in one
// order. What the case does not say becomes a blank to fill in.
#include <string_view>

#include "code/edition.hpp"
#include "core/report.hpp"
#include "job/case.hpp"
#include "report/document.hpp"

namespace pullproof::report {

/// `report` is that of `job` under `edition`; `program` is the program's name and version. Never throws for a case
/// that was read without complaint: what cannot be worked out is said in its place.
doc::Document compose(const Report& report, const Case& job, const code::Edition& edition, std::string_view program);

}  // namespace pullproof::report
