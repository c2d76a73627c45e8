#pragma once
// How deep wiring lies (NFPA 70 Table 300.5).
#include <optional>
#include <string>

#include "derive/laying.hpp"

namespace pullproof::derive {

/// The row of the table of cover for what lies over the run. What nothing is said of is taken as open ground, aloud; a
/// plain driveway is a dwelling's or a street's by the supply, and needs that.
std::size_t burial_location(Context& cx, const Way& w, const code::TableRef& t);

/// The column of the table of cover for a kind of raceway or cable; empty where it is not for burial.
std::string_view burial_column(Context& cx, const Way& w);

/// Why the shallow column for dwelling circuits is not for the circuits of this run; empty when it is.
/// Read from what the case says alone: what it does not say does not make a run shallow.
std::string why_not_shallow(Context& cx, const Way& w);

/// The cover that a run needs.
struct Cover {
  Traced<Length> least;
  Citation cite;
  bool shallow = false;           ///< by the column for dwelling circuits
  bool dwelling_decides = false;  ///< it would be shallower if the case said that it serves a dwelling
  std::string why_not;            ///< why not by that column
};
/// Nothing where the kind is not for burial.
std::optional<Cover> cover_for(Context& cx, const Way& w);

}  // namespace pullproof::derive
