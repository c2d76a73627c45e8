#pragma once
// Holding the voltage at a load against a limit, and saying what would keep it.
#include <string_view>

#include "derive/drop.hpp"

namespace pullproof::derive {

/// Holds the drop, as a share of the source, against the percentage of `rule`: a failure where the rule binds, else
/// advice. `what` names the drop in the message.
///
/// Either way the message gives the voltage that is left, the usual approximation, and how far this wire reaches
/// within the limit; what fails also says which size would do. A load that cannot be fed fails, binding or not.
/// Where a power factor is not given and the worst one would break the limit that the assumed one keeps, the answer
/// is open: needs input.
Finding& hold_share(Context& cx, const Circuit& c, const DropQuestion& question, std::string_view rule, std::string_view what);

/// Holds the voltage at the load against the lowest one that is allowed there; it always binds. Else as above.
Finding& hold_voltage(Context& cx, const Circuit& c, const DropQuestion& question, const Traced<Voltage>& lowest,
                      const Citation& cite);

}  // namespace pullproof::derive
