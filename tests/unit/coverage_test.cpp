// The list of what is covered, against the rule data and the checks themselves.
#include "engine/coverage.hpp"

#include <gtest/gtest.h>

#include <sstream>

#include "core/text.hpp"
#include "engine/check.hpp"
#include "report/coverage.hpp"
#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

const Coverage& all() {
  static const Coverage coverage = coverage_of(code::built_in());
  return coverage;
}

std::size_t place_of(std::string_view id) {
  for (std::size_t i = 0; i < all().editions.size(); ++i)
    if (all().editions[i].id() == id) return i;
  ADD_FAILURE() << id;
  return 0;
}

const CoveredEntry& entry(std::string_view name, bool table) {
  static const CoveredEntry none{{}, {}, false, std::vector<EntryIn>(8), {}};
  for (const CoveredEntry& e : all().entries)
    if (e.name == name && e.table == table) return e;
  ADD_FAILURE() << name;
  return none;
}

TEST(Coverage, SaysWhatNoCheckAsks) {
  std::size_t unasked = 0;
  for (const CoveredEntry& e : all().entries) unasked += e.asked_by.empty();
  ASSERT_GT(unasked, 0u);
  const auto count = [](const std::string& text, std::string_view what) {
    std::size_t n = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++n;
    return n;
  };
  EXPECT_EQ(count(report::coverage_markdown(all()), "| no check |"), unasked);
  EXPECT_EQ(count(report::coverage_text(all(), 80, false), "\n      asked by no check\n"), unasked);
}

TEST(Coverage, HasTheBooksAndNoAmendment) {
  std::vector<std::string_view> ids;
  for (const code::Edition& e : all().editions) ids.push_back(e.id());
  EXPECT_EQ(ids, (std::vector<std::string_view>{"us-2017", "us-2020", "us-2023", "us-2026"}));
}

TEST(Coverage, LeavesNoCheckTableOrRuleOut) {
  EXPECT_EQ(all().checks.size(), all_checks().size());
  std::size_t tables = 0, rules = 0;
  for (const CoveredEntry& e : all().entries) ++(e.table ? tables : rules);
  for (const code::Edition& e : all().editions) {
    EXPECT_LE(e.table_count(), tables);
    EXPECT_LE(e.rule_count(), rules);
    for (std::size_t i = 0; i < e.table_count(); ++i) EXPECT_EQ(entry(e.table_at(i).name(), true).editions[place_of(e.id())].clause, e.table_at(i).clause());
    for (std::size_t i = 0; i < e.rule_count(); ++i) EXPECT_EQ(entry(e.rule_at(i).name(), false).editions[place_of(e.id())].clause, e.rule_at(i).clause());
  }
}

TEST(Coverage, SaysWhereEachEditionHasIt) {
  // The ampacity table was renumbered in 2020 (2021 IRC E3705.1); its figures stayed.
  const CoveredEntry& ampacity = entry("ampacity", true);
  EXPECT_EQ(ampacity.editions[place_of("us-2017")].clause, "Table 310.15(B)(16)");
  EXPECT_EQ(ampacity.editions[place_of("us-2020")].clause, "Table 310.16");
  EXPECT_FALSE(ampacity.editions[place_of("us-2020")].changed);
  // Outdoor outlets of dwellings were first protected in 2020.
  const CoveredEntry& outdoor = entry("gfci-outdoor-outlet", false);
  EXPECT_EQ(outdoor.editions[place_of("us-2020")].known, Known::covered);
  EXPECT_TRUE(outdoor.editions[place_of("us-2023")].changed);
  EXPECT_EQ(entry("burial", true).editions[place_of("us-2026")].known, Known::not_covered);
}

TEST(Coverage, NamesWhoAsks) {
  const auto& asked_by = entry("ampacity", true).asked_by;
  EXPECT_NE(std::find(asked_by.begin(), asked_by.end(), "ampacity"), asked_by.end());
  const Coverage one = coverage_of(code::built_in(), "bends");
  ASSERT_EQ(one.checks.size(), 1u);
  EXPECT_EQ(one.checks[0].id, "bends");
  EXPECT_FALSE(one.entries.empty());
  EXPECT_TRUE(coverage_of(code::built_in(), "no-such-thing").entries.empty());
}

TEST(Coverage, FitsEightyCells) {
  std::istringstream in(report::coverage_text(all(), 80, false));
  for (std::string line; std::getline(in, line);) EXPECT_LE(display_width(line), 80u) << line;
}

TEST(Coverage, MarkdownTablesHaveEvenRows) {
  std::istringstream in(report::coverage_markdown(all()));
  std::size_t columns = 0, rows = 0;
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with("|")) {
      columns = 0;
      continue;
    }
    std::size_t n = 0;
    for (std::size_t i = 0; i < line.size(); ++i) n += line[i] == '|' && (i == 0 || line[i - 1] != '\\') ? 1 : 0;
    if (columns == 0) columns = n;
    EXPECT_EQ(n, columns) << line;
    ++rows;
  }
  EXPECT_EQ(rows, all().checks.size() + all().entries.size() + 4);
}

TEST(Coverage, JsonIsReadByAnotherProgram) {
  const test::Scratch scratch;
  const auto r = test::run({"rules", "coverage", "--format", "json"});
  EXPECT_EQ(r.status, 0);
  const std::string json = scratch.file("coverage.json", r.out);
  const std::string script = scratch.file("count.py",
                                          "import json, sys\nd = json.load(open(sys.argv[1]))\n"
                                          "assert d['format'] == 'pullproof-coverage-1'\n"
                                          "assert all(len(e['editions']) == len(d['editions']) for e in d['checks'] + d['entries'])\n"
                                          "print(len(d['checks']), len(d['entries']))\n");
  std::string said;
  FILE* out = ::popen(fmt::format("/usr/bin/python3 '{}' '{}' 2>&1", script, json).c_str(), "r");
  ASSERT_NE(out, nullptr);
  for (int c = std::fgetc(out); c != EOF; c = std::fgetc(out)) said += static_cast<char>(c);
  EXPECT_EQ(::pclose(out), 0) << said;
  EXPECT_EQ(said, fmt::format("{} {}\n", all().checks.size(), all().entries.size()));
}

TEST(Coverage, UnknownNameIsRefused) {
  const auto r = test::run({"rules", "coverage", "ampacitee"});
  EXPECT_EQ(r.status, 2);
  EXPECT_NE(r.err.find("did you mean 'ampacity'?"), std::string::npos) << r.err;
}

}  // namespace
}  // namespace pullproof
