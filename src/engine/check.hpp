#pragma once
// What a check is. One file in src/checks/ defines one; the build finds it by its file name.
#include <cstdint>
#include <span>
#include <string_view>
#include <variant>

#include "engine/context.hpp"
#include "job/case.hpp"

namespace pullproof {

/// A check looks at one kind of thing and is run once for each of them in the case.
using CheckRun = std::variant<void (*)(Context&, const Circuit&), void (*)(Context&, const Raceway&),
                              void (*)(Context&, const Cable&), void (*)(Context&, const Way&), void (*)(Context&, const Control&), void (*)(Context&, const Box&),
                              void (*)(Context&, const Supply&)>;

/// What checks stand under in a list, in the order of a job: from whether it can be checked at all to the meter.
enum class Family : std::uint8_t {
  none, scope, load, conductors, drop, protection, people, grounding, raceways, cables, boxes, circuits, disconnects, places, control, measured
};

struct Check {
  std::string_view id;       ///< kebab-case, the name of its file
  std::string_view title;    ///< what it is about, a few words
  Family family;             ///< what it stands under in lists
  std::string_view about;    ///< a paragraph for `explain`: what it protects against and what it looks at
  std::string_view formula;  ///< the sum it does, in words and symbols; empty when it does none
  std::string_view reads;    ///< case keys, separated by ", "
  std::string_view rules;    ///< tables and rules that it asks, by name, separated by ", "
  CheckRun run;
};

/// All checks there are, by id.
std::span<const Check* const> all_checks();
/// The check called `id`, or null.
const Check* find_check(std::string_view id);

}  // namespace pullproof
