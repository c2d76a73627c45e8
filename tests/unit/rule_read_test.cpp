// Reading rule files: what is refused, and where it says so.
#include <gtest/gtest.h>

#include "code/book.hpp"
#include "code/edition.hpp"
#include "code/frozen.hpp"

namespace pullproof::code {
namespace {

const std::string edition_file = "[edition]\nid = \"one\"\ntitle = \"First\"\n";
const std::string base_file = R"([table.load]
title = "Loads"
clause = "Table 1"
basis = "published"
source = "a book"
key = ["size"]
columns = ["size", "amps", "word"]
units = ["", "A", ""]
rows = [
  ["small", 10, "yes"],
  ["large", 20, ""],
]
except = [{ row = ["large"], columns = ["amps"], basis = "memory", source = "a friend" }]

[rule.limit]
title = "A limit"
clause = "1.2"
basis = "published"
source = "a book"
percent = 125
length = "24 in"
wet = true
types = ["A", "B"]
)";
const std::string head = "[edition]\nid = \"two\"\ntitle = \"Second\"\nbase = \"one\"\n";

std::string complaints(const Diagnostics& d) {
  std::string out;
  for (const Diagnostic& one : d.sorted()) out += render(one);
  return out;
}

std::string reading(std::vector<RuleFile> files, std::vector<Book>* books = nullptr) {
  Diagnostics d;
  auto read = read_books(files, d);
  if (books != nullptr) *books = std::move(read);
  return complaints(d);
}

/// Complaints about a base made of this one file.
std::string of_base(const std::string& text) {
  return reading({{"rules/one/edition.toml", edition_file}, {"rules/one/base.toml", text}});
}

/// Complaints about a delta whose [edition] takes its first four lines.
std::string of_delta(const std::string& text, std::vector<Book>* books = nullptr) {
  return reading({{"rules/one/edition.toml", edition_file}, {"rules/one/base.toml", base_file}, {"rules/two.toml", head + text}}, books);
}

std::string change(const std::string& rest) { return "[[change]]\nsource = \"a book\"\nbasis = \"published\"\n" + rest; }

Book second(const std::string& text) {
  std::vector<Book> books;
  EXPECT_EQ(of_delta(text, &books), "");
  for (Book& b : books)
    if (b.id == "two") return b;
  ADD_FAILURE() << "no edition 'two'";
  return {};
}

TEST(RuleFiles, ReadABaseWithItsExceptions) {
  std::vector<Book> books;
  ASSERT_EQ(reading({{"rules/one/base.toml", base_file}, {"rules/one/edition.toml", edition_file}}, &books), "");
  ASSERT_EQ(books.size(), 1u);
  const BookTable& t = books[0].tables.at("load");
  EXPECT_EQ(t.keys, 1u);
  EXPECT_EQ(std::get<double>(t.rows[1][1].value), 20);
  EXPECT_EQ(t.rows[1][1].basis, Basis::memory);
  EXPECT_EQ(t.rows[1][1].source, "a friend");
  EXPECT_EQ(t.rows[0][1].basis, Basis::published);
  EXPECT_EQ(t.rows[1][1].origin.line, 11u);
  EXPECT_TRUE(std::holds_alternative<std::monostate>(t.rows[1][2].value));  // "" is a blank cell
  const BookRule& r = books[0].rules.at("limit");
  EXPECT_EQ(std::get<std::string>(r.parameters.at("wet").cells[0].value), "yes");
  EXPECT_TRUE(r.parameters.at("types").list);
  EXPECT_EQ(r.parameters.at("types").cells.size(), 2u);
}

TEST(RuleFiles, EachEntrySaysWhatItIsAndWhereItWasRead) {
  EXPECT_EQ(of_base("[rule.bare]\npercent = 3\n"),
            "rules/one/base.toml:1:1: 'bare' has no basis\n  [rule.bare]\n  ^^^^^^^^^^^\n"
            "rules/one/base.toml:1:1: 'bare' has no clause\n  [rule.bare]\n  ^^^^^^^^^^^\n"
            "rules/one/base.toml:1:1: 'bare' has no source\n  [rule.bare]\n  ^^^^^^^^^^^\n"
            "rules/one/base.toml:1:1: 'bare' has no title\n  [rule.bare]\n  ^^^^^^^^^^^\n");
  EXPECT_EQ(of_base("[rule.r]\ntitle = \"\"\nclause = \"1\"\nsource = \"s\"\nbasis = \"hearsay\"\n"),
            "rules/one/base.toml:1:1: 'r' has no title\n  [rule.r]\n  ^^^^^^^^\n"
            "rules/one/base.toml:5:9: a basis is 'published', 'derived', 'memory' or 'common practice'\n"
            "  basis = \"hearsay\"\n          ^^^^^^^^^\n");
}

/// A base table with these lines in place of its key, columns, units and rows.
std::string of_table(const std::string& lines) {
  return of_base("[table.t]\ntitle = \"T\"\nclause = \"1\"\nbasis = \"memory\"\nsource = \"s\"\n" + lines);
}

TEST(RuleFiles, RefuseTablesThatAreNoTables) {
  const std::string columns = "key = [\"a\"]\ncolumns = [\"a\", \"b\"]\nunits = [\"\", \"A\"]\n";
  EXPECT_EQ(of_table(columns + "rows = [[\"x\", 1], [\"y\", 2]]\n"), "");
  EXPECT_EQ(of_table(columns), "rules/one/base.toml:1:1: 't' has no rows\n  [table.t]\n  ^^^^^^^^^\n");
  EXPECT_EQ(of_table(columns + "rows = []\n"), "rules/one/base.toml:1:1: 't' has no rows\n  [table.t]\n  ^^^^^^^^^\n");
  EXPECT_EQ(of_table(columns + "rows = [[\"x\"]]\n"),
            "rules/one/base.toml:9:9: a row of this table has 2 cells\n  rows = [[\"x\"]]\n          ^^^^^\n");
  EXPECT_EQ(of_table(columns + "rows = [\"x\"]\n"),
            "rules/one/base.toml:9:9: a row of this table has 2 cells\n  rows = [\"x\"]\n          ^^^\n");
  EXPECT_EQ(of_table(columns + "rows = [[\"x\", 1], [\"x\", 2]]\n"),
            "rules/one/base.toml:1:1: 't': two rows with the same key\n  [table.t]\n  ^^^^^^^^^\n");
  EXPECT_EQ(of_table(columns + "rows = [[\"x\", inf]]\n"),
            "rules/one/base.toml:9:15: a number has to be finite\n  rows = [[\"x\", inf]]\n                ^^^\n");
  EXPECT_EQ(of_table(columns + "rows = [[\"x\", 2020-01-01]]\n"),
            "rules/one/base.toml:9:15: a number, a text or true or false is wanted here\n"
            "  rows = [[\"x\", 2020-01-01]]\n                ^^^^^^^^^^\n");
  EXPECT_EQ(of_table("key = [\"b\"]\ncolumns = [\"a\", \"b\"]\nunits = [\"\", \"\"]\nrows = [[\"x\", 1]]\n"),
            "rules/one/base.toml:1:1: 't': the key has to be the leading columns\n  [table.t]\n  ^^^^^^^^^\n");
  EXPECT_EQ(of_table("key = []\ncolumns = [\"a\", \"a\"]\nunits = [\"\", \"\"]\nrows = [[1, 1]]\n"),
            "rules/one/base.toml:1:1: 't' has two columns 'a'\n  [table.t]\n  ^^^^^^^^^\n");
  EXPECT_EQ(of_table("key = []\ncolumns = [\"a\", \"b\"]\nunits = [\"\"]\nrows = [[1, 1]]\n"),
            "rules/one/base.toml:1:1: 't': one unit for each column\n  [table.t]\n  ^^^^^^^^^\n");
  EXPECT_EQ(of_table(columns + "rows = [[\"x\", 1]]\nnotes = \"n\"\n"),
            "rules/one/base.toml:10:9: unknown key 'notes' in a table\n  notes = \"n\"\n          ^^^\n");
  EXPECT_EQ(of_table("key = \"a\"\ncolumns = [\"a\"]\nunits = [\"\"]\nrows = [[1]]\n"),
            "rules/one/base.toml:6:7: a list of texts is wanted here\n  key = \"a\"\n        ^^^\n");
}

TEST(RuleFiles, RefuseExceptionsThatHitNothing) {
  const std::string table = "key = [\"a\"]\ncolumns = [\"a\", \"b\"]\nunits = [\"\", \"A\"]\nrows = [[\"x\", 1]]\n";
  EXPECT_EQ(of_table(table + "except = [{ row = [\"z\"], basis = \"memory\", source = \"s\" }]\n"),
            "rules/one/base.toml:10:11: this exception names no row of the table\n"
            "  except = [{ row = [\"z\"], basis = \"memory\", source = \"s\" }]\n            ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^\n");
  EXPECT_EQ(of_table(table + "except = [{ columns = [\"c\"], basis = \"memory\", source = \"s\" }]\n")
                .find("rules/one/base.toml:10:11: there is no column 'c'\n"), 0u);
  EXPECT_EQ(of_table(table + "except = [{ row = [\"x\"] }]\n"),
            "rules/one/base.toml:10:11: an exception has row, columns, basis and source\n  except = [{ row = [\"x\"] }]\n            ^^^^^^^^^^^^^^^\n");
  // A slip in `columns` would otherwise weaken the whole row.
  EXPECT_EQ(of_table(table + "except = [{ row = [\"x\"], column = [\"b\"], basis = \"memory\", source = \"s\" }]\n")
                .find("rules/one/base.toml:10:35: unknown key 'column' in an exception\n"), 0u);
  EXPECT_EQ(of_table(table + "except = [{ basis = \"memory\", source = \"\" }]\n"),
            "rules/one/base.toml:10:40: an exception says in 'source' where it was read\n"
            "  except = [{ basis = \"memory\", source = \"\" }]\n                                         ^^\n");
  EXPECT_EQ(of_table(table + "except = \"none\"\n"), "rules/one/base.toml:10:10: 'except' is a list of tables\n  except = \"none\"\n           ^^^^^^\n");
}

TEST(RuleFiles, RefuseDoubleEntriesOverAllFilesOfAnEdition) {
  EXPECT_EQ(reading({{"rules/one/edition.toml", edition_file}, {"rules/one/a.toml", base_file}, {"rules/one/b.toml", base_file}}),
            "rules/one/b.toml:1:1: there is a table 'load' already\n  [table.load]\n  ^^^^^^^^^^^^\n"
            "rules/one/b.toml:15:1: there is a rule 'limit' already\n  [rule.limit]\n  ^^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta("[rule.limit]\ntitle = \"T\"\nclause = \"1\"\nbasis = \"memory\"\nsource = \"s\"\n"),
            "rules/two.toml:5:1: there is a rule 'limit' already\n  [rule.limit]\n  ^^^^^^^^^^^^\n");
}

