// The program from outside: commands, options, exit statuses.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "engine/check.hpp"
#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

using test::run;
using test::RunOptions;
using test::Scratch;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

// A case that passes, fails or is open by its load alone: 14 AWG copper carries 20 A at 75 °C (2021 IRC E3705.1).
std::string small_case(std::string_view load) {
  return fmt::format(R"(edition = "us-2023"
supply = {{ system = "120/240 V 1-phase 3-wire", available_fault = "4 kA" }}
[[raceway]]
name = "wall"
type = "EMT"
size = "1/2"
length = "10 ft"
place = "indoors, dry"
[[circuit]]
name = "lamp"
voltage = "120 V"
path = ["wall"]
breaker = {{ rating = "15 A", terminals = "75 °C", interrupting = "10 kA" }}
load = {{ {} }}
wire = {{ size = "14 AWG", material = "copper", type = "THHN", hot = "black", neutral = "white" }}
ground = {{ size = "14 AWG", color = "green" }}
)", load);
}

TEST(CommandLine, SaysWhatItIsAndWhatItCanDo) {
  const auto version = run({"--version"});
  EXPECT_EQ(version.status, 0);
  EXPECT_THAT(version.out, testing::MatchesRegex("pullproof [0-9]+\\.[0-9]+\\.[0-9]+\n"));
  const auto help = run({"--help"});
  EXPECT_EQ(help.status, 0);
  for (const char* command : {"check", "explain", "keys", "rules list", "rules show", "rules diff"}) {
    EXPECT_THAT(help.out, HasSubstr(command));
    std::vector<std::string> words;
    std::istringstream in(command);
    for (std::string w; in >> w;) words.push_back(w);
    words.emplace_back("--help");
    const auto own = run(words);
    EXPECT_EQ(own.status, 0) << command;
    EXPECT_THAT(own.out, StartsWith(std::string("pullproof ") + command));
    EXPECT_THAT(own.out, HasSubstr("Examples:"));
    EXPECT_EQ(own.err, "");
  }
}

TEST(CommandLine, HelpFitsIntoEightyColumns) {
  for (const auto& words : std::vector<std::vector<std::string>>{{"--help"}, {"check", "--help"}, {"explain", "--help"}, {"keys", "--help"}, {"rules", "--help"}}) {
    std::istringstream in(run(words).out);
    for (std::string line; std::getline(in, line);) EXPECT_LE(line.size(), 80u) << line;
  }
}

TEST(CommandLine, RefusesWhatItDoesNotKnowAndNamesTheNearest) {
  const auto refused = [](const std::vector<std::string>& words, std::string_view message, std::string_view note) {
    const auto r = run(words);
    EXPECT_EQ(r.status, 2) << message;
    EXPECT_EQ(r.out, "") << message;
    EXPECT_THAT(r.err, HasSubstr(std::string(message)));
    EXPECT_THAT(r.err, HasSubstr(std::string(note)));
  };
  refused({}, "a command is wanted", "check");
  refused({"chekc"}, "there is no command 'chekc'", "did you mean 'check'?");
  refused({"rules"}, "'rules' wants one of", "show");
  refused({"rules", "shwo"}, "there is no command 'rules shwo'", "did you mean 'show'?");
  refused({"--full", "check"}, "the command comes first", "--help");
  refused({"check", "--fulll", "x"}, "'check' has no option '--fulll'", "did you mean '--full'?");
  refused({"keys", "--full"}, "'keys' has no option '--full'", "known: --help, --color");
  refused({"check", "--ful", "x"}, "'check' has no option '--ful'", "did you mean '--full'?");
  refused({"check", "-x", "x"}, "'check' has no option '-x'", "");
  refused({"check"}, "'check' wants FILE...", "--help");
  refused({"check", "--format"}, "'--format'", "--help");
  refused({"check", "--format", "xml", "x"}, "--format is one of text, json, not 'xml'", "");
  refused({"check", "--color", "blue", "x"}, "--color is one of auto, always, never, not 'blue'", "");
  refused({"check", "--edition=", "x"}, "--edition", "");
  refused({"check", "--edition", "us-2032", "x"}, "there is no edition 'us-2032'", "did you mean 'us-2023'?");
  refused({"check", "--rules", "nowhere", "x"}, "the rules folder 'nowhere' cannot be read: there is no such file", "");
  refused({"explain", "ampacities"}, "there is no check 'ampacities'", "did you mean 'ampacity'?");
  refused({"explain", "ampacity", "scope"}, "'explain' takes no 'scope'", "usage");
  refused({"keys", "circiut"}, "a case has no table 'circiut'", "did you mean 'circuit'?");
  refused({"rules", "show", "ampacty"}, "NFPA 70-2023 has no table or rule 'ampacty'", "did you mean 'ampacity'?");
  refused({"rules", "show", "qqq"}, "has no table or rule 'qqq'", "`pullproof rules list us-2023` lists them");
  refused({"rules", "show", "ampacity", "--row", "14 AGW"}, "the table 'ampacity' has no row '14 AGW'", "did you mean '14 AWG'?");
  refused({"rules", "diff", "us-2023"}, "'rules diff' wants A B", "");
  refused({"rules", "diff", "us-2023", "us-2099"}, "there is no edition 'us-2099'", "known:");
}

