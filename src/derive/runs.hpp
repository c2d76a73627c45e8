#pragma once
// What is found once for all runs of a case: who shares a raceway, and which runs start from one source.
#include <map>
#include <vector>

#include "engine/context.hpp"

namespace pullproof::derive {

/// Who has conductors in one raceway, in the order of the case.
struct RacewayUsers {
  std::vector<const Circuit*> circuits;
  std::vector<const Control*> runs[4];    ///< by class, 1 to 3; 0 where the class is not known
  std::vector<std::string_view> power;      ///< types of other conductors that are no control cable, each once
  const Other* untold = nullptr;            ///< the first of the others whose type is not given
};
const RacewayUsers& users_of(const Context& cx, const Raceway& r);

/// The runs that start from the same source as this one, itself among them, in the order of the case. A source without a
/// name feeds its own run alone.
const std::vector<const Control*>& runs_of_source(const Context& cx, const Control& c);

inline constexpr std::size_t most_names = 4;

/// "circuit a", "circuits a and b", "circuits a, b, c and 7 others": what follows the noun is bounded however many there are.
std::string_view listed_names(Context& cx, std::string_view noun, const std::vector<std::string_view>& first, std::size_t count);

/// As above, of things with a name; `but`, where it is among them, is left out.
template <class T>
std::string_view listed_names(Context& cx, std::string_view noun, const std::vector<const T*>& all, const T* but = nullptr) {
  std::vector<std::string_view> first;
  for (const T* one : all) {
    if (one != but) first.push_back(*one->name);
    if (first.size() > most_names) break;
  }
  return listed_names(cx, noun, first, all.size() - (but != nullptr ? 1u : 0u));
}

}  // namespace pullproof::derive
