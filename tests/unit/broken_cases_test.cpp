// tests/broken holds cases with faults. What is said about NAME.toml is NAME.expected, to the letter: every fault at
// its place, nothing that is only a consequence of another. A case is said to be broken, or it is read; never both.
#include <gtest/gtest.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <set>

#include "core/diagnostic.hpp"
#include "engine/load.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;

fs::path folder() { return test::source_dir() / "tests" / "broken"; }

std::set<std::string> stems(const std::string& extension) {
  std::set<std::string> names;
  for (const auto& entry : fs::directory_iterator(folder()))
    if (entry.path().extension() == extension) names.insert(entry.path().stem());
  return names;
}

/// What is said about a case; empty when it is read.
std::string said(const std::string& file, const std::string& text) {
  const Shelf shelf{.read = [](const std::string&) { return FileText{{}, "there is no such file"}; }};
  Diagnostics diagnostics;
  const auto loaded = load_case(shelf, file, text, std::nullopt, diagnostics);
  EXPECT_EQ(loaded.has_value(), diagnostics.empty());
  std::string out;
  for (const Diagnostic& d : diagnostics.sorted()) out += render(d);
  return out;
}

TEST(BrokenCases, EachSaysWhatIsWrongAndWhere) {
  EXPECT_GE(stems(".toml").size(), 60u);
  for (const std::string& name : stems(".toml"))
    EXPECT_EQ(said(name + ".toml", test::read_text(folder() / (name + ".toml"))), test::read_text(folder() / (name + ".expected")))
        << "tests/broken/" << name << ".toml";
}

TEST(BrokenCases, EachIsLocated) {
  EXPECT_EQ(stems(".toml"), stems(".expected"));
  for (const std::string& name : stems(".expected")) {
    const std::string text = test::read_text(folder() / (name + ".expected"));
    EXPECT_TRUE(text.starts_with(name + ".toml:")) << text;
    const char digit = text[name.size() + 6];
    EXPECT_TRUE(digit >= '1' && digit <= '9') << "a line number: " << text;
  }
}

TEST(BrokenCases, TheProgramEndsWithTwoAndPrintsNothing) {
  std::string command = PULLPROOF_PROGRAM " check";
  for (const std::string& name : stems(".toml")) command += " '" + (folder() / (name + ".toml")).string() + "'";
  command += " 2>/dev/null";
  FILE* pipe = popen(command.c_str(), "r");
  ASSERT_NE(pipe, nullptr);
  std::string out;
  std::array<char, 4096> buffer{};
  for (std::size_t n = 0; (n = fread(buffer.data(), 1, buffer.size(), pipe)) > 0;) out.append(buffer.data(), n);
  const int status = pclose(pipe);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 2);
  EXPECT_EQ(out, "");
}

// What is too large to keep as a file.

const std::string small = "edition = \"us-2023\"\n[[circuit]]\nname = \"a\"\n";

TEST(HugeCases, AreRefusedInOneLine) {
  EXPECT_EQ(said("c.toml", std::string(1024 * 1024 + 1, '#')), "c.toml: the file is larger than 1048576 bytes\n");
  EXPECT_EQ(said("c.toml", small + std::string(1024 * 1024 - small.size(), '#')), "");  // exactly as large as may be
}

