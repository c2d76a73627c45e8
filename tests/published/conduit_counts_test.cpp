// Every printed conduit count in conduit-counts.csv, whose last column says where it was read, against ours.
#include <gtest/gtest.h>

#include <map>
#include <sstream>

#include "code/edition.hpp"
#include "derive/fill.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

struct Printed {
  std::string raceway, insulation, size, trade_size, source;
  int count = 0;
  std::string label() const { return raceway + " " + trade_size + " " + size + " " + insulation; }
};

std::vector<Printed> printed_counts() {
  std::vector<Printed> out;
  std::istringstream in(test::read_text(test::source_dir() / "tests/published/conduit-counts.csv"));
  std::string line;
  std::getline(in, line);  // the head
  while (std::getline(in, line)) {
    std::istringstream fields(line);
    Printed p;
    std::string count;
    std::getline(fields, p.raceway, ',');
    std::getline(fields, p.insulation, ',');
    std::getline(fields, p.size, ',');
    std::getline(fields, p.trade_size, ',');
    std::getline(fields, count, ',');
    std::getline(fields, p.source);
    p.count = std::stoi(count);
    out.push_back(p);
  }
  return out;
}

std::optional<int> ours(const code::Edition& edition, const Printed& p) {
  static const std::map<std::string, std::string> raceways{{"PVC40_HDPE", "PVC-40"}};
  static const std::map<std::string, std::string> groups{{"RHH", "RHW"}, {"RHH*", "RHW*"}};
  const auto named = [](const auto& map, const std::string& name) { return map.contains(name) ? map.at(name) : name; };
  const bool kcmil = p.size.size() >= 3 && p.size.find('/') == std::string::npos;
  return derive::count_that_fits(edition, named(raceways, p.raceway), p.trade_size, named(groups, p.insulation),
                                 p.size + (kcmil ? " kcmil" : " AWG"));
}

/// Printed counts that are believed wrong: ours, and why.
struct Misprint {
  int ours;
  const char* why;
};
const std::map<std::string, Misprint>& misprints() {
  static const std::map<std::string, Misprint> all{
      {"EMT 3 12 THHN", {266, "a typing error of a distributor chart (226)"}},
      {"EMT 1-1/2 3/0 THHN", {3, "a contractor's page prints 3; the chart misses the 0.8 rule"}},
      {"EMT 1-1/2 4/0 THHN", {2, "the same chart, the same rule"}},
      {"LFMC 2 14 THHN", {134, "printed count from memory, perhaps of an older print: open"}},
      {"LFMC 2-1/2 12 THHN", {147, "printed count from memory, perhaps of an older print: open"}},
  };
  return all;
}

TEST(PublishedConduitCounts, EveryOneIsOurs) {
  const auto edition = code::Edition::find(code::built_in(), "us-2023");
  ASSERT_TRUE(edition);
  std::size_t compared = 0, met = 0;
  for (const Printed& p : printed_counts()) {
    const auto n = ours(*edition, p);
    ASSERT_TRUE(n) << p.label();
    ++compared;
    const auto wrong = misprints().find(p.label());
    if (wrong != misprints().end() && p.count != wrong->second.ours) {
      ++met;
      EXPECT_EQ(*n, wrong->second.ours) << p.label() << ": " << wrong->second.why;
    } else {
      EXPECT_EQ(*n, p.count) << p.label() << " by " << p.source;
    }
  }
  EXPECT_GT(compared, 1000u);
  EXPECT_EQ(met, misprints().size()) << "a misprint that is none";
}

}  // namespace
}  // namespace pullproof