TEST(RuleFiles, RefuseWhatIsOutOfPlace) {
  EXPECT_EQ(of_base("[other]\n"), "rules/one/base.toml:1:1: unknown key 'other'\n  [other]\n  ^^^^^^^\n");
  EXPECT_EQ(of_base("table = 3\n"), "rules/one/base.toml:1:9: a table is wanted here\n  table = 3\n          ^\n");
  EXPECT_EQ(of_base("[rule]\nr = 3\n"), "rules/one/base.toml:2:5: a table is wanted here\n  r = 3\n      ^\n");
  EXPECT_EQ(of_base("[[change]]\n[[same]]\n"),
            "rules/one/base.toml:1:1: a full edition has no [[change]]\n  [[change]]\n  ^^^^^^^^^^\n"
            "rules/one/base.toml:2:1: a full edition has no [[same]]\n  [[same]]\n  ^^^^^^^^\n");
  EXPECT_EQ(of_delta("change = 3\n").find("rules/two.toml:5:10: unknown key 'change' in [edition]"), 0u);
  EXPECT_EQ(of_base("[rule.r\n").find("rules/one/base.toml:1:8: "), 0u) << of_base("[rule.r\n");
  EXPECT_EQ(of_base("[rule.r]\ntitle = 3\nclause = \"1\"\nbasis = \"memory\"\nsource = \"s\"\nx = { y = 1 }\n"),
            "rules/one/base.toml:1:1: 'r' has no title\n  [rule.r]\n  ^^^^^^^^\n"
            "rules/one/base.toml:2:9: text is wanted here\n  title = 3\n          ^\n"
            "rules/one/base.toml:6:5: a number, a text or true or false is wanted here\n  x = { y = 1 }\n      ^^^^^^^^^\n");
}

