#pragma once
// What all writers share: which steps stand behind a finding, and how one reads.
#include <string>
#include <vector>

#include "core/report.hpp"

namespace pullproof::report {

/// The steps that a finding rests on, in the order they were made, but none before what it rests on; each once.
std::vector<StepId> steps_behind(const Working& working, const Finding& finding);

/// One step as a line: "I = P / (V * pf) = 4500 W / (240 V * 1) = 18.75 A". With `home`, the title of the edition
/// that the report is to, origins are short: the edition is left out, and so is the case's file.
std::string step_text(const Working& working, const Step& step, std::string_view home = {});

/// The formula of a step with the printed values of its inputs in place of their names.
std::string with_values(const Working& working, const Step& step);

/// Where a step comes from: the citation or the place in the case, empty for neither.
std::string origin_text(const Step& step, std::string_view home = {});

}  // namespace pullproof::report
