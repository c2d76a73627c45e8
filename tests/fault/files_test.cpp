// Files that are not what they should be, and readers that go away.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <chrono>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;
using test::flat;
using test::Ran;
using test::run;
using test::RunOptions;
using test::Scratch;
using testing::HasSubstr;

void expect_unreadable(const Ran& r, std::string_view why) {
  EXPECT_EQ(r.status, 2);
  EXPECT_EQ(r.out, "");
  EXPECT_THAT(r.err, HasSubstr(std::string(why)));
}

TEST(Files, ThatCannotBeReadSayWhy) {
  const Scratch s;
  expect_unreadable(run({"check", "nowhere.toml"}), "nowhere.toml: the case cannot be read: there is no such file");
  expect_unreadable(run({"check", s.path().string()}), "there is no .toml file in the folder");
  expect_unreadable(run({"reach", s.path().string()}), "the case cannot be read: it is a folder");
  expect_unreadable(run({"check", s.file("plain", "") + "/case.toml"}), "a part of its path is a file, no folder");
  expect_unreadable(run({"check", ""}), "its name is empty");
  expect_unreadable(run({"check", std::string(5000, 'a')}), "its name is too long");
  fs::create_symlink(s.path("round"), s.path("round"));
  expect_unreadable(run({"check", s.path("round").string()}), "its symbolic links go round in a circle");
}

TEST(Files, WithoutPermissionSaySo) {
  const Scratch s;
  const auto file = s.file("secret.toml", "edition = \"us-2023\"\n");
  fs::permissions(file, fs::perms::none);
  RunOptions o;
  o.bound_by_permissions = true;
  expect_unreadable(run({"check", file}, o), "permission is denied");
}

TEST(Files, ThatAreTooLargeAreNotReadToTheEnd) {
  const Scratch s;
  const auto limit = s.file("limit.toml", std::string("edition = \"us-2023\"\n#") + std::string(1024 * 1024 - 21, 'x'));
  EXPECT_EQ(fs::file_size(limit), 1024u * 1024u);
  EXPECT_THAT(run({"check", limit}).err, testing::Not(HasSubstr("larger")));
  expect_unreadable(run({"check", s.file("over.toml", std::string(1024 * 1024 + 1, '#'))}), "it is larger than 1 MiB");
  fs::resize_file(s.file("sparse.toml", ""), std::uintmax_t{1} << 40);  // a terabyte of nothing
  expect_unreadable(run({"check", s.path("sparse.toml").string()}), "it is larger than 1 MiB");
  expect_unreadable(run({"check", "/dev/zero"}), "it is larger than 1 MiB");
}

TEST(Files, OfNothingOrOfBytesAreComplainedOf) {
  const Scratch s;
  expect_unreadable(run({"check", "/dev/null"}), "/dev/null:1:1: the case does not say which edition");
  expect_unreadable(run({"check", s.file("zero.toml", std::string("a\0b", 3))}), "zero byte");
  expect_unreadable(run({"check", s.file("bytes.toml", "a = \"\xff\xfe\"")}), "bytes.toml:1:");
}

TEST(Files, ANamedPipeIsRead) {
  const Scratch s;
  const auto pipe = s.path("pipe").string();
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  const std::string text = test::read_text("cases/wash-house.toml");
  const pid_t writer = ::fork();
  if (writer == 0) {
    std::FILE* f = std::fopen(pipe.c_str(), "w");
    if (f != nullptr) std::fwrite(text.data(), 1, text.size(), f), std::fclose(f);
    ::_exit(0);
  }
  EXPECT_THAT(flat(run({"check", pipe}).out), HasSubstr("pipe, checked to NFPA 70-2023"));
}

TEST(StandardInput, IsACaseUnderADash) {
  RunOptions o;
  o.input = test::read_text(test::source_dir() / "cases/wash-house.toml");
  const auto r = run({"check", "-"}, o);
  EXPECT_EQ(r.err, "");
  EXPECT_THAT(r.out, HasSubstr("(standard input), checked to"));
  EXPECT_EQ(r.status, run({"check", "cases/wash-house.toml"}).status);
  EXPECT_EQ(run({"check", "--", "-"}, o).out, r.out);
  o.input = "edition = \"us-2023\"\nsize = 1\n";
  expect_unreadable(run({"check", "-"}, o), "(standard input):2:1: unknown key 'size'");
  expect_unreadable(run({"check", "-", "-"}, o), "standard input can be read once");
  o.input = std::string(4 * 1024 * 1024, '#');
  expect_unreadable(run({"check", "-"}, o), "it is larger than 1 MiB");
}

TEST(StandardInput, TwoDashesEndTheOptions) {
  const Scratch s;
  s.file("--full", test::read_text(test::source_dir() / "cases/wash-house.toml"));
  RunOptions o;
  o.folder = s.path();
  const auto r = run({"check", "--", "--full"}, o);
  EXPECT_EQ(r.err, "");
  EXPECT_THAT(r.out, HasSubstr("--full, checked to"));
}

TEST(Output, AReaderThatGoesAwayIsNoError) {
  RunOptions o;
  o.close_output = true;
  const auto killed = run({"check", "cases/wash-house.toml"}, o);
  EXPECT_EQ(killed.err, "");
  EXPECT_EQ(killed.status, 128 + SIGPIPE);
  o.ignore_pipe_signal = true;
  const auto told = run({"check", "cases/wash-house.toml"}, o);
  EXPECT_EQ(told.err, "");
  EXPECT_EQ(told.status, run({"check", "cases/wash-house.toml"}).status);
}

