// Looking things up: rows by what the trade calls them, in text and as JSON; and what checks rest on.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>

#include "answers/look-up.hpp"
#include "engine/check.hpp"
#include "report/explain.hpp"
#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

using answers::Asked;
using testing::HasSubstr;

const code::Edition& edition() {
  static const auto e = code::Edition::find(code::built_in(), "us-2023");
  return *e;
}

/// What one column says of the only row that is found: "65", or the complaint.
std::string found(std::string_view table, const std::vector<Asked>& asked, std::string_view column) {
  const auto t = edition().table(table);
  if (!t) return "no such table";
  const auto f = answers::look_up(edition(), *t, asked);
  if (!f.error.empty()) return f.error;
  if (f.rows.size() != 1) return fmt::format("{} rows", f.rows.size());
  const std::size_t c = t->column(column);
  if (std::find(f.columns.begin(), f.columns.end(), c) == f.columns.end()) return "no such column";
  const auto cell = t->cell(f.rows.front(), c);
  return cell.number() ? fmt::format("{}", *cell.number()) : std::string(cell.text());
}

TEST(LookUp, FindsARowByWhatTheTradeCallsIt) {
  // 2021 IRC Table E3705.1: 6 AWG copper 55, 65, 75 A; 3/0 aluminum at 75 °C 155 A.
  for (const char* six : {"6", "6 AWG", "#6", "6 awg"}) EXPECT_EQ(found("ampacity", {{"size", six}, {"material", "copper"}}, "cu-75"), "65") << six;
  EXPECT_EQ(found("ampacity", {{"size", "3/0"}, {"material", "AL"}, {"temperature", "75 °C"}}, "al-75"), "155");
  EXPECT_EQ(found("ampacity", {{"size", "250"}, {"material", "copper"}}, "cu-75"), "255");
  EXPECT_EQ(found("ampacity", {{"size", "6"}, {"material", "copper"}}, "al-75"), "no such column");
  EXPECT_EQ(found("ampacity", {{"size", "6"}, {"temperature", "60"}}, "cu-75"), "no such column");
  // 2018 IRC Table E3904.6(1) rests on 0.533 in² for a 3/4 EMT; THWN-2 is of THHN's dimensions: 12 AWG 0.0133 in².
  for (const char* size : {"3/4", "3/4 in", "3/4\"", "metric 21"}) EXPECT_EQ(found("raceway-dimensions", {{"type", "emt"}, {"size", size}}, "area"), "0.533") << size;
  EXPECT_EQ(found("conductor-dimensions", {{"type", "THWN-2"}, {"size", "12"}}, "area"), "0.0133");
  EXPECT_EQ(found("motor-single-phase", {{"hp", "1/2"}, {"voltage", "230"}}, "v-230"), "4.9");
}

TEST(LookUp, SearchesBandsWithAValue) {
  // 2021 IRC Table E3705.2: 105 °F is in the band to 113 °F (45 °C), 0.82 at 75 °C; 104 °F (40 °C) in the one before, 0.88.
  EXPECT_EQ(found("ambient-correction", {{"ambient", "105 °F"}}, "f-75"), "0.82");
  EXPECT_EQ(found("ambient-correction", {{"ambient", "104 °F"}}, "f-75"), "0.88");
  EXPECT_EQ(found("ambient-correction", {{"ambient", "40 °C"}, {"temperature", "75"}}, "f-75"), "0.88");
  EXPECT_EQ(found("ambient-correction", {{"ambient", "41 °C"}}, "f-75"), "0.82");
  EXPECT_THAT(found("ambient-correction", {{"ambient", "105"}}, "f-75"), HasSubstr("has no unit"));
  // Table 250.122: the device of 45 A is in the row of 60 A, 10 AWG copper; of 60 A the same, of 61 A the next.
  for (const char* amperes : {"45", "45 A", "60"}) EXPECT_EQ(found("egc", {{"rating", amperes}, {"material", "copper"}}, "copper"), "10 AWG") << amperes;
  EXPECT_EQ(found("egc", {{"rating", "61 A"}}, "copper"), "8 AWG");
  EXPECT_THAT(found("egc", {{"rating", "9000"}}, "copper"), HasSubstr("has no band for 9000"));
  EXPECT_EQ(found("count-adjustment", {{"count", "9"}}, "percent"), "70");
  EXPECT_EQ(found("count-adjustment", {{"count", "10"}}, "percent"), "50");
  // Table 250.66: 2/0 copper service conductors take 4 AWG copper, 4/0 aluminum ones 2 AWG aluminum.
  EXPECT_EQ(found("electrode-conductor", {{"size", "2/0"}}, "copper"), "4 AWG");
  EXPECT_EQ(found("electrode-conductor", {{"size", "4/0"}, {"material", "aluminum"}}, "aluminum"), "2 AWG");
  EXPECT_EQ(found("nominal-voltages", {{"voltage", "240 V"}}, "highest"), "250");
}

