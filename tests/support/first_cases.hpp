#pragma once
// What the first case of each appliance says, as a page to be read by a person who knows the trade.
#include <string>
#include <string_view>

#include "engine/load.hpp"

namespace pullproof::test {

/// For every appliance of the edition in `shelf.store`: the nameplate, the place and the connection that `new` begins with,
/// and the wiring and the control run that it comes to, read back from the case that is written; and what the table of
/// appliances notes. A case that cannot be read says so.
std::string first_cases(const Shelf& shelf, std::string_view edition);
/// The same for one of them.
std::string first_case(const Shelf& shelf, std::string_view edition, std::string_view appliance);
/// Where each wiring method that is proposed is taken to run.
std::string first_ways(const Shelf& shelf, std::string_view edition);

}  // namespace pullproof::test
