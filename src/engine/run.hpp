#pragma once
#include <memory>
#include <span>
#include <string_view>

#include "code/edition.hpp"
#include "core/diagnostic.hpp"
#include "core/report.hpp"
#include "engine/check.hpp"
#include "job/case.hpp"

namespace pullproof {

/// Complains of what the edition's tables do not know: raceway and insulation types, trade sizes, conductor
/// sizes, cable types, appliances. A case with complaints is not to be checked.
void fit_to_edition(const Case& job, const code::Edition& edition, Diagnostics& diagnostics);

/// Runs checks over a case. The report points into both, and keeps them. Never throws for any case that was read
/// without complaint. Thread-safe: the case and the edition are only read.
Report run_checks(std::shared_ptr<const Case> job, const code::Edition& edition,
                  std::span<const Check* const> checks = all_checks());

}  // namespace pullproof