TEST(Editions, SayWhatTheyAreAndWhatTheyStandOn) {
  const auto with = [](const std::string& text) { return reading({{"rules/one/edition.toml", edition_file}, {"rules/two.toml", text}}); };
  EXPECT_EQ(with("x = 1\n").find("rules/two.toml:1:1: a rule file for an edition or amendment has an [edition] table"), 0u);
  EXPECT_EQ(with("edition = 3\n"), "rules/two.toml:1:11: a rule file for an edition or amendment has an [edition] table\n  edition = 3\n            ^\n");
  EXPECT_EQ(with("[edition]\n"),
            "rules/two.toml:1:1: an edition has a title\n  [edition]\n  ^^^^^^^^^\n"
            "rules/two.toml:1:1: an edition has an id\n  [edition]\n  ^^^^^^^^^\n"
            "rules/two.toml:1:1: an edition without a folder of its own has a base\n  [edition]\n  ^^^^^^^^^\n");
  EXPECT_EQ(with("[edition]\nid = \"two\"\ntitle = \"T\"\nbase = \"none\"\n"),
            "rules/two.toml:4:8: its base 'none' is no edition here, or comes back to it\n  base = \"none\"\n         ^^^^^^\n");
  EXPECT_EQ(with("[edition]\nid = \"one\"\ntitle = \"T\"\nbase = \"one\"\n"),
            "rules/two.toml:2:6: there is an edition 'one' already\n  id = \"one\"\n       ^^^^^\n");
  EXPECT_EQ(with("[edition]\nid = \"two\"\ntitle = \"T\"\nbase = \"one\"\nadopted = \"1 July\"\nunseen = 1\nmayor = \"x\"\n"),
            "rules/two.toml:5:11: 'adopted' is a date, such as 2025-07-01\n  adopted = \"1 July\"\n            ^^^^^^^^\n"
            "rules/two.toml:6:10: 'unseen' is true or false\n  unseen = 1\n           ^\n"
            "rules/two.toml:7:9: unknown key 'mayor' in [edition]\n  mayor = \"x\"\n          ^^^\n");
}

