// `report` from outside: forms, refusals, and that a file appears whole or not at all, whatever fails.
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <cerrno>
#include <set>
#include <thread>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;
using test::run;
using test::RunOptions;
using test::Scratch;
using testing::HasSubstr;
using testing::StartsWith;

const std::string passes = "cases/wash-house.toml", fails = "cases/dozen-faults.toml";

std::set<std::string> files_in(const fs::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder)) names.insert(entry.path().filename());
  return names;
}

TEST(ReportCommand, WritesTheFormThatTheNameSays) {
  const Scratch s;
  const std::pair<const char*, const char*> forms[] = {{"a.html", "<!DOCTYPE html>"}, {"a.HTM", "<!DOCTYPE html>"}, {"a.md", "# Water heater"}, {"a.txt", "PASS: "}, {"a.json", "{"}};
  for (const auto& [name, begins] : forms) {
    const auto r = run({"report", passes, "-o", s.path(name).string()});
    EXPECT_EQ(r.status, 0) << name << r.err;
    EXPECT_EQ(r.out, "") << name;
    EXPECT_EQ(r.err, "") << name;
    EXPECT_THAT(test::read_text(s.path(name)), StartsWith(begins)) << name;
  }
  EXPECT_EQ(test::read_text(s.path("a.txt")), run({"check", "--full", passes}).out);
  EXPECT_EQ(test::read_text(s.path("a.json")), run({"check", "--format", "json", passes}).out);
}

TEST(ReportCommand, GoesToStandardOutputInTheFormThatIsAskedFor) {
  const Scratch s;
  run({"report", fails, "-o", s.path("a.html").string(), "--paper", "a4"});
  const auto r = run({"report", fails, "-o", "-", "--format", "html", "--paper", "a4"});
  EXPECT_EQ(r.status, 1);
  EXPECT_EQ(r.out, test::read_text(s.path("a.html")));
  RunOptions piped;
  piped.input = test::read_text(test::source_dir() / passes);
  EXPECT_THAT(run({"report", "-", "-o", "-", "--format", "md"}, piped).out, StartsWith("# Water heater"));
}

TEST(ReportCommand, EndsWithTheStatusOfCheck) {
  const Scratch s;
  for (const auto& entry : fs::directory_iterator(test::source_dir() / "cases")) {
    if (entry.path().extension() != ".toml") continue;
    const std::string file = entry.path().string(), out = s.path(entry.path().stem().string() + ".html").string();
    EXPECT_EQ(run({"report", file, "-o", out}).status, run({"check", file}).status) << file;
  }
}

TEST(ReportCommand, ChecksToAnotherEditionWhenAsked) {
  const auto r = run({"report", passes, "-o", "-", "--format", "md", "--edition", "us-2017"});
  EXPECT_THAT(r.out, HasSubstr("| Checked to | NFPA 70-2017 |"));
}

TEST(ReportCommand, RefusesWhatCannotBe) {
  const Scratch s;
  const auto refused = [&](const std::vector<std::string>& words, const std::string& message) {
    const auto r = run(words);
    EXPECT_EQ(r.status, 2) << message;
    EXPECT_EQ(r.out, "");
    EXPECT_THAT(r.err, HasSubstr(message));
  };
  refused({"report", passes}, "'report' wants to know where to write");
  refused({"report", passes, "-o", s.path("report").string()}, "does not say which form");
  refused({"report", passes, "-o", "-"}, "standard output does not say which form");
  refused({"report", passes, "-o", s.path("a.xml").string()}, "does not say which form");
  refused({"report", passes, "-o", s.path("a.html").string(), "--format", "doc"}, "--format is one of html, pdf, md, txt, json, not 'doc'");
  refused({"report", passes, "-o", s.path("a.html").string(), "--paper", "b5"}, "--paper is one of letter, a4, not 'b5'");
  refused({"report", passes, passes, "-o", s.path("a.html").string()}, "'report' takes no");
  refused({"report", "nowhere.toml", "-o", s.path("a.html").string()}, "nowhere.toml: the case cannot be read: there is no such file");
  refused({"report", s.file("bad.toml", "edition = 3\n"), "-o", s.path("a.html").string()}, "bad.toml:1:11");
  refused({"check", "--format", "html", passes}, "--format is one of text, json, not 'html'");
  EXPECT_EQ(files_in(s.path()), std::set<std::string>{"bad.toml"});
}

