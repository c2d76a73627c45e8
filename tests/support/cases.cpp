#include "support/cases.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>
#include <sstream>

#include "code/edition.hpp"
#include "job/read.hpp"
#include "report/steps.hpp"

namespace pullproof::test {

std::string read_text(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  EXPECT_TRUE(in) << file;
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::filesystem::path source_dir() { return PULLPROOF_SOURCE_DIR; }

std::vector<std::pair<std::string, std::string>> checked_cases() {
  std::vector<std::pair<std::string, std::string>> out;
  for (const char* folder : {"cases", "tests/checks"})
    for (const auto& entry : std::filesystem::recursive_directory_iterator(source_dir() / folder)) {
      if (entry.path().extension() != ".toml") continue;
      const std::string file = entry.path().lexically_relative(source_dir()).generic_string();
      out.emplace_back(file, "");
      std::istringstream in(read_text(entry.path()));
      const std::string_view mark = "# edition: ";
      for (std::string line; std::getline(in, line);)
        if (line.starts_with(mark)) out.emplace_back(file, line.substr(mark.size()));
    }
  std::sort(out.begin(), out.end());
  return out;
}

namespace {
std::shared_ptr<const Case> read_and_fit(const std::string& toml, std::string_view edition_id, const std::string& file,
                                         std::optional<code::Edition>& edition, Diagnostics& diagnostics) {
  auto job = read_case(file, toml, diagnostics);
  if (!job) return job;
  edition = code::Edition::find(code::built_in(), edition_id.empty() ? *job->edition : edition_id);
  EXPECT_TRUE(edition) << "no edition " << (edition_id.empty() ? *job->edition : edition_id);
  if (edition) fit_to_edition(*job, *edition, diagnostics);
  return job;
}
}  // namespace

std::vector<std::string> parts_of(const std::string& line) {
  std::vector<std::string> out;
  std::istringstream in(line);
  for (std::string part; std::getline(in, part, '|');) {
    part.erase(0, std::min(part.find_first_not_of(' '), part.size()));
    part.erase(part.find_last_not_of(' ') + 1);
    out.push_back(std::move(part));
  }
  return out;
}

Report check_text(const std::string& toml, std::string_view edition_id, const std::string& file) {
  Diagnostics diagnostics;
  std::optional<code::Edition> edition;
  const auto job = read_and_fit(toml, edition_id, file, edition, diagnostics);
  for (const Diagnostic& d : diagnostics.sorted()) ADD_FAILURE() << render(d);
  if (!job || !edition) return {};
  return run_checks(job, *edition);
}

std::string complaints(const std::string& toml, std::string_view edition_id) {
  Diagnostics diagnostics;
  std::optional<code::Edition> edition;
  read_and_fit(toml, edition_id, "case.toml", edition, diagnostics);
  std::string out;
  for (const Diagnostic& d : diagnostics.sorted()) out += render(d);
  return out;
}

std::vector<const Finding*> findings(const Report& report, std::string_view check, std::string_view subject) {
  std::vector<const Finding*> out;
  for (const Finding& f : report.findings)
    if (f.check == check && (subject.empty() || f.subject == subject)) out.push_back(&f);
  return out;
}

double step_value(const Report& report, const Finding& finding, std::string_view symbol) {
  const Working& w = report.sheets[finding.sheet].working;
  double value = std::nan("");
  for (const StepId id : report::steps_behind(w, finding))
    if (w.steps()[id].symbol == symbol) value = w.steps()[id].value;
  return value;
}

}  // namespace pullproof::test