TEST(Editions, RefuseRingsOfBases) {
  const auto delta = [](const std::string& id, const std::string& base) {
    return RuleFile{"rules/" + id + ".toml", "[edition]\nid = \"" + id + "\"\ntitle = \"T\"\nbase = \"" + base + "\"\n"};
  };
  EXPECT_EQ(reading({{"rules/one/edition.toml", edition_file}, delta("a", "b"), delta("b", "a")}),
            "rules/a.toml:4:8: its base 'b' is no edition here, or comes back to it\n  base = \"b\"\n         ^^^\n"
            "rules/b.toml:4:8: its base 'a' is no edition here, or comes back to it\n  base = \"a\"\n         ^^^\n");
  EXPECT_EQ(reading({delta("a", "a")}),
            "rules/a.toml:4:8: its base 'a' is no edition here, or comes back to it\n  base = \"a\"\n         ^^^\n");
  // A full edition that names a base would make its chain endless.
  EXPECT_EQ(reading({{"rules/one/edition.toml", edition_file + "base = \"one\"\n"}}),
            "rules/one/edition.toml:1:1: a full edition has no base\n  [edition]\n  ^^^^^^^^^\n");
  EXPECT_EQ(reading({{"rules/one/edition.toml", edition_file}, {"rules/uno/edition.toml", edition_file}}),
            "rules/uno/edition.toml:2:6: there is an edition 'one' already\n  id = \"one\"\n       ^^^^^\n");
  EXPECT_EQ(reading({}), "");
}

TEST(Editions, AreLaidInTheOrderOfTheirBases) {
  const auto delta = [](const std::string& file, const std::string& id, const std::string& base, int was) {
    return RuleFile{"rules/" + file, "[edition]\nid = \"" + id + "\"\ntitle = \"T" + id + "\"\nbase = \"" + base + "\"\n" +
                                         change("rule = \"limit\"\nfield = \"percent\"\nwas = " + std::to_string(was) + "\nnow = " +
                                                std::to_string(was + 1) + "\n")};
  };
  std::vector<Book> books;
  // The names of the files sort the other way round.
  ASSERT_EQ(reading({{"rules/one/edition.toml", edition_file}, {"rules/one/base.toml", base_file}, delta("z.toml", "two", "one", 125),
                     delta("a.toml", "three", "two", 126)}, &books), "");
  ASSERT_EQ(books.size(), 3u);
  EXPECT_EQ(std::get<double>(books[2].rules.at("limit").parameters.at("percent").cells[0].value), 127);
  const auto store = share(freeze(books));
  EXPECT_EQ(Edition::find(store, "three")->chain(), (std::vector<std::string_view>{"First", "Ttwo", "Tthree"}));
}