TEST(ReportCommand, ReplacesAFileOnlyWhenForced) {
  const Scratch s;
  const std::string out = s.file("a.html", "mine");
  const auto r = run({"report", passes, "-o", out});
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("is there already"));
  EXPECT_THAT(r.err, HasSubstr("--force"));
  EXPECT_EQ(test::read_text(out), "mine");
  ::chmod(out.c_str(), 0640);
  EXPECT_EQ(run({"report", passes, "-o", out, "--force"}).status, 0);
  EXPECT_THAT(test::read_text(out), StartsWith("<!DOCTYPE html>"));
  struct stat about {};
  ::stat(out.c_str(), &about);
  EXPECT_EQ(about.st_mode & 0777u, 0640u);
  EXPECT_EQ(files_in(s.path()), std::set<std::string>{"a.html"});
}

TEST(ReportCommand, NeverReplacesTheCaseItself) {
  const Scratch s;
  const std::string text = test::read_text(test::source_dir() / passes), file = s.file("case.txt", text);
  fs::create_symlink(file, s.path("other.txt"));
  for (const std::string& out : {file, s.path("other.txt").string()}) {
    const auto r = run({"report", file, "-o", out, "--force"});
    EXPECT_EQ(r.status, 2);
    EXPECT_THAT(r.err, HasSubstr("would replace the case itself"));
  }
  EXPECT_EQ(test::read_text(file), text);
}

TEST(ReportCommand, FollowsASymbolicLink) {
  const Scratch s;
  const std::string real = s.file("real.html", "old");
  fs::create_symlink(real, s.path("link.html"));
  EXPECT_EQ(run({"report", passes, "-o", s.path("link.html").string(), "--force"}).status, 0);
  EXPECT_TRUE(fs::is_symlink(s.path("link.html")));
  EXPECT_THAT(test::read_text(real), StartsWith("<!DOCTYPE html>"));
}

TEST(ReportCommand, SaysWhyAPlaceWillNotDo) {
  const Scratch s;
  const std::string file = s.file("file", "");
  fs::create_directory(s.path("folder.html"));
  fs::create_directory(s.path("closed"));
  fs::permissions(s.path("closed"), fs::perms::owner_read | fs::perms::owner_exec);
  RunOptions bound;
  bound.bound_by_permissions = true;
  const std::pair<std::string, std::string> places[] = {{s.path("no/such/a.html"), "there is no such folder"},
                                                        {file + "/a.html", "a part of its path is a file"},
                                                        {s.path("folder.html"), "it is a folder"},
                                                        {s.path("closed/a.html"), "permission is denied"},
                                                        {s.path(std::string(300, 'x') + ".html"), "its name is too long"}};
  for (const auto& [place, why] : places) {
    const auto r = run({"report", passes, "-o", place}, bound);
    EXPECT_EQ(r.status, 2) << place;
    EXPECT_THAT(r.err, HasSubstr("cannot be written: " + why)) << place;
    EXPECT_EQ(r.out, "");
  }
  EXPECT_EQ(files_in(s.path()), (std::set<std::string>{"file", "folder.html", "closed"}));
}

TEST(ReportCommand, TakesANameAsLongAsTheSystemDoes) {
  const Scratch s;
  const std::string name = std::string(250, 'x') + ".html";
  EXPECT_EQ(run({"report", passes, "-o", s.path(name).string()}).status, 0);
  EXPECT_EQ(files_in(s.path()), std::set<std::string>{name});
}

TEST(ReportCommand, WritesToDevicesAndPipes) {
  EXPECT_EQ(run({"report", passes, "-o", "/dev/null", "--format", "html"}).status, 0);
  const auto full = run({"report", passes, "-o", "/dev/full", "--format", "html"});
  EXPECT_EQ(full.status, 2);
  EXPECT_THAT(full.err, HasSubstr("'/dev/full' cannot be written: No space left on device"));
  const Scratch s;
  const std::string pipe = s.path("pipe").string();
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  std::string got;
  std::thread reader([&] { got = test::read_text(pipe); });
  const auto r = run({"report", passes, "-o", pipe, "--format", "html"});
  reader.join();
  EXPECT_EQ(r.status, 0);
  EXPECT_EQ(got, run({"report", passes, "-o", "-", "--format", "html"}).out);
  RunOptions to_full;
  to_full.output = "/dev/full";
  EXPECT_EQ(run({"report", passes, "-o", "-", "--format", "html"}, to_full).status, 2);
}

