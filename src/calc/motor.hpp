#pragma once
// Motors and compressors (NFPA 70 Articles 430 and 440).
#include <algorithm>

#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto motor_raised = formula("current of the largest motor raised", "Im", "k * I1", {"k", "I1"},
    [](double k, Current largest) -> Current { return k * largest; });
inline constexpr auto currents_added = formula("currents added", "Is", "Ia + Ib", {"Ia", "Ib"},
    [](Current a, Current b) -> Current { return a + b; });
inline constexpr auto greater_current = formula("greater of the two currents", "I1", "max(Ia, Ib)", {"Ia", "Ib"},
    [](Current a, Current b) -> Current { return std::max(a, b); });
inline constexpr auto synchronous_current = formula("table current of the synchronous motor", "I1", "k * Iu", {"k", "Iu"},
    [](double k, Current unity) -> Current { return k * unity; });
inline constexpr auto device_share = formula("most for the largest motor", "Id", "k * I1", {"k", "I1"},
    [](double k, Current largest) -> Current { return k * largest; });
inline constexpr auto device_with_rest = formula("most for the device", "Id", "Im + Ir", {"Im", "Ir"},
    [](Current most, Current rest) -> Current { return most + rest; });
inline constexpr auto feeder_with_largest = formula("all currents, the largest motor raised", "If", "I + (Im - I1)", {"I", "Im", "I1"},
    [](Current all, Current raised, Current running) -> Current { return all + (raised - running); });
inline constexpr auto locked_small = formula("locked-rotor current of a small motor", "Il", "k * I1", {"k", "I1"},
    [](double k, Current running) -> Current { return k * running; });
inline constexpr auto overload_limit = formula("most for the overload device", "Io", "k * In", {"k", "In"},
    [](double k, Current nameplate) -> Current { return k * nameplate; });

}  // namespace pullproof::calc
