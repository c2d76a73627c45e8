// `pullproof check` over files, folders and lists: in order, whatever is in the way, and as far as it got when it is
// interrupted.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidjson/document.h>

#include <filesystem>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;
using test::run;
using test::Scratch;
using test::shell;
using testing::HasSubstr;

std::string demo(const char* name) { return (test::source_dir() / "cases" / (std::string(name) + ".toml")).string(); }

/// A folder with a case of each outcome, an unreadable one, and what is to be left out.
void fill(const Scratch& scratch) {
  fs::create_directories(scratch.path("jobs/b/c"));
  fs::create_directories(scratch.path("jobs/.old"));
  fs::copy(demo("wash-house"), scratch.path("jobs/z.toml"));
  fs::copy(demo("dozen-faults"), scratch.path("jobs/b/c/fails.toml"));
  fs::copy(demo("first-look"), scratch.path("jobs/b/open.toml"));
  scratch.file("jobs/a.toml", "edition =");
  scratch.file("jobs/notes.txt", "no case");
  scratch.file("jobs/.old/x.toml", "hidden");
  scratch.file("jobs/.x.toml", "hidden");
}

TEST(ManyCases, OfAFolderComeInTheOrderOfTheirNames) {
  const Scratch scratch;
  fill(scratch);
  for (const char* jobs : {"1", "2", "5"}) {
    const auto r = run({"check", "--brief", "--jobs", jobs, "jobs"}, {.folder = scratch.path()});
    EXPECT_EQ(r.status, 2);
    EXPECT_THAT(r.out, testing::MatchesRegex("unreadable  jobs/a.toml\n"
                                             "fail        jobs/b/c/fails.toml: .*circuit heater .*\n"
                                             "open        jobs/b/open.toml\n"
                                             "pass        jobs/z.toml\n"));
    EXPECT_THAT(r.err, HasSubstr("jobs/a.toml:1:"));
    EXPECT_THAT(r.err, HasSubstr("pullproof: 4 cases: 1 pass, 1 fail, 1 open, 1 unreadable\n"));
  }
}

TEST(ManyCases, GiveTheSameReportsAsOneByOne) {
  const Scratch scratch;
  fill(scratch);
  std::string one_by_one;
  for (const char* name : {"jobs/b/c/fails.toml", "jobs/b/open.toml", "jobs/z.toml"})
    one_by_one += (one_by_one.empty() ? "" : "\n" + std::string(80, '=') + "\n\n") + run({"check", "--remedies", "never", name}, {.folder = scratch.path()}).out;
  EXPECT_EQ(run({"check", "jobs/b", "jobs/z.toml"}, {.folder = scratch.path()}).out, one_by_one);
}

TEST(ManyCases, AreOneObjectInJson) {
  const Scratch scratch;
  fill(scratch);
  const auto r = run({"check", "--format", "json", "jobs"}, {.folder = scratch.path()});
  rapidjson::Document d;
  d.Parse(r.out.data(), r.out.size());
  ASSERT_FALSE(d.HasParseError());
  ASSERT_EQ(d["reports"].Size(), 4u);
  EXPECT_STREQ(d["reports"][0]["outcome"].GetString(), "unreadable");
  EXPECT_STREQ(d["reports"][3]["file"].GetString(), "jobs/z.toml");
}

TEST(ManyCases, LinksThatGoRoundInACircleAreNotFollowed) {
  const Scratch scratch;
  fill(scratch);
  fs::create_directory_symlink("..", scratch.path("jobs/b/up"));
  fs::create_directory_symlink(".", scratch.path("jobs/self"));
  fs::create_symlink("loop.toml", scratch.path("jobs/loop.toml"));
  fs::create_symlink("z.toml", scratch.path("jobs/also.toml"));
  fs::create_directory_symlink("jobs", scratch.path("other"));
  const auto r = run({"check", "--brief", "other"}, {.folder = scratch.path()});
  EXPECT_THAT(r.err, HasSubstr("other/loop.toml: the case cannot be read: its symbolic links go round in a circle"));
  EXPECT_THAT(r.err, HasSubstr("6 cases: 2 pass, 1 fail, 1 open, 2 unreadable"));
}

TEST(ManyCases, AFolderWithoutCasesIsNotPassedInSilence) {
  const Scratch scratch;
  fs::create_directories(scratch.path("empty/.git"));
  const auto r = run({"check", "empty"}, {.folder = scratch.path()});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("empty: there is no .toml file in the folder"));
}

