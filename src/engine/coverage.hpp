#pragma once
// What the program knows, told from the rule data and the checks alone: every check, every table and rule, what each
// rests on, and where each code book has it.
#include <string>
#include <string_view>
#include <vector>

#include "code/edition.hpp"

namespace pullproof {

enum class Known : std::uint8_t {
  covered,     ///< somebody has seen it in the edition
  not_covered, ///< nobody has: the answer is "not covered"
  no_rule,     ///< the edition has no such rule
};

/// One table or rule in one edition.
struct EntryIn {
  Known known = Known::no_rule;
  std::string_view clause, source;
  Basis basis = Basis::published, clause_basis = Basis::published;
  bool changed = false;  ///< says something else than in the edition before it
};

struct CoveredEntry {
  std::string_view name, title;  ///< the title is that of the last edition that has it
  bool table = false;
  std::vector<EntryIn> editions;             ///< as Coverage::editions
  std::vector<std::string_view> asked_by;    ///< ids of checks
};

/// One check in one edition: what it asks that is not covered there. A check for which an edition has no rule has
/// nothing to ask.
struct CheckIn {
  std::size_t asked = 0;
  std::vector<std::string_view> not_covered;
};

struct CoveredCheck {
  std::string_view id, title;
  std::vector<std::string_view> rules;
  std::vector<CheckIn> editions;
};

struct Coverage {
  std::vector<code::Edition> editions;  ///< the code books, oldest first
  std::vector<CoveredCheck> checks;     ///< by id
  std::vector<CoveredEntry> entries;    ///< by name, a table before a rule of the same name
};

/// All of it, or what concerns `only`: a check and what it asks, or a table or rule and who asks it. Empty lists when
/// there is nothing of that name.
Coverage coverage_of(const std::shared_ptr<const code::Store>& store, std::string_view only = {});

}  // namespace pullproof