/// Runs with one call of the system failing.
test::Ran with_failing(const std::vector<std::string>& words, const std::string& call, int error = 0, int after = 0) {
  RunOptions o;
  // Sanitizers want to be loaded first; here they need not be.
  o.environment = {"LD_PRELOAD=" PULLPROOF_FAILING_CALLS, "ASAN_OPTIONS=verify_asan_link_order=0", "FAIL_CALL=" + call, fmt::format("FAIL_ERRNO={}", error), fmt::format("FAIL_AFTER={}", after)};
  return run(words, o);
}

TEST(ReportWriting, LeavesTheOldFileWhateverFails) {
  const std::string whole = run({"report", passes, "-o", "-", "--format", "html"}).out;
  const struct {
    const char* call;
    int error;
    const char* why;
  } faults[] = {{"write", ENOSPC, "No space left on device"}, {"write", EDQUOT, "Disk quota exceeded"}, {"write", EIO, "Input/output error"}, {"fsync", EIO, "Input/output error"},
                {"fsync", ENOSPC, "No space left on device"}, {"rename", EROFS, "Read-only file system"}, {"rename", EACCES, "permission is denied"}, {"mkstemp", EROFS, "Read-only file system"},
                {"mkstemp", EMFILE, "Too many open files"}, {"fchmod", EPERM, "permission is denied"}};
  for (const auto& fault : faults) {
    const Scratch s;
    const std::string out = s.file("a.html", "mine");
    const auto r = with_failing({"report", passes, "-o", out, "--force"}, fault.call, fault.error);
    EXPECT_EQ(r.status, 2) << fault.call;
    EXPECT_THAT(r.err, HasSubstr(fmt::format("cannot be written: {}", fault.why))) << fault.call;
    EXPECT_EQ(r.out, "");
    EXPECT_EQ(test::read_text(out), "mine") << fault.call;
    EXPECT_EQ(files_in(s.path()), std::set<std::string>{"a.html"}) << fault.call;
  }
  // A new file: nothing is there afterwards.
  for (const auto& [call, error] : std::initializer_list<std::pair<const char*, int>>{{"write", ENOSPC}, {"fsync", EIO}, {"renameat2", EROFS}, {"mkstemp", ENOSPC}}) {
    const Scratch s;
    EXPECT_EQ(with_failing({"report", passes, "-o", s.path("a.html").string()}, call, error).status, 2) << call;
    EXPECT_EQ(files_in(s.path()), std::set<std::string>{}) << call;
  }
  // Writes that take a little at a time are no failure.
  const Scratch s;
  EXPECT_EQ(with_failing({"report", passes, "-o", s.path("a.html").string()}, "short-write").status, 0);
  EXPECT_EQ(test::read_text(s.path("a.html")), whole);
}

TEST(ReportWriting, DoesWithoutARenameThatKeepsWhatIsThere) {
  const Scratch s;
  EXPECT_EQ(with_failing({"report", passes, "-o", s.path("a.html").string()}, "renameat2", EINVAL).status, 0);
  EXPECT_THAT(test::read_text(s.path("a.html")), StartsWith("<!DOCTYPE html>"));
  EXPECT_EQ(files_in(s.path()), std::set<std::string>{"a.html"});
}

TEST(ReportWriting, KeepsAFileThatAppearedMeanwhile) {
  const Scratch s;
  const auto r = with_failing({"report", passes, "-o", s.path("a.html").string()}, "renameat2", EEXIST);
  EXPECT_EQ(r.status, 2);
  EXPECT_THAT(r.err, HasSubstr("is there already"));
  EXPECT_EQ(files_in(s.path()), std::set<std::string>{});
}

}  // namespace
}  // namespace pullproof