TEST(ManyCases, AFolderThatMayNotBeReadIsSaid) {
  const Scratch scratch;
  fill(scratch);
  fs::permissions(scratch.path("jobs/b/c"), fs::perms::none);
  const auto r = run({"check", "--brief", "jobs"}, {.folder = scratch.path(), .bound_by_permissions = true});
  fs::permissions(scratch.path("jobs/b/c"), fs::perms::owner_all);
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("jobs/b/c: the folder cannot be read: permission is denied"));
  EXPECT_THAT(r.out, HasSubstr("pass        jobs/z.toml"));
}

TEST(ManyCases, AListNamesFilesAndFolders) {
  const Scratch scratch;
  fill(scratch);
  const auto lines = run({"check", "--brief", "--list", "-"}, {.input = "jobs/z.toml\n\njobs/b\ngone.toml\n-\njobs/z.toml", .folder = scratch.path()});
  EXPECT_THAT(lines.err, HasSubstr("gone.toml: the case cannot be read: there is no such file"));
  EXPECT_THAT(lines.err, HasSubstr("a list cannot name standard input"));
  EXPECT_THAT(lines.err, HasSubstr("6 cases: 2 pass, 1 fail, 1 open, 2 unreadable"));
  const std::string odd("jobs/new\nline.toml");
  fs::copy(demo("wash-house"), scratch.path(odd));
  const auto null = run({"check", "--brief", "--null", "--list", "-"}, {.input = odd + '\0' + "jobs/z.toml" + '\0', .folder = scratch.path()});
  EXPECT_EQ(null.status, 0) << null.err;
  EXPECT_EQ(null.out, "pass        jobs/new\uFFFDline.toml\npass        jobs/z.toml\n");
}

TEST(ManyCases, AListMayBeLong) {
  std::string list;
  constexpr int names = 100'000;
  for (int i = 0; i < names; ++i) list += fmt::format("jobs/{}.toml\n", i);
  const Scratch scratch;
  scratch.file("list", list);
  const auto r = shell("\"$PULLPROOF\" check --brief --list list 2>&1 | tail -n 1", scratch.path());
  EXPECT_EQ(r.out, "pullproof: 100000 cases: 100000 unreadable\n");
}

TEST(ManyCases, NoneAtAllIsNotPassedInSilence) {
  const auto empty = run({"check", "--brief", "--list", "-"}, {.input = "\n\n"});
  EXPECT_EQ(empty.status, 2);
  EXPECT_EQ(empty.err, "pullproof: no case was checked\n  note: the list names none\n");
  const auto beyond = run({"check", "--from", "3", demo("wash-house"), demo("first-look")});
  EXPECT_EQ(beyond.status, 2);
  EXPECT_EQ(beyond.out, "");
  EXPECT_THAT(beyond.err, HasSubstr("there are fewer than 3 cases"));
}

TEST(ManyCases, OneThatCannotBeWrittenLeavesTheOthersTheirReports) {
  const Scratch scratch;
  fs::create_directory(scratch.path("locked"));
  fs::copy(demo("far-bath-house"), scratch.path("locked/a.toml"));
  fs::copy(demo("far-bath-house"), scratch.path("b.toml"));
  fs::permissions(scratch.path("locked"), fs::perms::owner_read | fs::perms::owner_exec);
  const auto r = run({"check", "--apply", "--format", "json", "locked/a.toml", "b.toml"}, {.folder = scratch.path(), .bound_by_permissions = true});
  fs::permissions(scratch.path("locked"), fs::perms::owner_all);
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("'locked/a.toml' cannot be written: permission is denied"));
  rapidjson::Document d;
  d.Parse(r.out.data(), r.out.size());
  ASSERT_FALSE(d.HasParseError());
  ASSERT_EQ(d["reports"].Size(), 2u);
  EXPECT_STREQ(d["reports"][0]["outcome"].GetString(), "unreadable");
  EXPECT_STREQ(d["reports"][1]["outcome"].GetString(), "pass");
}

