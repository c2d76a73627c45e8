// What shells complete and what the manual page has: every command and every option that --help shows.
#include <gtest/gtest.h>

#include <regex>
#include <sstream>

#include "support/program.hpp"

namespace pullproof {
namespace {

std::vector<std::string> all_of(const std::string& text, const std::regex& pattern) {
  std::vector<std::string> out;
  for (std::sregex_iterator at(text.begin(), text.end(), pattern), end; at != end; ++at) out.push_back((*at)[1]);
  return out;
}

TEST(Completions, HaveEveryCommandAndOption) {
  const std::string help = test::run({"--help"}).out;
  const std::string commands = help.substr(help.find("Commands:"), help.find("says more about each") - help.find("Commands:"));
  const auto names = all_of(commands, std::regex("\n  ([a-z]+(?: [a-z]+)?)(?= )"));
  ASSERT_GE(names.size(), 9u);
  for (const char* shell : {"bash", "zsh", "fish"}) {
    const auto r = test::run({"completions", shell});
    ASSERT_EQ(r.status, 0) << r.err;
    for (const std::string& name : names) {
      const std::size_t space = name.find(' ');
      std::vector<std::string> words{name.substr(0, space)};
      if (space != std::string::npos) words.push_back(name.substr(space + 1));
      for (const std::string& w : words) EXPECT_NE(r.out.find(w), std::string::npos) << shell << ": " << name;
      words.push_back("--help");
      const std::string options = test::run(words).out;
      const std::size_t from = r.out.find(shell == std::string("fish") ? "__pullproof_in \"" + name + "\"" : "'" + name + "')");
      ASSERT_NE(from, std::string::npos) << shell << ": " << name;
      for (const std::string& o : all_of(options, std::regex("\n  (?:-[a-z], |    )--([a-z-]+)"))) {
        const std::string wanted = shell == std::string("fish") ? " -l " + o + " " : "--" + o;
        EXPECT_NE(r.out.find(wanted, from), std::string::npos) << shell << ": " << name << " --" << o;
      }
    }
  }
}

/// The manual page knows the same, as roff writes it.
TEST(Manual, HasEveryCommandAndOption) {
  const auto r = test::run({"manual"});
  ASSERT_EQ(r.status, 0) << r.err;
  std::string plain;
  for (const char c : r.out)
    if (c != '\\') plain += c;
  for (const char* command : {"check", "size", "report", "rules show", "new"}) {
    EXPECT_NE(plain.find(std::string(".SS \"") + command), std::string::npos) << command;
    std::vector<std::string> words;
    std::istringstream in(command);
    for (std::string w; in >> w;) words.push_back(w);
    words.emplace_back("--help");
    for (const std::string& o : all_of(test::run(words).out, std::regex("\n  (?:-[a-z], |    )--([a-z-]+)"))) EXPECT_NE(plain.find("fB--" + o + "fR"), std::string::npos) << command << " --" << o;
  }
}

}  // namespace
}  // namespace pullproof
