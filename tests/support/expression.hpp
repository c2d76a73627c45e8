#pragma once
// Works out the printed expression of a formula from the printed values of its inputs.
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace pullproof::test {

/// The value of `text` with these names: numbers, + - * / ^, parentheses and the functions min, max, sqrt, floor,
/// ceil, round, abs, sin, cos, acos, and pi. Empty, with `error` set, for anything else or for a name that is not there.
std::optional<double> evaluate(std::string_view text, const std::map<std::string, double>& names, std::string& error);

}  // namespace pullproof::test