TEST(Output, AFullDiskIsSaid) {
  RunOptions o;
  o.output = "/dev/full";
  for (const std::string form : {"text", "json"}) {
    const auto r = run({"check", "--format", form, "cases/wash-house.toml"}, o);
    EXPECT_EQ(r.status, 2);
    EXPECT_THAT(r.err, HasSubstr("the output cannot be written"));
  }
  EXPECT_EQ(run({"--help"}, o).status, 2);
}

// --- amendments named by a case ---

class CaseAmendments : public testing::Test {
 protected:
  std::string town(const std::string& id, const std::string& base, const std::string& was, const std::string& now) const {
    return "[edition]\nid = \"" + id + "\"\ntitle = \"" + id + " code\"\nbase = \"" + base + "\"\nordinance = \"1\"\n" +
           "[[change]]\nrule = \"branch-drop\"\nfield = \"percent\"\nwas = " + was + "\nnow = " + now +
           "\nsource = \"invented\"\nbasis = \"published\"\n";
  }
  std::string job(const std::string& head) const {
    std::string text = test::read_text(test::source_dir() / "cases/wash-house.toml");
    const std::string line = "edition = \"us-2023\"";
    return text.replace(text.find(line), line.size(), head);
  }
  Scratch s;
};

TEST_F(CaseAmendments, AreFoundBesideTheCase) {
  s.file("towns/town.toml", town("town", "us-2023", "3", "2.5"));
  const auto file = s.file("case.toml", job("edition = \"towns/town.toml\""));
  const auto r = run({"check", file});
  EXPECT_EQ(r.err, "");
  EXPECT_THAT(flat(r.out), HasSubstr("checked to NFPA 70-2023, amended by town code"));
  const auto laid = run({"check", s.file("laid.toml", job("edition = \"us-2023\"\namendments = [\"towns/town.toml\"]"))});
  EXPECT_EQ(laid.err, "");
  EXPECT_THAT(flat(laid.out), HasSubstr("amended by town code"));
}

TEST_F(CaseAmendments, LieOnOneAnotherInOrder) {
  s.file("a.toml", town("a", "us-2023", "3", "2.5"));
  s.file("b.toml", town("b", "us-2023", "2.5", "2"));
  const auto good = run({"check", s.file("case.toml", job("edition = \"us-2023\"\namendments = [\"a.toml\", \"b.toml\"]"))});
  EXPECT_EQ(good.err, "");
  EXPECT_THAT(flat(good.out), HasSubstr("amended by a code, amended by b code"));
  // The other way round, what b replaces is not there yet.
  const auto bad = run({"check", s.file("case.toml", job("edition = \"us-2023\"\namendments = [\"b.toml\", \"a.toml\"]"))});
  EXPECT_EQ(bad.status, 2);
  EXPECT_THAT(bad.err, HasSubstr("b.toml:9:7: the base edition does not say this about 'percent'"));
}

TEST_F(CaseAmendments, ThatCannotBeUsedAreComplainedOf) {
  const auto refused = [&](const std::string& head, const std::string& why) {
    expect_unreadable(run({"check", s.file("case.toml", job(head))}), why);
  };
  refused("edition = \"nowhere.toml\"", "the amendment '" + s.path("nowhere.toml").string() + "' cannot be read: there is no such file");
  refused("edition = \"us-2023\"\namendments = [\"pine-cove\"]", "case.toml:3:15: 'pine-cove' is an edition, and amendments are files");
  s.file("broken.toml", "[edition\n");
  refused("edition = \"broken.toml\"", "broken.toml:1:");
  s.file("old.toml", town("old", "us-2020", "3", "2.5"));
  const auto wrong = run({"check", s.file("case.toml", job("edition = \"us-2017\"\namendments = [\"old.toml\"]"))});
  EXPECT_EQ(wrong.status, 2);
  EXPECT_THAT(wrong.err, HasSubstr("old.toml:4:8: this changes 'us-2020', which the case is not checked to"));
  s.file("huge.toml", std::string(2 * 1024 * 1024, '#'));
  refused("edition = \"huge.toml\"", "it is larger than 1 MiB");
  s.file("deaf.toml", town("deaf", "us-2023", "4", "2.5"));
  refused("edition = \"deaf.toml\"", "deaf.toml:9:7:");
}

TEST_F(CaseAmendments, CanBeNamedOnTheCommandLine) {
  const auto file = s.file("town.toml", town("town", "us-2020", "3", "2.5"));
  const auto r = run({"check", "--edition", file, "cases/wash-house.toml"});
  EXPECT_EQ(r.err, "");
  EXPECT_THAT(flat(r.out), HasSubstr("checked to NFPA 70-2020, amended by town code"));
  EXPECT_THAT(run({"rules", "diff", "us-2020", file}).out, testing::ContainsRegex("percent: 3 -> 2.5"));
  EXPECT_THAT(flat(run({"rules", "show", "branch-drop", "--edition", file}).out), testing::ContainsRegex("percent 2.5 \\(was 3\\): .*town.toml:10"));
}

TEST_F(CaseAmendments, MayHaveTheIdOfABuiltInOne) {
  s.file("pine-cove.toml", town("pine-cove", "us-2023", "3", "2.5"));
  const auto r = run({"check", s.file("case.toml", job("edition = \"pine-cove.toml\""))});
  EXPECT_EQ(r.err, "");
  EXPECT_THAT(flat(r.out), HasSubstr("amended by pine-cove code"));
}

}  // namespace
}  // namespace pullproof
