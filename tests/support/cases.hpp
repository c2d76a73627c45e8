#pragma once
// Reading and checking cases in tests.
#include <filesystem>
#include <string>
#include <utility>
#include <vector>

#include "core/report.hpp"
#include "engine/run.hpp"

namespace pullproof::test {

/// The text of a file of the source tree. Fails the test when it cannot be read.
std::string read_text(const std::filesystem::path& file);
/// The source tree.
std::filesystem::path source_dir();

/// The cases that the tests of the checks and the examples hold, relative to the source tree, each under its own
/// edition (an empty text) and under every other one that it names in a line "# edition: ...".
std::vector<std::pair<std::string, std::string>> checked_cases();

/// The parts of a line such as "circuit heater | ampacity | 310.14", without the spaces around them.
std::vector<std::string> parts_of(const std::string& line);

/// Reads and checks a case. `edition` overrides the case's. Complaints fail the test.
Report check_text(const std::string& toml, std::string_view edition = {}, const std::string& file = "case.toml");

/// The complaints about a case, rendered, without checking it.
std::string complaints(const std::string& toml, std::string_view edition = "us-2023");

/// The findings of one check about one subject.
std::vector<const Finding*> findings(const Report& report, std::string_view check, std::string_view subject = {});

/// The value of the last step with this symbol behind a finding, NaN when there is none.
double step_value(const Report& report, const Finding& finding, std::string_view symbol);

}  // namespace pullproof::test