TEST(CommandLine, AnOptionWordCanDriveNoTerminal) {
  const auto r = run({"check", "--edition", "\033[2J\a", "x"});
  EXPECT_EQ(r.status, 2);
  EXPECT_EQ(r.err.find('\033'), std::string::npos);
  EXPECT_EQ(r.err.find('\a'), std::string::npos);
}

TEST(ExitStatus, SaysHowTheCaseDid) {
  const Scratch s;
  const auto fail = s.file("fail.toml", small_case("current = \"60 A\", continuous = false, terminals = \"75 °C\""));
  const auto open = s.file("open.toml", small_case("continuous = false, terminals = \"75 °C\""));
  const auto bad = s.file("bad.toml", "edition = \n");
  EXPECT_EQ(run({"check", fail}).status, 1);
  EXPECT_EQ(run({"check", open}).status, 3);
  EXPECT_EQ(run({"check", bad}).status, 2);
  // As the library has it, for a case that does as well as it can.
  const Outcome outcome = test::check_text(test::read_text(test::source_dir() / "cases/wash-house.toml")).outcome();
  const int best = outcome == Outcome::pass ? 0 : outcome == Outcome::open ? 3 : 1;
  EXPECT_EQ(run({"check", "cases/wash-house.toml"}).status, best);
  // The worst of several, whatever their order: 2, then 1, then 3, then 0.
  EXPECT_EQ(run({"check", fail, bad, open}).status, 2);
  EXPECT_EQ(run({"check", open, fail}).status, 1);
  EXPECT_EQ(run({"check", fail, open}).status, 1);
  EXPECT_EQ(run({"check", "cases/wash-house.toml", open}).status, 3);
  EXPECT_EQ(run({"check", open, "cases/wash-house.toml"}).status, 3);
  EXPECT_EQ(run({"check", "--format", "json", bad, fail}).status, 2);
}

TEST(ExitStatus, OfSeveralFilesEachIsReportedAndEachComplaintShown) {
  const Scratch s;
  const auto one = s.file("one.toml", "edition = \"us-2023\"\nsize = 3\n"), two = s.file("two.toml", "edition = \"us-2033\"\n");
  const auto r = run({"check", one, "cases/wash-house.toml", two});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("one.toml:2:1: unknown key 'size'"));
  EXPECT_THAT(r.err, HasSubstr("two.toml:1:11: there is no edition 'us-2033'"));
  EXPECT_THAT(r.out, HasSubstr("cases/wash-house.toml, checked to NFPA 70-2023"));
}

