// What the drop checks say would do does, and nothing less: the length, the length and a little more, the size, and
// the next smaller size, each checked again as a case of its own.
#include <gtest/gtest.h>

#include <regex>

#include "code/edition.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

struct Job {
  std::string system, volts, extra, material;
  double amperes, power_factor, feet;  ///< feet: metres where `metric`
  std::string size;
  bool metric = false, behind_feeder = false;
};

void PrintTo(const Job& j, std::ostream* out) { *out << j.size << ", " << j.feet << (j.metric ? " m, " : " ft, ") << j.volts; }

std::string number(double v) { return fmt::format("{:.6f}", v); }

std::string text_of(const Job& j, double length, const std::string& size) {
  std::string s = "edition = \"us-2023\"\nsupply = { system = \"" + j.system + "\" }\n";
  if (j.behind_feeder)
    s += "[[raceway]]\nname = \"yard\"\ntype = \"PVC-40\"\nsize = \"2\"\nlength = \"60 ft\"\nplace = \"underground\"\n"
         "[[circuit]]\nname = \"sub\"\nrole = \"feeder\"\nvoltage = \"240 V\"\npath = [\"yard\"]\nload = { current = \"90 A\", power_factor = 0.9 }\n"
         "wire = { size = \"3 AWG\", material = \"copper\" }\n";
  s += "[[raceway]]\nname = \"wall\"\ntype = \"EMT\"\nsize = \"4\"\nplace = \"indoors, dry\"\nlength = \"" + number(length) + (j.metric ? " m" : " ft") +
       "\"\n[[circuit]]\nname = \"c\"\nvoltage = \"" + j.volts + "\"\npath = [\"wall\"]\n" + j.extra +
       (j.behind_feeder ? "fed_by = \"sub\"\n" : "") + "load = { current = \"" + number(j.amperes) + " A\", power_factor = " + number(j.power_factor) +
       " }\nwire = { size = \"" + size + "\", material = \"" + j.material + "\" }\n";
  return s;
}

struct Answer {
  Verdict verdict;
  std::string message, change;
};
Answer answer(const std::string& text, bool behind_feeder) {
  const Report r = test::check_text(text);
  const auto found = test::findings(r, behind_feeder ? "drop-total" : "drop-branch", "circuit c");
  EXPECT_EQ(found.size(), 1u);
  return {found[0]->verdict, std::string(found[0]->message), std::string(found[0]->change)};
}

std::string captured(const std::string& text, const char* pattern) {
  std::smatch m;
  return std::regex_search(text, m, std::regex(pattern)) ? m[1].str() : "";
}

std::string next_smaller(const std::string& size) {
  const auto edition = code::Edition::find(code::built_in(), "us-2023");
  const auto t = edition->table("conductor-properties");
  std::string before;
  for (std::size_t r = 0; r < t->rows(); ++r) {
    if (t->cell(r, "stranding").text() != "stranded") continue;
    if (t->cell(r, std::size_t{0}).text() == size) return before;
    before = t->cell(r, std::size_t{0}).text();
  }
  return {};
}

class DropRemedy : public testing::TestWithParam<Job> {};

TEST_P(DropRemedy, DoesAndNothingLess) {
  const Job& j = GetParam();
  const Answer now = answer(text_of(j, j.feet, j.size), j.behind_feeder);
  ASSERT_NE(now.verdict, Verdict::pass) << now.message;

  const std::string longest = captured(now.change, "keep this wire to ([0-9.]+ (ft|m)) in all");
  ASSERT_FALSE(longest.empty()) << now.change;
  EXPECT_TRUE(now.verdict != Verdict::advice || now.message.ends_with("reached at " + longest)) << now.message;
  EXPECT_EQ(answer(text_of(j, std::stod(longest), j.size), j.behind_feeder).verdict, Verdict::pass);
  EXPECT_NE(answer(text_of(j, std::stod(longest) + 0.11, j.size), j.behind_feeder).verdict, Verdict::pass);

  const std::string size = captured(now.change, "use ([^ ]+ (AWG|kcmil)) or larger");
  ASSERT_FALSE(size.empty()) << now.change;
  EXPECT_EQ(answer(text_of(j, j.feet, size), j.behind_feeder).verdict, Verdict::pass) << size;
  EXPECT_NE(answer(text_of(j, j.feet, next_smaller(size)), j.behind_feeder).verdict, Verdict::pass) << next_smaller(size);
}

const std::string house = "120/240 V 1-phase 3-wire", shop = "480Y/277 V 3-phase 4-wire";
INSTANTIATE_TEST_SUITE_P(Jobs, DropRemedy, testing::Values(
    Job{house, "120 V", "", "copper", 12, 0.9, 90, "14 AWG"},
    Job{house, "120 V", "", "copper", 12, 0.9, 30, "14 AWG", true},
    Job{house, "120 V", "", "copper", 14, 0.85, 120, "12 AWG", false, true},
    Job{house, "240 V", "", "aluminum", 40, 1, 300, "8 AWG"},
    Job{house, "240 V", "", "aluminum", 40, 0.8, 400, "6 AWG", false, true},
    Job{shop, "480 V", "phases = 3\n", "copper", 200, 0.85, 700, "2/0 AWG"},
    Job{shop, "277 V", "phases = 1\n", "copper", 20, 0.95, 500, "10 AWG"},
    Job{"48 V dc", "48 V", "", "copper", 10, 1, 150, "12 AWG"},
    Job{"12 V dc", "12 V", "", "copper", 20, 1, 200, "14 AWG"} /* cannot be fed as it stands */));

}  // namespace
}  // namespace pullproof