TEST(HugeCases, NeitherCrashNorHang) {
  const auto begins = [](const std::string& text, const std::string& how) {
    const std::string got = said("c.toml", text);
    EXPECT_EQ(got.substr(0, how.size()), how);
    EXPECT_LT(got.size(), 200u * 1024) << "more than anybody reads";
  };
  const auto repeat = [](std::string_view piece, int n) {
    std::string s;
    for (int i = 0; i < n; ++i) s += piece;
    return s;
  };
  begins("a" + repeat(".a", 300000) + " = 1\n", "c.toml:1:1: this key has too many parts\n");
  begins("[a" + repeat(" . \"a\"", 100000) + "]\n", "c.toml:1:2: this key has too many parts\n");
  begins("x = { a" + repeat(".a", 300000) + " = 1 }\n", "c.toml:1:6: this key has too many parts\n");
  begins("x = " + repeat("[", 500000), "c.toml:1:");
  begins("x = " + repeat("{a=", 300000), "c.toml:1:");
  begins(repeat("[", 1000000), "c.toml:1:");
  begins(repeat("\"", 1000000), "c.toml:1:");
  begins(repeat("a=1\n", 200000), "c.toml:2:3: Error while parsing key-value pair: cannot redefine existing integer 'a'\n");
  std::string many = small;
  for (int i = 0; i < 60000; ++i) many += "k" + std::to_string(i) + " = 1\n";
  begins(many, "c.toml:4:1: unknown key 'k0'");
  begins(small + "path = [" + repeat("\"x\",", 200000) + "]\n", "c.toml:4:8: 'path' has more than 2000 items\n");
  begins(small + "path = [" + repeat("\"no such raceway at all\",", 1999) + "]\n", "c.toml:4:9: no raceway or cable is called 'no such raceway at all'\n");
  std::string circuits = "edition = \"us-2023\"\n";
  for (int i = 0; i < 10000; ++i) circuits += "[[circuit]]\nname = \"c" + std::to_string(i) + "\"\n";
  begins(circuits, "c.toml:2:1: 'circuit' has more than 2000 items\n");
  std::string ring = "edition = \"us-2023\"\n";
  for (int i = 0; i < 2000; ++i)
    ring += "[[circuit]]\nname = \"c" + std::to_string(i) + "\"\nrole = \"feeder\"\nfed_by = \"c" + std::to_string((i + 1) % 2000) + "\"\n";
  begins(ring, "c.toml:5:10: these feeders feed one another in a ring\n");
  std::string ways = "edition = \"us-2023\"\n";
  for (int i = 0; i < 2000; ++i) ways += "[[raceway]]\nname = \"" + std::string(56, 'w') + std::to_string(i) + "\"\n";
  for (int i = 0; i < 15; ++i)
    ways += "[[circuit]]\nname = \"c" + std::to_string(i) + "\"\npath = [" + repeat("\"" + std::string(60, 'v') + "\",", 700) + "]\n";
  begins(ways, "c.toml:4004:9: no raceway or cable is called 'vvvv");
  const std::string long_text(100000, 'x');
  begins(small + "voltage = \"" + long_text + "\"\n", "c.toml:4:12: a quantity begins with a number\n");
  begins(small + "voltage = \"1 " + long_text + "\"\n", "c.toml:4:14: 'xxxx");
  begins(small + "role = \"" + long_text + "\"\n", "c.toml:4:8: 'xxxx");
  begins(small + long_text + " = 1\n", "c.toml:4:1: unknown key 'xxxx");
  begins(small + "[circuit.wire]\nsize = \"" + long_text + "\"\n", "c.toml:5:8: 'xxxx");
  begins(small + "[[raceway]]\nname = \"w\"\nplace = \"" + long_text + "\"\n", "c.toml:6:10: 'xxxx");
  begins("edition = \"" + long_text + "\"\n" + small.substr(small.find('\n') + 1), "c.toml:1:11: 'edition' is longer than 500 characters\n");
}

TEST(HugeCases, CountWhatTheyDoNotShow) {
  std::string many = small;
  for (int i = 0; i < 250; ++i) many += "k" + std::to_string(i) + " = 1\n";
  const std::string got = said("c.toml", many);
  std::size_t shown = 0;
  for (std::size_t at = got.find("unknown key"); at != std::string::npos; at = got.find("unknown key", at + 1)) ++shown;
  EXPECT_EQ(shown, 200u);
  EXPECT_TRUE(got.ends_with("c.toml: there is more like this: 50 complaints are not shown\n")) << got.substr(got.size() - 200);
}

}  // namespace
}  // namespace pullproof
