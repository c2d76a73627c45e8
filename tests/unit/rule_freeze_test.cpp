// The frozen form of the rules, and asking it.
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <stdexcept>

#include "code/edition.hpp"
#include "code/frozen.hpp"
#include "support/cases.hpp"

namespace pullproof::code {
namespace {

std::vector<RuleFile> files_on_disk() {
  namespace fs = std::filesystem;
  std::vector<RuleFile> files;
  const fs::path folder = test::source_dir() / "rules";
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.path().extension() == ".toml")
      files.push_back({"rules/" + entry.path().lexically_relative(folder).generic_string(), test::read_text(entry.path())});
  return files;
}

std::vector<Book> books_on_disk() {
  Diagnostics d;
  auto books = read_books(files_on_disk(), d);
  for (const Diagnostic& one : d.sorted()) ADD_FAILURE() << render(one);
  return books;
}

bool same(const Entry& a, const Entry& b) {
  return a.name == b.name && a.title == b.title && a.clause == b.clause && a.source == b.source && a.line == b.line && a.file == b.file &&
         a.basis == b.basis && a.clause_basis == b.clause_basis && a.seen == b.seen;
}
bool same(const Str& a, const Str& b) { return a == b; }
bool same(const Cell& a, const Cell& b) {
  return a.number == b.number && a.text == b.text && a.line == b.line && a.file == b.file && a.kind == b.kind && a.basis == b.basis;
}
bool same(const Column& a, const Column& b) { return a.name == b.name && a.unit == b.unit; }
bool same(const CellSource& a, const CellSource& b) { return a.cell == b.cell && a.source == b.source; }
bool same(const Table& a, const Table& b) {
  return same(a.entry, b.entry) && a.first_column == b.first_column && a.columns == b.columns && a.keys == b.keys &&
         a.first_cell == b.first_cell && a.rows == b.rows;
}
bool same(const Parameter& a, const Parameter& b) {
  return a.name == b.name && a.first_cell == b.first_cell && a.cells == b.cells && a.list == b.list;
}
bool same(const Rule& a, const Rule& b) {
  return same(a.entry, b.entry) && a.first_parameter == b.first_parameter && a.parameters == b.parameters;
}
bool same(const EditionRecord& a, const EditionRecord& b) {
  return a.id == b.id && a.title == b.title && a.base == b.base && a.adopted == b.adopted && a.ordinance == b.ordinance &&
         a.first_table == b.first_table && a.tables == b.tables && a.first_rule == b.first_rule && a.rules == b.rules;
}

template <class T>
void expect_same(std::span<const T> a, std::span<const T> b, const char* what) {
  ASSERT_EQ(a.size(), b.size()) << what;
  for (std::size_t i = 0; i < a.size(); ++i) ASSERT_TRUE(same(a[i], b[i])) << what << ' ' << i;
}

void expect_same(const Store& a, const Store& b) {
  EXPECT_EQ(a.pool, b.pool);
  expect_same(a.files, b.files, "files");
  expect_same(a.cells, b.cells, "cells");
  expect_same(a.columns, b.columns, "columns");
  expect_same(a.sources, b.sources, "sources");
  expect_same(a.tables, b.tables, "tables");
  expect_same(a.parameters, b.parameters, "parameters");
  expect_same(a.rules, b.rules, "rules");
  expect_same(a.editions, b.editions, "editions");
}

TEST(Freeze, TheProgramCarriesWhatIsOnDisk) {
  const FrozenStore frozen = freeze(books_on_disk());
  expect_same(built_in_store(), frozen.view());
  EXPECT_GT(built_in_store().cells.size(), 5000u);
}

TEST(Freeze, ThawingAndFreezingAgainGivesTheSame) {
  const FrozenStore again = freeze(thaw(built_in_store()));
  expect_same(built_in_store(), again.view());
}

TEST(Freeze, DoesNotDependOnTheOrderOfTheFiles) {
  auto files = files_on_disk();
  Diagnostics d;
  const FrozenStore one = freeze(read_books(files, d));
  std::reverse(files.begin(), files.end());
  const FrozenStore other = freeze(read_books(files, d));
  EXPECT_TRUE(d.empty());
  expect_same(one.view(), other.view());
}

TEST(Freeze, StoresInheritedCellsOnce) {
  std::size_t asked = 0;
  for (const Table& t : built_in_store().tables) asked += std::size_t{t.rows} * t.columns;
  EXPECT_LT(built_in_store().cells.size(), asked / 2);  // there are more than two editions
}

// A small store of our own to ask.
class Asking : public testing::Test {
 protected:
  Asking() {
    Diagnostics d;
    const auto books = read_books({{"rules/e/edition.toml", "[edition]\nid = \"e\"\ntitle = \"E\"\n"},
                                   {"rules/e/t.toml", R"(
[table.pair]
title = "Pairs"
clause = "T1"
basis = "published"
source = "a book"
key = ["kind", "size"]
columns = ["kind", "size", "area"]
units = ["", "", "in²"]
rows = [["EMT", "1/2", 0.3], ["EMT", "3/4", 0.5], ["RMC", "1/2", ""]]
except = [{ row = ["EMT", "3/4"], columns = ["area"], basis = "memory", source = "a friend" }]
[table.band]
title = "Bands"
clause = "T2"
basis = "derived"
source = "a formula"
key = []
columns = ["through", "percent"]
units = ["", "%"]
rows = [[3, 100], [6, 80], [1e9, 50]]
[rule.r]
title = "R"
clause = "1.1"
basis = "memory"
source = "nobody"
percent = 3
names = ["x", "y"]
none = []
)"}}, d);
    EXPECT_TRUE(d.empty());
    edition = Edition::find(share(freeze(books)), "e");
  }
  std::optional<Edition> edition;
};

TEST_F(Asking, TablesByKeyAndByBand) {
  const TableRef pair = *edition->table("pair");
  EXPECT_EQ(pair.find("EMT", "3/4"), 1u);
  EXPECT_EQ(pair.find("RMC", "1/2"), 2u);
  EXPECT_FALSE(pair.find("RMC", "3/4"));
  EXPECT_EQ(pair.find("RMC"), 2u);
  EXPECT_FALSE(pair.find(""));
  EXPECT_EQ(pair.cell(1, "area").number(), 0.5);
  EXPECT_EQ(pair.cell(1, "area").basis(), Basis::memory);
  EXPECT_EQ(pair.cell(1, "area").source(), "a friend");
  EXPECT_EQ(pair.cell(0, "area").source(), "");
  EXPECT_TRUE(pair.cell(2, "area").blank());
  EXPECT_FALSE(pair.cell(2, "area").number());
  EXPECT_EQ(pair.cell(0, "area").text(), "");
  EXPECT_EQ(pair.column_unit(2), "in²");
  EXPECT_TRUE(pair.has_column("area"));
  EXPECT_FALSE(pair.has_column("areas"));
  EXPECT_THROW((void)pair.column("areas"), std::out_of_range);

  const TableRef band = *edition->table("band");
  EXPECT_EQ(band.band("through", 1), 0u);
  EXPECT_EQ(band.band("through", 3), 0u);
  EXPECT_EQ(band.band("through", 3 + 1e-12), 0u);  // noise is no step into the next band
  EXPECT_EQ(band.band("through", 3.001), 1u);
  EXPECT_EQ(band.band("through", 1e6), 2u);
  EXPECT_FALSE(band.band("through", 2e9));
  EXPECT_FALSE(band.band("through", std::nan("")));
  EXPECT_FALSE(edition->table("pairs"));
  EXPECT_FALSE(edition->rule("pair"));
  EXPECT_FALSE(Edition::find(edition->store(), "f"));
}

TEST_F(Asking, RulesByParameter) {
  const RuleRef r = *edition->rule("r");
  EXPECT_EQ(r["percent"].number(), 3);
  EXPECT_TRUE(r["missing"].blank());
  EXPECT_TRUE(r.list("missing").empty());
  ASSERT_EQ(r.list("names").size(), 2u);
  EXPECT_EQ(r.list("names")[1].text(), "y");
  EXPECT_EQ(r["names"].text(), "x");
  EXPECT_TRUE(r["none"].blank());
  EXPECT_TRUE(r.list("none").empty());
  EXPECT_EQ(r["percent"].origin().line, 26u);
  EXPECT_EQ(CellRef().origin().line, 0u);
  EXPECT_TRUE(CellRef().blank());
}

TEST_F(Asking, CitationsCarryTheBasisOfTheCell) {
  const TableRef pair = *edition->table("pair");
  const Citation strong = edition->cite(pair, 0, 2), weak = edition->cite(pair, 1, 2);
  EXPECT_EQ(strong.basis, Basis::published);
  EXPECT_EQ(strong.clause, "T1");
  EXPECT_EQ(strong.row, "EMT");
  EXPECT_EQ(strong.column, "area");
  EXPECT_EQ(strong.edition, "E");
  EXPECT_EQ(weak.basis, Basis::memory);
  EXPECT_EQ(weak.source, "a friend");
  EXPECT_EQ(edition->cite(*edition->rule("r")).basis, Basis::memory);
}

}  // namespace
}  // namespace pullproof::code
