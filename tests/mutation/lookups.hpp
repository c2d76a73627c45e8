#pragma once
// What a check asks of the rule data, noted while it asks. The linker passes every call of the lookups of code/edition.hpp
// from other files through here (--wrap), so that the program itself knows nothing of it.
#include <map>
#include <set>
#include <string>

namespace pullproof::mutation {

struct Asked {
  std::set<std::size_t> rows;        ///< that were found by key or band
  std::set<std::string, std::less<>> columns;  ///< or parameters of a rule
};
/// By the name of a table ("ampacity") or a rule ("rule terminals").
using Lookups = std::map<std::string, Asked, std::less<>>;

/// Notes into `into` from now on; nothing with null.
void note_lookups(Lookups* into);

}  // namespace pullproof::mutation
