#pragma once
#include "core/diagnostic.hpp"
#include "job/case.hpp"

namespace pullproof {

/// Resolves the names in a case to what they name. Complains of missing, double and dangling names, of a raceway
/// twice in a path, and of feeders that feed one another in a ring.
void link_names(Case& c, Diagnostics& diagnostics);

/// The line of the case's text that `where` is on.
std::string source_line(const Case& c, const Where& where);

}  // namespace pullproof
