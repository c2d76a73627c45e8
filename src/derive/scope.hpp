#pragma once
// What has articles of its own that are not in the rule data.
#include "engine/context.hpp"

namespace pullproof::derive {

/// Leaves the check with "not covered", and the article to read, when `text` names something outside of what is
/// checked here: a pool, a generator, a fire alarm.
void stop_outside_scope(Context& cx, std::string_view text);

}  // namespace pullproof::derive