TEST(Changes, ChangeCellsRowsFieldsAndParameters) {
  const Book b = second(
      change("table = \"load\"\nrow = [\"small\"]\ncolumn = \"amps\"\nwas = 10\nnow = 11\n") +
      change("table = \"load\"\nrow = [\"middle\"]\nafter = [\"small\"]\nnow = [\"middle\", 15, \"no\"]\n") +
      change("table = \"load\"\nrow = [\"last\"]\nnow = [\"last\", 99, \"\"]\n") +
      change("table = \"load\"\nrow = [\"large\"]\nwas = [\"large\", 20, \"\"]\n") +
      change("table = \"load\"\nfield = \"title\"\nwas = \"Loads\"\nnow = \"All loads\"\n") +
      change("rule = \"limit\"\nfield = \"types\"\nwas = [\"A\", \"B\"]\nnow = [\"A\"]\n") +
      change("rule = \"limit\"\nfield = \"wet\"\nwas = true\n") +
      change("rule = \"limit\"\nfield = \"extra\"\nnow = \"1 ft\"\n") +
      "[[renumbered]]\nsource = \"a book\"\nbasis = \"memory\"\nrules = [[\"limit\", \"1.2\", \"3.4\"]]\n");
  const BookTable& t = b.tables.at("load");
  std::string rows;
  for (const auto& row : t.rows) rows += std::get<std::string>(row[0].value) + " " + std::to_string(std::get<double>(row[1].value)) + ", ";
  EXPECT_EQ(rows, "small 11.000000, middle 15.000000, last 99.000000, ");
  EXPECT_EQ(t.rows[0][1].origin.file, "rules/two.toml");
  EXPECT_EQ(t.rows[0][1].source, "a book");
  EXPECT_EQ(t.entry.title, "All loads");
  const BookRule& r = b.rules.at("limit");
  EXPECT_EQ(r.entry.clause, "3.4");
  EXPECT_EQ(r.entry.clause_basis, Basis::memory);
  EXPECT_EQ(r.parameters.at("types").cells.size(), 1u);
  EXPECT_FALSE(r.parameters.contains("wet"));
  EXPECT_EQ(std::get<std::string>(r.parameters.at("extra").cells[0].value), "1 ft");
}

TEST(Changes, RefuseAStaleWas) {
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"small\"]\ncolumn = \"amps\"\nwas = 9\nnow = 11\n")),
            "rules/two.toml:11:7: the base edition does not say this about this cell (it says 10)\n  was = 9\n        ^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"small\"]\ncolumn = \"word\"\nwas = \"no\"\nnow = \"\"\n")),
            "rules/two.toml:11:7: the base edition does not say this about this cell (it says 'yes')\n  was = \"no\"\n        ^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"large\"]\nwas = [\"large\", 21, \"\"]\nnow = [\"large\", 22, \"\"]\n")),
            "rules/two.toml:10:7: the base edition does not say this about this row\n  was = [\"large\", 21, \"\"]\n        ^^^^^^^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nfield = \"title\"\nwas = \"Load\"\nnow = \"L\"\n")),
            "rules/two.toml:10:7: the base edition does not say this about the title (it says 'Loads')\n  was = \"Load\"\n        ^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nfield = \"basis\"\nwas = \"memory\"\nnow = \"derived\"\n")),
            "rules/two.toml:10:7: the base edition does not say this about the basis (it says 'published')\n  was = \"memory\"\n        ^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("rule = \"limit\"\nfield = \"percent\"\nwas = 100\nnow = 110\n")),
            "rules/two.toml:10:7: the base edition does not say this about 'percent'\n  was = 100\n        ^^^\n");
  EXPECT_EQ(of_delta(change("rule = \"limit\"\nfield = \"types\"\nwas = [\"A\"]\nnow = [\"B\"]\n")),
            "rules/two.toml:10:7: the base edition does not say this about 'types'\n  was = [\"A\"]\n        ^^^^^\n");
  EXPECT_EQ(of_delta("[[renumbered]]\nsource = \"b\"\nbasis = \"memory\"\ntables = [[\"load\", \"Table 2\", \"Table 3\"]]\n"),
            "rules/two.toml:8:11: the base edition does not say this about the clause of 'load' (it says 'Table 1')\n"
            "  tables = [[\"load\", \"Table 2\", \"Table 3\"]]\n            ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("rule = \"limit\"\nfield = \"percent\"\nnow = 110\n")),
            "rules/two.toml:5:1: the base edition has 'percent' already; say what it was\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"small\"]\nnow = [\"small\", 1, \"\"]\n")),
            "rules/two.toml:9:7: the base edition has this row already; say what it was\n  row = [\"small\"]\n        ^^^^^^^^^\n");
}

