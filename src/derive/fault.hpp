#pragma once
// Fault current along the way from the supply.
#include "engine/context.hpp"

namespace pullproof::derive {

/// The largest current into a bolted fault at the far end of a circuit, from what is available where it starts: a
/// purely reactive source and cold conductors. Needs `supply.available_fault` and the path with its lengths.
Traced<Current> fault_at_end(Context& cx, const Circuit& c);

/// The same where a circuit starts: at the supply, or at the end of its feeder.
Traced<Current> fault_at_start(Context& cx, const Circuit& c);

}  // namespace pullproof::derive