TEST(Color, IsForTerminalsUnlessAskedFor) {
  EXPECT_THAT(run({"check", "cases/wash-house.toml"}).out, Not(HasSubstr("\033")));
  EXPECT_THAT(run({"check", "--color", "always", "cases/wash-house.toml"}).out, HasSubstr("\033["));
  RunOptions no;
  no.environment = {"NO_COLOR=1", "TERM=xterm"};
  EXPECT_THAT(run({"check", "--color", "auto", "cases/wash-house.toml"}, no).out, Not(HasSubstr("\033")));
}

TEST(Explain, TellsAboutEveryCheckInEveryEdition) {
  const auto list = run({"explain"});
  EXPECT_EQ(list.status, 0);
  RunOptions o;
  o.often = true;
  for (const Check* c : all_checks()) {
    EXPECT_THAT(list.out, HasSubstr(std::string(c->id)));
    for (const char* edition : {"us-2017", "us-2020", "us-2023", "us-2026", "pine-cove"}) {
      const auto r = run({"explain", std::string(c->id), "--edition", edition}, o);
      EXPECT_EQ(r.status, 0) << c->id;
      EXPECT_THAT(r.out, StartsWith(std::string(c->id) + ": "));
      EXPECT_THAT(r.out, HasSubstr("Rests on, in "));
    }
  }
}

TEST(Rules, ShowsWhereAChangedCellComesFrom) {
  // 10 A became a standard rating of breakers in 2023.
  const auto r = run({"rules", "show", "standard-ratings", "--row", "10"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, HasSubstr("yes*"));
  EXPECT_THAT(r.out, testing::ContainsRegex("10, breaker yes \\(was no\\): rules/us-2023.toml:[0-9]+; 240.6\\(A\\);"));
  EXPECT_THAT(run({"rules", "show", "standard-ratings", "--row", "10", "--edition", "us-2020"}).out, Not(HasSubstr("yes*")));
}

TEST(Rules, ShowsEveryEntryOfEveryEdition) {
  const auto store = code::built_in();
  for (const auto& record : store->editions) {
    const auto e = code::Edition::find(store, store->text(record.id));
    const auto list = run({"rules", "list", std::string(e->id())});
    EXPECT_EQ(list.status, 0);
    for (std::size_t i = 0; i < e->table_count(); ++i) EXPECT_THAT(list.out, HasSubstr(std::string(e->table_at(i).name())));
  }
  const auto e = code::Edition::find(store, "us-2023");
  for (std::size_t i = 0; i < e->table_count(); ++i) {
    const auto t = e->table_at(i);
    const auto shown = run({"rules", "show", std::string(t.name())});
    EXPECT_EQ(shown.status, 0) << t.name();
    EXPECT_THAT(shown.out, HasSubstr(std::string(t.column_name(t.columns() - 1)))) << t.name();
    std::istringstream in(shown.out);
    for (std::string line; std::getline(in, line);) EXPECT_LE(display_width(line), 80u) << t.name() << ": " << line;
  }
}

TEST(Rules, DiffNamesWhatAnAmendmentChanges) {
  const auto r = run({"rules", "diff", "us-2023", "pine-cove"});
  EXPECT_EQ(r.status, 0);
  EXPECT_THAT(r.out, testing::ContainsRegex("binding: no -> yes \\(rules/local/pine-cove.toml:[0-9]+\\)"));
  EXPECT_THAT(run({"rules", "diff", "us-2023", "us-2023"}).out, HasSubstr("They say the same."));
}

TEST(Rules, AnotherFolderCanStandInForTheBuiltInOnes) {
  EXPECT_EQ(run({"check", "--rules", "rules", "cases/wash-house.toml"}).out, run({"check", "cases/wash-house.toml"}).out);
  const Scratch s;
  s.file("rules/broken/edition.toml", "[edition]\nid = 3\n");
  const auto r = run({"rules", "list", "--rules", s.path("rules").string()});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("edition.toml:2:6: text is wanted here"));
  s.file("empty/readme.txt", "");
  EXPECT_THAT(run({"rules", "list", "--rules", s.path("empty").string()}).err, HasSubstr("there are no .toml files"));
}

}  // namespace
}  // namespace pullproof