TEST(Changes, RefuseWhatIsNotThere) {
  EXPECT_EQ(of_delta(change("table = \"lode\"\nrow = [\"small\"]\ncolumn = \"amps\"\nwas = 10\nnow = 11\n")),
            "rules/two.toml:8:9: the base edition has no table 'lode'\n  table = \"lode\"\n          ^^^^^^\n");
  EXPECT_EQ(of_delta(change("rule = \"lim\"\nfield = \"percent\"\nwas = 1\nnow = 2\n")),
            "rules/two.toml:8:8: the base edition has no rule 'lim'\n  rule = \"lim\"\n         ^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"tiny\"]\ncolumn = \"amps\"\nwas = 10\nnow = 11\n")),
            "rules/two.toml:9:7: the base edition has no such row\n  row = [\"tiny\"]\n        ^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"small\"]\ncolumn = \"amperes\"\nwas = 10\nnow = 11\n")),
            "rules/two.toml:10:10: there is no column 'amperes'\n  column = \"amperes\"\n           ^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"tiny\"]\nwas = [\"tiny\", 1, \"\"]\n")),
            "rules/two.toml:10:7: the base edition does not say this about this row\n  was = [\"tiny\", 1, \"\"]\n        ^^^^^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nfield = \"colour\"\nwas = \"a\"\nnow = \"b\"\n")),
            "rules/two.toml:9:9: a table has no field 'colour'\n  field = \"colour\"\n          ^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("rule = \"limit\"\nfield = \"ratio\"\nwas = 1\nnow = 2\n")),
            "rules/two.toml:10:7: the base edition does not say this about 'ratio'\n  was = 1\n        ^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"m\"]\nafter = [\"tiny\"]\nnow = [\"m\", 1, \"\"]\n")),
            "rules/two.toml:10:9: there is no such row to come after\n  after = [\"tiny\"]\n          ^^^^^^^^\n");
  EXPECT_EQ(of_delta("[[same]]\nsource = \"b\"\ntables = [\"lode\"]\nrules = [\"lim\"]\n"),
            "rules/two.toml:7:10: the base edition has no table 'lode'\n  tables = [\"lode\"]\n           ^^^^^^^^\n"
            "rules/two.toml:8:9: the base edition has no rule 'lim'\n  rules = [\"lim\"]\n          ^^^^^^^\n");
  EXPECT_EQ(of_delta("[[renumbered]]\nsource = \"b\"\nbasis = \"memory\"\ntables = [[\"lode\", \"1\", \"2\"]]\nrules = [[\"limit\", \"1.2\"]]\n"),
            "rules/two.toml:8:11: the base edition has no table 'lode'\n  tables = [[\"lode\", \"1\", \"2\"]]\n            ^^^^^^^^^^^^^^^^^^\n"
            "rules/two.toml:9:10: a renumbered clause is [name, was, now]\n  rules = [[\"limit\", \"1.2\"]]\n           ^^^^^^^^^^^^^^^^\n");
}

