// Installation faults as public correction notices and lists of failed inspections name them. tests/inspection/<name>
// holds two cases of one job: fault.toml must fail in what it expects, under the clause that it names, and in nothing
// else; mended.toml must pass whole.
//
//   # source: James City County VA, frequent violations, item 9        (the public list that names the fault)
//   # expect: cable studs | nail-plate | 300.4(A), 300.4(D)            (SUBJECT | CHECK | CLAUSE | piece of the MESSAGE)
#include <gtest/gtest.h>

#include <sstream>

#include "support/cases.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;

struct Fault {
  std::string subject, check, clause, message;
};

struct Notice {
  bool source = false;
  std::vector<Fault> faults;
};

Notice read_notice(const std::string& text) {
  Notice out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    if (line.starts_with("# source: ")) out.source = line.size() > 20;
    if (!line.starts_with("# expect: ")) continue;
    auto parts = test::parts_of(line.substr(10));
    EXPECT_GE(parts.size(), 3u) << "expect: SUBJECT | CHECK | CLAUSE | MESSAGE in: " << line;
    parts.resize(4);
    out.faults.push_back({parts[0], parts[1], parts[2], parts[3]});
  }
  return out;
}

std::string lines_of(const Report& report) {
  std::string out;
  for (const Finding& f : report.findings)
    if (f.verdict == Verdict::fail || f.verdict == Verdict::needs_input || f.verdict == Verdict::not_covered)
      out += fmt::format("\n  {} | {} | {} | {} | {}", name(f.verdict), f.subject, f.check, f.cite.clause, f.message);
  return out;
}

std::vector<std::string> inspections() {
  std::vector<std::string> out;
  for (const auto& entry : fs::directory_iterator(test::source_dir() / "tests" / "inspection")) out.push_back(entry.path().filename().string());
  std::sort(out.begin(), out.end());
  return out;
}

class Inspection : public testing::TestWithParam<std::string> {};

TEST_P(Inspection, FaultIsCaughtAndNothingElse) {
  const fs::path file = test::source_dir() / "tests" / "inspection" / GetParam() / "fault.toml";
  const std::string text = test::read_text(file);
  const Notice notice = read_notice(text);
  EXPECT_TRUE(notice.source) << "a '# source:' line names the public list";
  ASSERT_FALSE(notice.faults.empty()) << "nothing is expected, so this cannot fail";
  const Report report = test::check_text(text, {}, file.string());
  for (const Fault& want : notice.faults) {
    const auto found = test::findings(report, want.check, want.subject);
    const bool met = std::any_of(found.begin(), found.end(), [&](const Finding* f) {
      return f->verdict == Verdict::fail && f->cite.clause == want.clause && f->message.find(want.message) != std::string_view::npos;
    });
    EXPECT_TRUE(met) << "expected: " << want.subject << " | " << want.check << " | " << want.clause << " | " << want.message << "\nfound:" << lines_of(report);
  }
  EXPECT_EQ(report.count(Verdict::fail), notice.faults.size()) << lines_of(report);
  EXPECT_EQ(report.count(Verdict::needs_input), 0u) << lines_of(report);
  EXPECT_EQ(report.count(Verdict::not_covered), 0u) << lines_of(report);
}

TEST_P(Inspection, MendedJobPasses) {
  const fs::path file = test::source_dir() / "tests" / "inspection" / GetParam() / "mended.toml";
  const Report report = test::check_text(test::read_text(file), {}, file.string());
  EXPECT_EQ(report.outcome(), Outcome::pass) << lines_of(report);
}

TEST(Inspections, AreAtLeastForty) { EXPECT_GE(inspections().size(), 40u); }

INSTANTIATE_TEST_SUITE_P(Notices, Inspection, testing::ValuesIn(inspections()), [](const auto& param_info) {
  std::string name = param_info.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
}  // namespace pullproof
