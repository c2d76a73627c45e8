#pragma once
// The figures of a report.
#include <string>
#include <string_view>
#include <vector>

#include "code/edition.hpp"
#include "core/report.hpp"
#include "draw/drawing.hpp"
#include "job/case.hpp"

namespace pullproof::draw {

/// A figure that is left out, and why.
struct Missing {
  std::string what;  ///< "cross-section of raceway whip"
  std::string why;   ///< "wire.size is not given: ..."
};

struct Figures {
  std::vector<Drawing> drawings;
  std::vector<Missing> missing;
};

// Each makes its figures of a report on `job` under `edition`. The numbers come from the report's steps or from the
// functions that the checks use, as reports print them. None throws for any case that was read without complaint.

/// From the supply through device, raceways, cables, boxes and disconnect to the appliance, with its control runs: one
/// drawing for each branch circuit, and for each control run that serves none. What fails is marked.
Figures one_lines(const Report& report, const Case& job, const code::Edition& edition);

/// Each raceway to scale, with what lies in it, and the area in use against the area that may be filled.
Figures cross_sections(const Report& report, const Case& job, const code::Edition& edition);

/// Volts along each branch circuit, from the supply on, and along each control run, with what the limits leave.
Figures volts_along(const Report& report, const Case& job, const code::Edition& edition);

/// How much of its limit each check takes, the tightest first; of many, in several drawings of one printed page's
/// height at most.
Figures margins(const Report& report);

}  // namespace pullproof::draw
