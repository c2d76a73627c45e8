// What --help says holds: its examples run, and every option that it shows does something in its command.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdio>
#include <map>
#include <regex>
#include <sys/wait.h>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

using testing::HasSubstr;
using testing::Not;

std::vector<std::string> all_of(const std::string& text, const std::regex& pattern) {
  std::vector<std::string> out;
  for (std::sregex_iterator at(text.begin(), text.end(), pattern), end; at != end; ++at) out.push_back((*at)[1]);
  return out;
}

std::vector<std::string> words_of(const std::string& line) {
  std::vector<std::string> out;
  std::istringstream in(line);
  for (std::string w; in >> w;) out.push_back(w);
  return out;
}

/// "check", "rules show" ... as --help lists them.
std::vector<std::string> commands() {
  const std::string help = test::run({"--help"}).out;
  const std::string list = help.substr(help.find("Commands:"), help.find("says more about each") - help.find("Commands:"));
  return all_of(list, std::regex("\n  ([a-z]+(?: [a-z]+)?)(?= )"));
}

std::string help_of(const std::string& command) {
  auto words = words_of(command);
  words.emplace_back("--help");
  return test::run(words).out;
}

/// The files that the examples of --help speak of.
struct Desk {
  Desk() {
    const std::string wash_house = test::read_text(test::source_dir() / "cases/wash-house.toml");
    for (const char* name : {"case.toml", "other.toml", "thicker-wire.toml"}) folder.file(name, wash_house);
    folder.file("town.toml",
                "[edition]\nid = \"town\"\ntitle = \"Town code (invented)\"\nbase = \"us-2023\"\nordinance = \"Ordinance 1\"\n[[change]]\nrule = \"branch-drop\"\n"
                "field = \"binding\"\nwas = false\nnow = true\nsource = \"Ordinance 1, section 3 (invented)\"\nbasis = \"published\"\n");
    folder.file("cases.jsonl", "{\"name\": \"one\", \"case\": \"edition = 3\"}\n");
    folder.file("jobs/one.toml", wash_house);
    folder.file("names", "case.toml\n");
    folder.file("names-with-nul", std::string("case.toml\0", 10));
    folder.file("answers", "us-2023\ngas water heater, on demand\nyes\n" + std::string(60, '\n'));
    folder.file("parallel", "#!/bin/sh\nwhile [ \"$1\" != pullproof ]; do shift; done\nexec \"$@\"\n");
    std::filesystem::permissions(folder.path("parallel"), std::filesystem::perms::owner_all);
    std::filesystem::create_symlink(PULLPROOF_PROGRAM, folder.path("pullproof"));
  }

  /// Runs a line as a shell does and returns its exit status; both outputs go to `said`.
  int shell(const std::string& line, std::string& said) const {
    FILE* out = ::popen(fmt::format("cd '{0}' && PATH='{0}':/usr/bin:/bin && exec 2>&1 </dev/null && {1}", folder.path().string(), line).c_str(), "r");
    if (out == nullptr) return -1;
    for (int c = std::fgetc(out); c != EOF; c = std::fgetc(out)) said += static_cast<char>(c);
    const int status = ::pclose(out);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128;
  }

  test::Scratch folder;
};

TEST(Help, FitsIntoEightyColumnsAndHasExamples) {
  const auto names = commands();
  ASSERT_GE(names.size(), 16u);
  for (const std::string& command : names) {
    std::istringstream in(help_of(command));
    for (std::string line; std::getline(in, line);) EXPECT_LE(display_width(line), 80u) << command << ": " << line;
  }
}

TEST(Help, ItsExamplesRun) {
  for (const std::string& command : commands()) {
    const std::string help = help_of(command);
    const std::size_t at = help.find("Examples:\n");
    ASSERT_NE(at, std::string::npos) << command;
    const auto lines = all_of(help.substr(at), std::regex("\n  ([^\n]*)"));
    EXPECT_GE(lines.size(), 1u);
    for (const std::string& line : lines) {
      EXPECT_THAT(line, HasSubstr("pullproof " + command));
      const Desk desk;
      std::string said;
      const int status = desk.shell(line == "pullproof new" ? line + " <answers" : line, said);
      EXPECT_TRUE(status == 0 || status == 1 || status == 3 || (command == "stream" && status == 2)) << line << " ends with " << status << ":\n" << said;
      EXPECT_THAT(said, Not(HasSubstr("pullproof: there is no"))) << line;
    }
  }
}

