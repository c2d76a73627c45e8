// Every check has a folder of its name here with cases for the situations it can be in. A case says in comments
// what is expected and where that comes from:
//
//   # source: Table 310.16 of NFPA 70-2023 (2021 IRC E3705.1); 20 A * 0.91 by hand
//   # expect: circuit heater | pass | usable ampacity in 'shed wall' 20 A covers load current 16 A
//   # expect: none                      (the check has nothing to look at in this case)
//   # edition: us-2017                  (checks under this one too; may be repeated)
//
// The third part is a piece of the message and may be left out. A verdict like "no fail" says that nothing has it. `at-the-limit.toml` must have a passing finding that
// uses its limit up exactly.
#include <gtest/gtest.h>

#include <cmath>
#include <sstream>

#include "support/cases.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;

struct Expectation {
  std::string subject, verdict, message;
  bool absent = false;
};

struct Situation {
  std::vector<Expectation> expected;
  std::vector<std::string> editions;
  bool none = false, source = false;
};

std::string trim(std::string s) {
  s.erase(0, std::min(s.find_first_not_of(' '), s.size()));
  s.erase(s.find_last_not_of(' ') + 1);
  return s;
}

Situation read_situation(const std::string& text) {
  Situation out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("# source:")) out.source = line.size() > 12;
    if (line.starts_with("# edition:")) out.editions.push_back(trim(line.substr(10)));
    if (!line.starts_with("# expect:")) continue;
    const std::string rest = trim(line.substr(9));
    if (rest == "none") {
      out.none = true;
      continue;
    }
    Expectation e;
    const auto a = rest.find(" | "), b = a == std::string::npos ? a : rest.find(" | ", a + 3);
    EXPECT_NE(a, std::string::npos) << "expect: SUBJECT | VERDICT | MESSAGE in: " << line;
    if (a == std::string::npos) continue;
    e.subject = trim(rest.substr(0, a));
    e.verdict = trim(rest.substr(a + 3, b == std::string::npos ? b : b - a - 3));
    if (b != std::string::npos) e.message = trim(rest.substr(b + 3));
    e.absent = e.verdict.starts_with("no ");
    if (e.absent) e.verdict = e.verdict.substr(3);
    out.expected.push_back(e);
  }
  return out;
}

class CheckCases : public testing::TestWithParam<const Check*> {};

void run_situation(const Check& check, const fs::path& file) {
  SCOPED_TRACE(file.lexically_relative(test::source_dir()).string());
  const std::string text = test::read_text(file);
  const Situation s = read_situation(text);
  EXPECT_TRUE(s.source) << "a '# source:' line says where the expected numbers come from";
  EXPECT_TRUE(s.none || !s.expected.empty()) << "nothing is expected, so this cannot fail";
  std::vector<std::string> editions = s.editions;
  editions.emplace_back();
  for (const std::string& edition : editions) {
    SCOPED_TRACE(edition.empty() ? "the case's edition" : edition);
    const Report report = test::check_text(text, edition);
    const auto found = test::findings(report, check.id);
    EXPECT_TRUE(!s.none || found.empty());
    bool at_limit = false;
    for (const Expectation& e : s.expected) {
      std::string got;
      bool met = false;
      for (const Finding* f : found) {
        got += fmt::format("\n  {} | {} | {}", f->subject, name(f->verdict), f->message);
        const bool fits = f->subject == e.subject && name(f->verdict) == e.verdict && f->message.find(e.message) != std::string_view::npos;
        met = met || fits;
        at_limit = at_limit || (fits && f->verdict == Verdict::pass && f->used && std::abs(*f->used - 1) < 1e-9);
      }
      EXPECT_TRUE(met != e.absent) << "expected: " << e.subject << " | " << e.verdict << " | " << e.message << "\nfound:" << got;
    }
    EXPECT_TRUE(file.stem() != "at-the-limit" || at_limit) << "no expected pass uses its limit up exactly";
  }
}

TEST_P(CheckCases, AllSituations) {
  const Check& check = *GetParam();
  const fs::path folder = test::source_dir() / "tests" / "checks" / std::string(check.id);
  ASSERT_TRUE(fs::is_directory(folder)) << "a check has a folder of cases: " << folder;
  std::vector<std::string> needed{"pass", "fail", "not-applicable", "missing-input"};
  if (!check.formula.empty()) needed.emplace_back("at-the-limit");
  for (const std::string& situation : needed)
    EXPECT_TRUE(fs::exists(folder / (situation + ".toml"))) << check.id << " has no case " << situation << ".toml";
  std::vector<fs::path> files;
  for (const auto& entry : fs::directory_iterator(folder))
    if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  for (const fs::path& file : files) run_situation(check, file);
}

TEST_P(CheckCases, SituationsAreWhatTheirNamesSay) {
  const Check& check = *GetParam();
  const fs::path folder = test::source_dir() / "tests" / "checks" / std::string(check.id);
  // Checks of good practice advise where others fail; what is done last, such as labels, is advised where others ask,
  // in words that say that nothing is said of it.
  const std::map<std::string, std::vector<std::string>> verdicts{{"pass", {"pass"}},
                                                                 {"at-the-limit", {"pass"}},
                                                                 {"fail", {"fail", "advice", "not covered"}},
                                                                 {"not-applicable", {"not applicable"}},
                                                                 {"missing-input", {"needs input"}}};
  // A check that needs nothing from the case has a missing-input case that expects nothing.
  for (const auto& entry : verdicts) {
    const std::string& stem = entry.first;
    const std::vector<std::string>& allowed = entry.second;
    const fs::path file = folder / (stem + ".toml");
    if (!fs::exists(file)) continue;
    const Situation s = read_situation(test::read_text(file));
    if ((stem == "not-applicable" || stem == "missing-input") && s.none) continue;
    const bool fits = std::any_of(s.expected.begin(), s.expected.end(), [&](const Expectation& e) {
      const bool advised = stem == "missing-input" && e.verdict == "advice" && e.message.find("nothing ") != std::string::npos;
      return advised || std::find(allowed.begin(), allowed.end(), e.verdict) != allowed.end();
    });
    EXPECT_TRUE(fits) << file << " expects no " << allowed.front();
  }
}

TEST_P(CheckCases, SaysWhatItIs) {
  const Check& check = *GetParam();
  EXPECT_FALSE(check.title.empty());
  EXPECT_GT(check.about.size(), 80u) << "a paragraph for explain";
  EXPECT_FALSE(check.reads.empty());
  EXPECT_FALSE(check.rules.empty());
}

TEST_P(CheckCases, ItsRuleDataExists) {
  const Check& check = *GetParam();
  const auto edition = code::Edition::find(code::built_in(), "us-2023");
  ASSERT_TRUE(edition);
  std::istringstream in{std::string(check.rules)};
  for (std::string name; std::getline(in, name, ',');) {
    name = trim(name);
    EXPECT_TRUE(edition->table(name) || edition->rule(name)) << check.id << " names '" << name << "', which is no table or rule";
  }
}

INSTANTIATE_TEST_SUITE_P(Checks, CheckCases, testing::ValuesIn(all_checks().begin(), all_checks().end()),
                         [](const auto& param_info) {
                           std::string name(param_info.param->id);
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

}  // namespace
}  // namespace pullproof