TEST(LookUp, EveryTableCanBeAskedForEachOfItsRows) {
  for (std::size_t i = 0; i < edition().table_count(); ++i) {
    const auto t = edition().table_at(i);
    if (t.keys() == 0) continue;
    for (std::size_t r = 0; r < t.rows(); ++r) {
      std::vector<Asked> asked;
      for (std::size_t c = 0; c < t.keys(); ++c) {
        const auto n = t.cell(r, c).number();
        asked.push_back({std::string(t.column_name(c)), n ? fmt::format("{}", *n) : std::string(t.cell(r, c).text())});
      }
      const auto f = answers::look_up(edition(), t, asked);
      EXPECT_EQ(f.error, "") << t.name();
      EXPECT_EQ(f.rows, std::vector<std::size_t>{r}) << t.name() << ": " << asked.front().value;
    }
  }
}

TEST(LookUp, SaysWhatATableCanBeAsked) {
  const auto refused = [](const std::vector<std::string>& words, std::string_view message, std::string_view note) {
    std::vector<std::string> all{"rules", "show"};
    all.insert(all.end(), words.begin(), words.end());
    const auto r = test::run(all);
    EXPECT_EQ(r.status, 2) << message;
    EXPECT_EQ(r.out, "");
    EXPECT_THAT(r.err, HasSubstr(std::string(message)));
    EXPECT_THAT(r.err, HasSubstr(std::string(note)));
  };
  refused({"ampacity", "--sise", "6"}, "the table 'ampacity' has no 'sise' to look up", "did you mean '--size'? it is asked by --size, --material, --temperature");
  refused({"ampacity", "--size", "7"}, "the table 'ampacity' has no size '7'", "18 AWG, 16 AWG");
  refused({"raceway-dimensions", "--type", "EMT", "--size", "9"}, "has no size '9'", "1/2, 3/4");
  refused({"ampacity", "--material", "gold"}, "the table 'ampacity' has no material 'gold'", "there are: copper, aluminum");
  refused({"ampacity", "--size"}, "--size wants a value", "");
  refused({"terminals", "--size", "6"}, "'terminals' is a rule and has no rows", "`pullproof rules show terminals`");
  refused({"ampacity", "--amendment", "nowhere.toml"}, "the amendment 'nowhere.toml' cannot be read: there is no such file", "");
}

TEST(LookUp, OffersWhatHasAWordOfIt) {
  EXPECT_THAT(test::run({"rules", "show", "appliances", "--appliance", "water heater"}).err, HasSubstr("of that kind there are: electric water heater, storage; "));
  const auto r = test::run({"new", "ev", "charger"});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("vehicle charger"));
}

TEST(Keys, AreFoundByTheEndOfTheirName) {
  EXPECT_EQ(test::run({"keys", "breaker"}).out, test::run({"keys", "circuit.breaker"}).out);
  const auto r = test::run({"keys", "raceway.ambient"});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(r.out, HasSubstr("ambient: the hottest air around it"));
  EXPECT_EQ(r.out.find("place:"), std::string::npos);
}