// What a command is given, and what its options are given.
const std::map<std::string, std::string> usual_words{
    {"check", "case.toml"}, {"size", "case.toml"}, {"reach", "case.toml"}, {"compare", "case.toml other.toml"}, {"report", "case.toml"}, {"stream", "cases.jsonl"},
    {"explain", "ampacity"}, {"new", "range"}, {"keys", "circuit"}, {"schema", ""}, {"completions", "bash"}, {"manual", ""}, {"rules list", ""},
    {"rules show", "ampacity"}, {"rules diff", "us-2017 us-2020"}, {"rules coverage", "gfci"}};

std::vector<std::string> values_for(const std::string& command, const std::string& option) {
  static const std::map<std::string, std::vector<std::string>> all{
      {"edition", {"us-2020", "town.toml"}}, {"amendment", {"town.toml"}}, {"row", {"'14 AWG'"}}, {"COLUMN", {}}, {"remedies", {"always", "never"}},
      {"output", {"out.html"}}, {"paper", {"a4"}}, {"at-least", {"'wire.size=12 AWG'"}}, {"stock", {"raceway.size=1/2,3/4"}}, {"jobs", {"3"}}, {"from", {"1"}}, {"list", {"names"}},
      {"rules", {(test::source_dir() / "rules").string()}}, {"color", {"always", "never"}}};
  if (option == "format") return command == "report" ? std::vector<std::string>{"html", "pdf", "md", "txt", "json"} : command == "rules coverage" ? std::vector<std::string>{"text", "md", "json"} : std::vector<std::string>{"text", "json"};
  if (option == "output" && command != "report") return {"out.toml"};
  const auto found = all.find(option);
  return found != all.end() ? found->second : std::vector<std::string>{""};
}

TEST(Help, EveryOptionThatItShowsCanBeGiven) {
  const Desk desk;
  for (const std::string& command : commands()) {
    ASSERT_TRUE(usual_words.contains(command)) << command;
    for (const std::string& option : all_of(help_of(command), std::regex("\n  (?:-[a-z], |    )--([A-Za-z-]+)"))) {
      for (const std::string& value : values_for(command, option)) {
        std::string line = fmt::format("pullproof {} {} --{}{}{}", command, usual_words.at(command), option, value.empty() ? "" : "=", value), said;
        if (option == "null") line += " --list names-with-nul";
        if (command == "report" && option != "output") line += " -o -";
        if (command == "report" && option != "format" && option != "output") line += " --format md";
        const int status = desk.shell(line, said);
        EXPECT_TRUE(status == 0 || status == 1 || status == 3 || (command == "stream" && status == 2 && option != "help")) << line << " ends with " << status << ":\n" << said;
        if (option != "output") {
          EXPECT_NE(said, "") << line;
        }
        EXPECT_THAT(said, Not(HasSubstr("fault of the program"))) << line;
        if (option == "color" && value != "always") {
          EXPECT_THAT(said, Not(HasSubstr("\033["))) << line;
        }
      }
      std::string said;
      const std::string line = fmt::format("pullproof {} {} --{}=", command, usual_words.at(command), option);
      EXPECT_EQ(desk.shell(line, said), 2) << line << "\n" << said;  // a value that is empty, or one too many
      std::filesystem::remove(desk.folder.path("out.html"));
      std::filesystem::remove(desk.folder.path("out.toml"));
    }
  }
}

TEST(Help, ColorIsThereWhenItIsAskedFor) {
  const Desk desk;
  for (const char* line : {"check case.toml", "size case.toml", "reach case.toml", "compare case.toml us-2017", "explain", "explain gfci", "keys circuit", "rules list",
                           "rules list us-2020", "rules show ampacity --size 6", "rules diff us-2017 us-2020", "rules coverage gfci"}) {
    std::string said;
    desk.shell(fmt::format("pullproof {} --color always", line), said);
    EXPECT_THAT(said, HasSubstr("\033[")) << line;
  }
}

TEST(Help, OfACommandIsTheSameEitherWay) {
  EXPECT_EQ(test::run({"help"}).out, test::run({"--help"}).out);
  EXPECT_EQ(test::run({"help", "rules", "show"}).out, test::run({"rules", "show", "-h"}).out);
}

TEST(Report, TriesNoRemediesWhenToldNotTo) {
  const Desk desk;
  const std::string faults = (test::source_dir() / "cases/dozen-faults.toml").string();
  std::string with, without;
  desk.shell(fmt::format("pullproof report '{}' -o - --format json", faults), with);
  desk.shell(fmt::format("pullproof report '{}' -o - --format json --remedies never", faults), without);
  EXPECT_THAT(with, HasSubstr("\"grade\""));
  EXPECT_THAT(without, Not(HasSubstr("\"grade\"")));
}

}  // namespace
}  // namespace pullproof
