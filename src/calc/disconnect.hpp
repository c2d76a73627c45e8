#pragma once
// Ratings of disconnects and shares of circuits.
#include "core/working.hpp"

namespace pullproof::calc {

inline constexpr auto disconnect_share = formula("rating that the disconnect needs", "Ir", "k * I", {"k", "I"},
    [](double k, Current i) -> Current { return k * i; });
inline constexpr auto most_disconnect_share = formula("rating that is enough for any mix of motors", "Ir", "k * MCA", {"k", "MCA"},
    [](double k, Current marked) -> Current { return k * marked; });
inline constexpr auto switch_ratio = formula("rating that a general-use switch needs", "Ir", "m * I", {"m", "I"},
    [](double m, Current i) -> Current { return m * i; });
inline constexpr auto share_of_rating = formula("most that may be drawn", "Im", "k * In", {"k", "In"},
    [](double k, Current rating) -> Current { return k * rating; });

}  // namespace pullproof::calc
