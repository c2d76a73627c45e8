#pragma once
// Cases to be sized and changed in tests.
#include <string>

#include "answers/sizing.hpp"

namespace pullproof::test {

/// A case that can be read, with the edition that it names. Throws std::runtime_error with the complaints when it cannot.
answers::Draft draft_of(const std::string& text, const std::string& file = "case.toml");

/// What was found for a size, without quotes; "conflict" or "not open" where nothing was.
std::string size_of(const answers::Sizing& s, std::string_view path);

}  // namespace pullproof::test
