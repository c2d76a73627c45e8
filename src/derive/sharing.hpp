#pragma once
// Circuits that feed more than one thing.
#include "derive/outlet.hpp"

namespace pullproof::derive {

/// Whether other loads are on the circuit: as the case lists them or says. Nothing listed and nothing said: not.
bool shared(Context& cx, const Circuit& c);

/// Whether the load is fastened in place: hard-wired, or as given. Needs it for what is plugged in.
bool fastened(Context& cx, const Circuit& c);

/// Receptacles on the circuit, a duplex counted as two; nothing where that is not said.
std::optional<double> receptacle_count(const Circuit& c);

/// Whether a rule's list of ratings ("15 A") has this one.
bool rating_listed(const Context& cx, std::string_view rule, std::string_view key, Current rating);

/// Which of the other loads on a circuit.
enum class Which : std::uint8_t { all, motors, no_motors };
/// Their sum; nothing when there are none. Needs the current of each. What runs three hours or more is raised by the
/// percentage of the rule `raised_by`, where one is named; that which does not say is taken not to, aloud.
std::optional<Traced<Current>> other_loads(Context& cx, const Circuit& c, Which which, std::string_view raised_by = {});
/// The current of one of them, as a step.
Traced<Current> share_current(Context& cx, const Share& s);

}  // namespace pullproof::derive
