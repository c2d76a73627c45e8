#pragma once
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace pullproof {

/// The words that an edition's table knows in its first column: "cable-types", "appliances".
using TableWords = std::function<std::vector<std::string>(std::string_view table)>;

/// The JSON Schema (draft 2020-12) of a case, made from the vocabulary that the reader goes by: keys, types, words and
/// units. It cannot tell what only the tables of an edition or other parts of the case decide; `words` gives it
/// examples of the former. TOML dates are texts of the format "date" to it.
std::string case_schema(const TableWords& words);

}  // namespace pullproof
