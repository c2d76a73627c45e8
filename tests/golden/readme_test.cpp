// The parts of README.md that say what the program knows are the program's own words.
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <regex>

#include "job/key-list.hpp"
#include "job/read.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

std::filesystem::path readme() { return test::source_dir() / "README.md"; }

std::string markdown(std::string s) {
  for (std::size_t at = 0; (at = s.find('|', at)) != std::string::npos; at += 2) s.replace(at, 1, "\\|");
  return s;
}

std::string key_section() {
  std::string s;
  for (const KeyTable& t : key_tables()) {
    s += fmt::format("\n**{}**{}{}\n\n| key | meaning | value |\n| --- | --- | --- |\n", t.name.empty() ? "At the top of the file" : "`" + t.header + "`",
                     t.meaning.empty() ? "" : ": ", t.meaning);
    for (const Key& k : t.keys)
      s += fmt::format("| `{}` | {} | {} |\n", k.key, markdown(k.meaning), markdown(k.range.empty() ? k.value : fmt::format("{}, {}", k.value, k.range)));
  }
  return s + "\n";
}

TEST(Readme, DocumentsEveryKeyAsTheVocabularyHasIt) {
  static constexpr std::string_view begin = "<!-- keys -->\n", end = "<!-- end of keys -->";
  std::string text = test::read_text(readme());
  const std::size_t from = text.find(begin), to = text.find(end);
  ASSERT_NE(from, std::string::npos);
  ASSERT_NE(to, std::string::npos);
  const std::size_t at = from + begin.size();
  if (std::getenv("PULLPROOF_UPDATE_GOLDEN") != nullptr) {
    text.replace(at, to - at, key_section());
    std::ofstream(readme(), std::ios::binary) << text;
    return;
  }
  EXPECT_EQ(text.substr(at, to - at), key_section()) << "run tests/golden/update";
}

TEST(Readme, ItsCaseCanBeChecked) {
  const std::string text = test::read_text(readme());
  const std::size_t from = text.find("```toml\nedition"), to = text.find("```", from + 3);
  ASSERT_NE(from, std::string::npos);
  const Report r = test::check_text(text.substr(from + 8, to - from - 8));
  EXPECT_EQ(r.outcome(), Outcome::pass);
  for (const Finding& f : r.findings) EXPECT_TRUE(f.verdict != Verdict::fail && f.verdict != Verdict::needs_input) << f.check << ": " << f.message;
}

TEST(Keys, AreThoseThatTheReaderKnows) {
  // What the list says may be at the top is what the reader says is known there.
  std::string listed;
  for (const KeyTable& t : key_tables()) {
    if (t.name.empty())
      for (const Key& k : t.keys) listed += (listed.empty() ? "" : ", ") + k.key;
    else if (t.name.find('.') == std::string::npos) listed += (listed.empty() ? "" : ", ") + t.name;
  }
  EXPECT_NE(test::complaints("xyzzyxyzzy = 1").find("known here: " + listed), std::string::npos) << listed << "\n" << test::complaints("xyzzyxyzzy = 1");
}

}  // namespace
}  // namespace pullproof
