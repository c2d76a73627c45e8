// Published worked examples through the program's JSON, each a case of its own in tests/published/examples:
//
//   # source: who prints it, and what it prints          ("by hand" where nobody does)
//   # figure: CHECK | WHICH | THEIRS | WITHIN | OURS      (OURS only where it is another figure, with why in `differs`)
//   # verdict: CHECK | pass
//   # differs: why ours is another figure
//   # edition: us-2017                                    (holds under this edition too; may be repeated)
//
// CHECK is a check's first answer, CHECK#2 its second; WHICH is demand, limit or the last step with a symbol. The page
// tests/published/examples.md lists them all; `tests/golden/update` writes it anew.
#include <gtest/gtest.h>
#include <rapidjson/document.h>

#include <charconv>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;
using Json = rapidjson::Value;

struct Figure {
  std::string check, which;
  double theirs = 0, within = 0;
  std::optional<double> ours;
};

struct Example {
  fs::path file;
  std::string source, differs;
  std::vector<Figure> figures;
  std::vector<std::pair<std::string, std::string>> verdicts;
  std::vector<std::string> editions;  ///< beside the case's own
};

double number_in(const std::string& text) {
  double v = std::nan("");
  std::from_chars(text.data(), text.data() + text.size(), v);
  return v;
}

Example read_example(const fs::path& file) {
  Example e;
  e.file = file;
  std::istringstream in(test::read_text(file));
  for (std::string line; std::getline(in, line) && line.starts_with("# ");) {
    const std::size_t colon = line.find(": ");
    if (colon == std::string::npos) continue;
    const std::string key = line.substr(2, colon - 2), value = line.substr(colon + 2);
    const auto parts = test::parts_of(value);
    if (key == "source") e.source = value;
    else if (key == "differs") e.differs = value;
    else if (key == "edition") e.editions.push_back(value);
    else if (key == "verdict" && parts.size() == 2) e.verdicts.emplace_back(parts[0], parts[1]);
    else if (key == "figure" && parts.size() >= 4)
      e.figures.push_back({parts[0], parts[1], number_in(parts[2]), number_in(parts[3]), parts.size() > 4 ? std::optional(number_in(parts[4])) : std::nullopt});
    else ADD_FAILURE() << file << ": " << line;
  }
  return e;
}

std::vector<Example> examples() {
  std::vector<Example> out;
  for (const auto& entry : fs::directory_iterator(test::source_dir() / "tests/published/examples")) out.push_back(read_example(entry.path()));
  std::sort(out.begin(), out.end(), [](const Example& a, const Example& b) { return a.file < b.file; });
  return out;
}

/// The nth answer of a check: "ampacity#2".
const Json* finding(const Json& report, const std::string& check) {
  const std::size_t hash = check.find('#');
  int n = hash == std::string::npos ? 1 : std::stoi(check.substr(hash + 1));
  for (const Json& f : report["findings"].GetArray())
    if (f["check"].GetString() == check.substr(0, hash) && --n == 0) return &f;
  return nullptr;
}

double figure(const Json& f, const std::string& which) {
  if (which == "demand" || which == "limit") return f[which.c_str()].IsObject() ? f[which.c_str()]["value"].GetDouble() : std::nan("");
  double v = std::nan("");
  for (const Json& s : f["working"].GetArray())
    if (s["symbol"].IsString() && s["symbol"].GetString() == which && s["value"].IsNumber()) v = s["value"].GetDouble();
  return v;
}

/// The reports of all examples under one edition, empty for each one's own.
rapidjson::Document run(const std::vector<Example>& all, const std::string& edition) {
  std::vector<std::string> words{"check", "--format", "json"};
  if (!edition.empty()) words.insert(words.end(), {"--edition", edition});
  for (const Example& e : all) words.push_back(e.file.string());
  rapidjson::Document d;
  d.Parse(test::run(words).out.c_str());
  return d;
}