TEST(Changes, RefuseHalfAChangeAndNoChange) {
  const std::string cell = "table = \"load\"\nrow = [\"small\"]\ncolumn = \"amps\"\n";
  EXPECT_EQ(of_delta(change(cell + "now = 11\n")), "rules/two.toml:5:1: a change of a cell says what was and what is now\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change(cell + "was = 10\n")), "rules/two.toml:5:1: a change of a cell says what was and what is now\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change(cell + "was = 10\nnow = 10\n")), "rules/two.toml:12:7: this changes nothing\n  now = 10\n        ^^\n");
  EXPECT_EQ(of_delta(change("rule = \"limit\"\nfield = \"percent\"\nwas = 125\nnow = 125\n")),
            "rules/two.toml:11:7: this changes nothing\n  now = 125\n        ^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"large\"]\nwas = [\"large\", 20, \"\"]\nnow = [\"large\", 20, \"\"]\n")),
            "rules/two.toml:11:7: this changes nothing\n  now = [\"large\", 20, \"\"]\n        ^^^^^^^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nfield = \"title\"\nwas = \"Loads\"\nnow = \"Loads\"\n")),
            "rules/two.toml:11:7: this changes nothing\n  now = \"Loads\"\n        ^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nfield = \"basis\"\nwas = \"published\"\nnow = \"published\"\n")),
            "rules/two.toml:11:7: this changes nothing\n  now = \"published\"\n        ^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta("[[renumbered]]\nsource = \"b\"\nbasis = \"memory\"\nrules = [[\"limit\", \"1.2\", \"1.2\"]]\n"),
            "rules/two.toml:8:10: the clause has the same number as before\n  rules = [[\"limit\", \"1.2\", \"1.2\"]]\n           ^^^^^^^^^^^^^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nfield = \"title\"\nwas = \"Loads\"\nnow = \"\"\n")),
            "rules/two.toml:11:7: a title cannot become empty\n  now = \"\"\n        ^^\n");
  EXPECT_EQ(of_delta(change("rule = \"limit\"\nfield = \"ratio\"\n")),
            "rules/two.toml:5:1: a change says what was, what is now, or both\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"new\"]\n")), "rules/two.toml:5:1: a new row says what is now\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nfield = \"clause\"\nwas = \"Table 1\"\nnow = \"Table 2\"\n")),
            "rules/two.toml:9:9: a clause is renumbered in [[renumbered]]\n  field = \"clause\"\n          ^^^^^^^^\n");
}

TEST(Changes, RefuseWhatSaysTwoThings) {
  EXPECT_EQ(of_delta(change("table = \"load\"\nrule = \"limit\"\nfield = \"title\"\nwas = \"Loads\"\nnow = \"L\"\n")),
            "rules/two.toml:5:1: a [[change]] names a table or a rule, not both\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"small\"]\nfield = \"title\"\nwas = \"Loads\"\nnow = \"L\"\n")),
            "rules/two.toml:5:1: a [[change]] names a field or a row, not both\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("field = \"title\"\nwas = \"Loads\"\nnow = \"L\"\n")),
            "rules/two.toml:5:1: a [[change]] names a table or a rule\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nwas = 1\nnow = 2\n")), "rules/two.toml:5:1: a change of a table names a field or a row\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("rule = \"limit\"\nwas = 1\nnow = 2\n")), "rules/two.toml:5:1: a change of a rule names a field\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"new\"]\nnow = [\"newer\", 1, \"\"]\n")),
            "rules/two.toml:9:7: 'row' is not how 'now' begins\n  row = [\"new\"]\n        ^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"large\"]\nwas = [\"large\", 20, \"\"]\nnow = [\"small\", 20, \"\"]\n")),
            "rules/two.toml:11:7: there is a row with this key already\n  now = [\"small\", 20, \"\"]\n        ^^^^^^^^^^^^^^^^^\n");
  EXPECT_EQ(of_delta(change("table = \"load\"\nrow = [\"large\"]\ncolumn = \"size\"\nwas = \"large\"\nnow = \"small\"\n")),
            "rules/two.toml:12:7: there is a row with this key already\n  now = \"small\"\n        ^^^^^^^\n");
}