TEST(LookUp, PrintsEachRowWithWhatItRestsOn) {
  const auto r = test::run({"rules", "show", "ampacity", "--size=6", "--material", "copper", "--edition", "us-2017"});
  EXPECT_EQ(r.status, 0) << r.err;
  for (const char* said : {"size 6 AWG", "cu-75 65 A", "NFPA 70-2017, Table 310.15(B)(16); published: 2018 IRC Table E3705.1", "rules/us-2017/conductors.toml:"})
    EXPECT_THAT(test::flat(r.out), HasSubstr(said));
  EXPECT_EQ(r.out.find("al-75"), std::string::npos);
  const auto j = test::run({"rules", "show", "ampacity", "--size", "6", "--material", "copper", "--format", "json"});
  rapidjson::Document d;
  d.Parse(j.out.c_str());
  ASSERT_FALSE(d.HasParseError()) << j.out;
  const auto& row = d["table"]["rows"][0];
  EXPECT_STREQ(row["key"][0]["value"].GetString(), "6 AWG");
  EXPECT_STREQ(row["cells"][1]["column"].GetString(), "cu-75");
  EXPECT_EQ(row["cells"][1]["value"].GetDouble(), 65);
  EXPECT_STREQ(row["cells"][1]["basis"].GetString(), "published");
  EXPECT_GT(row["cells"][1]["origin"]["line"].GetInt(), 0);
}

TEST(LookUp, LaysAmendmentsOverAnEdition) {
  const test::Scratch scratch;
  const std::string head = "[edition]\nid = \"town\"\ntitle = \"Town code (invented)\"\nbase = \"us-2023\"\nordinance = \"Ordinance 1\"\n[[change]]\nrule = \"branch-drop\"\n";
  const auto town = scratch.file("town.toml", head + "field = \"binding\"\nwas = false\nnow = true\nsource = \"Ordinance 1, section 3 (invented)\"\nbasis = \"published\"\n");
  const auto r = test::run({"rules", "show", "branch-drop", "--amendment", town});
  EXPECT_EQ(r.status, 0) << r.err;
  EXPECT_THAT(test::flat(r.out), HasSubstr("binding = yes*"));
  EXPECT_THAT(test::flat(r.out), HasSubstr("(was no)"));
  const auto e = test::run({"explain", "drop-branch", "--amendment", town});
  EXPECT_THAT(test::flat(e.out), HasSubstr("branch-drop: binding: no -> yes"));
}

TEST(Explain, KnowsEveryKeyThatAChecksSaysItReads) {
  const auto all = key_tables();
  for (const Check* c : all_checks()) {
    EXPECT_NE(c->family, Family::none) << c->id;
    std::string_view reads = c->reads;
    while (!reads.empty()) {
      const std::size_t end = std::min(reads.find(", "), reads.size());
      EXPECT_TRUE(report::key_read(all, reads.substr(0, end))) << c->id << ": " << reads.substr(0, end);
      reads.remove_prefix(std::min(end + 2, reads.size()));
    }
  }
}

TEST(Explain, SaysWhatChangesAndInWhichClause) {
  const auto r = test::run({"explain", "ampacity"});
  EXPECT_EQ(r.status, 0);
  const std::string text = test::flat(r.out);
  // The rooftop clearance of 7/8 in became 3/4 in; the table was renumbered in 2020.
  for (const char* said : {"circuit.voltage: voltage between its conductors", "us-2017: Table 310.15(B)(16); us-2020, us-2023: Table 310.16; us-2026: not covered",
                           "rooftop: clearance: 0.875 in -> 0.75 in", "nm-bundled", "334.80", "310.15(C)(1)(b) (its number: memory)"})
    EXPECT_THAT(text, HasSubstr(said));
}

TEST(Explain, ListsChecksByFamily) {
  const std::string list = test::run({"explain"}).out;
  EXPECT_LT(list.find("Voltage drop\n"), list.find("  drop-branch"));
  EXPECT_LT(list.find("  drop-branch"), list.find("Overcurrent protection\n"));
  EXPECT_THAT(test::run({"explain", "drop"}).err, HasSubstr("drop-appliance, drop-branch"));
}

}  // namespace
}  // namespace pullproof
