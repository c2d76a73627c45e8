// Replays in short what the programs of tests/fuzz look for at length: every text of the project that a target would
// begin with, cut and bent in ways that are the same each time, and all that fuzzing has found before.
#include <gtest/gtest.h>

#include <cstdint>
#include <cstdlib>
#include <random>
#include <string>
#include <vector>

#include "support/cases.hpp"
#include "support/program.hpp"

extern "C" {
int fuzz_quantity(const std::uint8_t* data, std::size_t size);
int fuzz_case(const std::uint8_t* data, std::size_t size);
int fuzz_rules(const std::uint8_t* data, std::size_t size);
int fuzz_line(const std::uint8_t* data, std::size_t size);
int fuzz_job(const std::uint8_t* data, std::size_t size);
}

namespace pullproof {
namespace {

namespace fs = std::filesystem;
using Target = int (*)(const std::uint8_t*, std::size_t);

void feed(Target target, const std::string& bytes) { target(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()); }

std::vector<fs::path> files(const fs::path& folder, const char* extension) {
  std::vector<fs::path> all;
  if (!fs::exists(folder)) return all;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file() && (*extension == '\0' || entry.path().extension() == extension)) all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

/// A text with a few bytes changed, left out or said twice.
std::string bent(std::string text, std::mt19937& random) {
  for (unsigned n = random() % 4 + 1; n > 0 && !text.empty(); --n) {
    const std::size_t at = random() % text.size();
    switch (random() % 4) {
      case 0: text[at] = static_cast<char>(random()); break;
      case 1: text.erase(at, random() % 20); break;
      case 2: text.insert(at, text.substr(random() % text.size(), random() % 20)); break;
      default: text.resize(at); break;
    }
  }
  return text;
}

/// What was found before; a crash would end the tests here.
void feed_found(Target target, const char* name) {
  for (const fs::path& path : files(test::source_dir() / "tests/fuzz/found" / name, "")) feed(target, test::read_text(path));
}

void feed_bent(Target target, const std::vector<std::string>& texts, std::size_t times) {
  std::mt19937 random(20261125);  // the same texts every time
  for (std::size_t i = 0; i < times; ++i) feed(target, bent(texts[random() % texts.size()], random));
}

std::vector<std::string> texts_in(std::initializer_list<const char*> folders) {
  std::vector<std::string> texts;
  for (const char* folder : folders)
    for (const fs::path& path : files(test::source_dir() / folder, ".toml")) texts.push_back(test::read_text(path));
  return texts;
}

TEST(Replay, OfQuantities) {
  std::vector<std::string> texts;
  for (const char* q : {"62 ft", "5 ft 6 in", "5'6\"", "104 °F", "-40 °C", "9.2 kA", "270°", "1/2 in", "0.875 in", "1-1/2 in", "120/240 V", "3 %", "0.9", "12 ohm/kft",
                        "208Y/120 V 3-phase", "24 V dc", "1e400 ft", "99999999999999999999999 m", "5 hp", "1.5 VA", "20 in-lb", ""})
    for (char d = 0; d < 13; ++d) texts.push_back(d + std::string(q));
  for (const std::string& t : texts) feed(fuzz_quantity, t);
  feed_bent(fuzz_quantity, texts, 20'000);
  feed_found(fuzz_quantity, "quantity");
}

TEST(Replay, OfCases) {
  const auto texts = texts_in({"cases", "tests/broken", "tests/inspection"});
  for (const std::string& t : texts) feed(fuzz_case, t);
  feed_bent(fuzz_case, texts, 1'000);
  feed_found(fuzz_case, "case");
}

TEST(Replay, OfRules) {
  const auto texts = texts_in({"rules"});
  feed_bent(fuzz_rules, texts, 60);
  feed_found(fuzz_rules, "rules");
}

TEST(Replay, OfLines) {
  std::vector<std::string> texts;
  for (const std::string& t : texts_in({"cases/appliances"})) {
    std::string line = "{\"name\": \"a\", \"case\": \"";
    for (const char c : t) line += c == '\n' ? "\\n" : c == '"' ? "\\\"" : c == '\\' ? "\\\\" : std::string(1, c);
    texts.push_back(line + "\"}");
  }
  for (const std::string& t : texts) feed(fuzz_line, t);
  feed_bent(fuzz_line, texts, 300);
  feed_found(fuzz_line, "line");
}

TEST(Replay, OfJobs) {
  const std::string seeds = (test::source_dir() / "cases/appliances").string();
  ASSERT_EQ(::setenv("PULLPROOF_SEEDS", seeds.c_str(), 1), 0);
  std::mt19937 random(7);
  for (int i = 0; i < 150; ++i) {
    std::string bytes(random() % 64, '\0');
    for (char& c : bytes) c = static_cast<char>(random());
    feed(fuzz_job, bytes);
  }
}

}  // namespace
}  // namespace pullproof