TEST(Changes, SayWhereTheyWereReadAndWhatTheyRestOn) {
  const std::string what = "rule = \"limit\"\nfield = \"percent\"\nwas = 125\nnow = 126\n";
  EXPECT_EQ(of_delta("[[change]]\n" + what),
            "rules/two.toml:5:1: a [[change]] has a basis\n  [[change]]\n  ^^^^^^^^^^\n"
            "rules/two.toml:5:1: a [[change]] says in 'source' where it was read\n  [[change]]\n  ^^^^^^^^^^\n");
  EXPECT_EQ(of_delta("[[change]]\nbasis = \"memory\"\nsource = \"\"\n" + what),
            "rules/two.toml:7:10: a [[change]] says in 'source' where it was read\n  source = \"\"\n           ^^\n");
  EXPECT_EQ(of_delta("[[change]]\nbasis = \"memory\"\nsource = \"s\"\nwhy = 1\n" + what),
            "rules/two.toml:8:7: unknown key 'why' in [[change]]\n  why = 1\n        ^\n");
  EXPECT_EQ(of_delta("[[same]]\ntables = [\"load\"]\n"), "rules/two.toml:5:1: a [[same]] says in 'source' where it was read\n  [[same]]\n  ^^^^^^^^\n");
  EXPECT_EQ(of_delta("[[same]]\nsource = \"b\"\nwhy = 1\n"),
            "rules/two.toml:5:1: a [[same]] names tables or rules\n  [[same]]\n  ^^^^^^^^\n"
            "rules/two.toml:7:7: unknown key 'why' in [[same]]\n  why = 1\n        ^\n");
  EXPECT_EQ(of_delta("[[renumbered]]\nrules = [[\"limit\", \"1.2\", \"1.3\"]]\n"),
            "rules/two.toml:5:1: a [[renumbered]] has a basis\n  [[renumbered]]\n  ^^^^^^^^^^^^^^\n"
            "rules/two.toml:5:1: a [[renumbered]] says in 'source' where it was read\n  [[renumbered]]\n  ^^^^^^^^^^^^^^\n");
}

TEST(Changes, NothingIsSeenInAnUnseenEditionButWhatItNames) {
  const std::string unseen = "unseen = true\n";
  const Book plain = second("");
  EXPECT_TRUE(plain.tables.at("load").entry.seen);
  const Book dark = second(unseen);
  EXPECT_FALSE(dark.tables.at("load").entry.seen);
  EXPECT_FALSE(dark.rules.at("limit").entry.seen);
  const Book named = second(unseen + "[[same]]\nsource = \"b\"\ntables = [\"load\"]\n" + change("rule = \"limit\"\nfield = \"percent\"\nwas = 125\nnow = 1\n") +
                            "[rule.fresh]\ntitle = \"F\"\nclause = \"9\"\nbasis = \"memory\"\nsource = \"b\"\n");
  EXPECT_TRUE(named.tables.at("load").entry.seen);
  EXPECT_TRUE(named.rules.at("limit").entry.seen);
  EXPECT_TRUE(named.rules.at("fresh").entry.seen);
}

TEST(Amendments, LieOverABuiltEdition) {
  std::vector<Book> books;
  ASSERT_EQ(reading({{"rules/one/edition.toml", edition_file}, {"rules/one/base.toml", base_file}}, &books), "");
  std::vector<Book> thawed = thaw(freeze(books).view());
  Diagnostics d;
  const RuleFile town{"town.toml", "[edition]\nid = \"town\"\ntitle = \"Town\"\nbase = \"one\"\nadopted = 2025-07-01\nordinance = \"12-3\"\n" +
                                       change("rule = \"limit\"\nfield = \"length\"\nwas = \"24 in\"\nnow = \"12 in\"\n")};
  lay_over(town, thawed, d);
  EXPECT_EQ(complaints(d), "");
  const auto edition = Edition::find(share(freeze(thawed)), "town");
  ASSERT_TRUE(edition);
  EXPECT_EQ((*edition->rule("limit"))["length"].text(), "12 in");
  EXPECT_EQ((*edition->rule("limit"))["length"].origin().file, "town.toml");
  EXPECT_EQ(edition->adopted(), "2025-07-01");
  EXPECT_EQ(edition->ordinance(), "12-3");
  lay_over(town, thawed, d);
  EXPECT_EQ(complaints(d), "town.toml:2:6: there is an edition 'town' already\n  id = \"town\"\n       ^^^^^^\n");
  Diagnostics broken;
  lay_over({"town.toml", "[edition\n"}, thawed, broken);
  EXPECT_EQ(complaints(broken).find("town.toml:1:9: "), 0u) << complaints(broken);
}

}  // namespace
}  // namespace pullproof::code