TEST(ManyCases, AListThatCannotBeReadIsSaid) {
  EXPECT_THAT(run({"check", "--list", "nowhere"}).err, HasSubstr("'nowhere' cannot be read"));
  EXPECT_EQ(run({"check", "--list", "nowhere"}).status, 2);
  EXPECT_EQ(run({"check", "--list", "."}).status, 2);
  EXPECT_THAT(run({"check", "-", "--list", "-"}).err, HasSubstr("standard input can be read once"));
  EXPECT_THAT(run({"check"}).err, HasSubstr("wants FILE..., or --list"));
  EXPECT_THAT(run({"check", "--null", "x.toml"}).err, HasSubstr("there is no --list"));
}

TEST(ManyCases, AreKeptWhenInterruptedAndSayWhereToGoOn) {
  const Scratch scratch;
  fill(scratch);
  for (const auto& [signal, status] : {std::pair{"INT", 130}, std::pair{"TERM", 143}}) {
    const auto r = shell(fmt::format("mkfifo names; set -m; \"$PULLPROOF\" check --brief --list names >done & exec 3>names; "
                                     "printf '{0}\\n{0}\\n' >&3; until [ \"$(wc -l <done)\" = 2 ]; do sleep 0.05; done; kill -{1} $!; "
                                     "wait $!; echo $?; wc -l <done; rm names", demo("wash-house"), signal), scratch.path());
    EXPECT_EQ(r.out, fmt::format("{}\n2\n", status)) << r.err;
    EXPECT_THAT(r.err, HasSubstr("stopped after case 2: 2 cases: 2 pass\n  note: go on with --from 3\n"));
  }
  const auto rest = run({"check", "--brief", "--from", "3", "jobs"}, {.folder = scratch.path()});
  EXPECT_EQ(rest.out, "open        jobs/b/open.toml\npass        jobs/z.toml\n");
}

TEST(ManyCases, OfWhichSomeVanishOnTheWayAreReported) {
  const Scratch scratch;
  fill(scratch);
  // A folder is read at once; its first case is a pipe, so that another can go while the program waits for that one.
  const auto r = shell("mkfifo jobs/0.toml; \"$PULLPROOF\" check --brief --jobs 1 jobs & exec 3>jobs/0.toml; rm jobs/z.toml; cat '" + demo("wash-house") +
                       "' >&3; exec 3>&-; wait $!; echo $?", scratch.path());
  EXPECT_THAT(r.out, HasSubstr("pass        jobs/0.toml"));
  EXPECT_THAT(r.out, HasSubstr("fail        jobs/b/c/fails.toml"));
  EXPECT_THAT(r.out, HasSubstr("unreadable  jobs/z.toml\n2\n"));
  EXPECT_THAT(r.err, HasSubstr("jobs/z.toml: the case cannot be read: there is no such file"));
}

TEST(ManyCases, ChangesAreWrittenIntoEach) {
  const Scratch scratch;
  fs::copy(demo("far-bath-house"), scratch.path("one.toml"));
  fs::copy(demo("far-bath-house"), scratch.path("two.toml"));
  const auto r = run({"check", "--apply", "one.toml", "two.toml", "one.toml"}, {.folder = scratch.path()});
  EXPECT_EQ(r.status, 0) << r.out << r.err;
  EXPECT_EQ(run({"check", "--brief", "one.toml", "two.toml"}, {.folder = scratch.path()}).out, "pass        one.toml\npass        two.toml\n");
}

#ifndef PULLPROOF_SANITIZED  // sanitizers take all the address space that there is
TEST(Memory, ThatDoesNotSufficeIsSaid) {
  const Scratch scratch;
  scratch.file("large.toml", "# " + std::string(900'000, 'x') + "\n");
  bool starts = false, said = false, enough = false;
  for (int limit = 8'000; limit <= 200'000 && !enough; limit += 500) {
    const auto under_limit = [&](const char* words) { return shell(fmt::format("ulimit -v {}; \"$PULLPROOF\" {}", limit, words), scratch.path()); };
    starts = starts || under_limit("--version").status == 0;  // with less, the system cannot even load it
    if (!starts) continue;
    const auto r = under_limit("check large.toml");
    ASSERT_EQ(r.status, 2) << limit << " KiB: " << r.err;
    said = said || r.err.starts_with("pullproof: there is not enough memory\n");
    enough = r.err.starts_with("large.toml:1:1:");
  }
  EXPECT_TRUE(said);
  EXPECT_TRUE(enough);
}
#endif

}  // namespace
}  // namespace pullproof