void hold(const Example& e, const Json& report) {
  SCOPED_TRACE(e.file.filename().string());
  ASSERT_STRNE(report["outcome"].GetString(), "unreadable");
  for (const Figure& want : e.figures) {
    const Json* f = finding(report, want.check);
    ASSERT_NE(f, nullptr) << want.check;
    EXPECT_NEAR(figure(*f, want.which), want.ours.value_or(want.theirs), want.within + 1e-9) << want.check << " " << want.which << ": " << (*f)["message"].GetString();
    EXPECT_TRUE(!want.ours || std::abs(*want.ours - want.theirs) > want.within) << "the figures do not differ";
  }
  for (const auto& [check, verdict] : e.verdicts) {
    bool met = false, failed = false;
    for (const Json& f : report["findings"].GetArray()) {
      if (f["check"].GetString() != check) continue;
      met = met || f["verdict"].GetString() == verdict;
      failed = failed || std::string_view(f["verdict"].GetString()) == "fail";
    }
    EXPECT_TRUE(met) << check << " has no answer '" << verdict << "'";
    EXPECT_TRUE(!failed || verdict == "fail") << check << " fails";
  }
}

TEST(PublishedCases, PrintTheFiguresOfTheirSources) {
  const auto all = examples();
  EXPECT_GE(all.size(), 50u);
  for (const Example& e : all) {
    SCOPED_TRACE(e.file.filename().string());
    EXPECT_GT(e.source.size(), 12u);
    EXPECT_TRUE(!e.figures.empty() || !e.verdicts.empty()) << "nothing is expected, so this cannot fail";
    const bool other = std::any_of(e.figures.begin(), e.figures.end(), [](const Figure& f) { return f.ours.has_value(); });
    EXPECT_EQ(other, !e.differs.empty()) << "a figure that differs says why, and no other";
  }
  for (const std::string edition : {"", "us-2017", "us-2020"}) {
    SCOPED_TRACE(edition.empty() ? "each its own edition" : edition);
    std::vector<Example> some;
    for (const Example& e : all)
      if (edition.empty() || std::find(e.editions.begin(), e.editions.end(), edition) != e.editions.end()) some.push_back(e);
    const auto d = run(some, edition);
    ASSERT_FALSE(d.HasParseError());
    ASSERT_EQ(d["reports"].Size(), some.size());
    for (std::size_t i = 0; i < some.size(); ++i) hold(some[i], d["reports"][static_cast<rapidjson::SizeType>(i)]);
  }
}

std::string page(const std::vector<Example>& all) {
  const auto d = run(all, "");
  std::string out =
      "# Worked examples\n\nWhat others print and what the program works out, unrounded. Made from the cases in `examples/`, which name what\n"
      "they rest on; more examples, of tables, drop, fill, grounding and control runs, stand in the tests beside this page.\n\n"
      "| case | source | what | theirs | ours | why they differ |\n| --- | --- | --- | --- | --- | --- |\n";
  const auto cell = [](std::string_view text) {
    std::string s;
    for (const char c : text) s += c == '|' ? std::string("\\|") : std::string(1, c);
    return s;
  };
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Json& report = d["reports"][static_cast<rapidjson::SizeType>(i)];
    const Example& e = all[i];
    bool first = true;
    const auto row = [&](const std::string& what, const std::string& theirs, const std::string& ours, const std::string& why) {
      out += fmt::format("| {} | {} | {} | {} | {} | {} |\n", first ? e.file.stem().string() : "", first ? cell(e.source) : "", what, theirs, ours, cell(why));
      first = false;
    };
    for (const Figure& f : e.figures) {
      const Json* found = finding(report, f.check);
      const double ours = found != nullptr ? figure(*found, f.which) : std::nan("");
      row(fmt::format("{} {}", f.check, f.which), fmt::format("{:.6g}", f.theirs), fmt::format("{:.6g}", ours), f.ours ? e.differs : "");
    }
    for (const auto& [check, verdict] : e.verdicts) row(check, verdict, verdict, "");
  }
  return out;
}

TEST(GoldensOfExamples, ThePageIsUpToDate) {
  const fs::path file = test::source_dir() / "tests/published/examples.md";
  const std::string now = page(examples());
  if (std::getenv("PULLPROOF_UPDATE_GOLDEN") != nullptr) std::ofstream(file) << now;
  EXPECT_TRUE(test::read_text(file) == now) << "run tests/golden/update and read the difference";
}

}  // namespace
}  // namespace pullproof
