#pragma once
// What a dwelling's service carries with the new load on it.
#include "engine/context.hpp"

namespace pullproof::derive {

/// The current of the service by the method that the case names. The branch circuits of the case count as new
/// loads by the kind of their appliance; `supply.service.load` names everything else.
Traced<Current> service_current(Context& cx, const Supply& supply);

}  // namespace pullproof::derive
