// Many runs and many circuits in one raceway: what is said of each run stays the same few findings, and what they say
// stays as short, however many there are. Counted, not timed.
#include <gtest/gtest.h>

#include "support/cases.hpp"

namespace pullproof {
namespace {

std::string crowded(int circuits, int runs, const std::string& source) {
  std::string text = "edition = \"us-2023\"\nsupply = { system = \"120/240 V 1-phase 3-wire\" }\n[[raceway]]\nname = \"wall\"\nplace = \"indoors, dry\"\n";
  for (int i = 0; i < circuits; ++i) text += fmt::format("[[circuit]]\nname = \"c{}\"\nvoltage = \"120 V\"\npath = [\"wall\"]\n", i);
  for (int i = 0; i < runs; ++i)
    text += fmt::format("[[control]]\nname = \"r{}\"\npath = [\"wall\"]\nsource = {{ {} }}\ncable = {{ type = \"CL2\" }}\nload = {{ current = \"10 mA\" }}\n", i, source);
  return text;
}

struct Size {
  std::size_t findings = 0, letters = 0, steps = 0;
};
Size said(const Report& report, std::string_view check) {
  Size s;
  for (const Finding& f : report.findings)
    if (f.check == check) ++s.findings, s.letters += f.message.size() + f.change.size();
  for (const Sheet& sheet : report.sheets)
    if (sheet.check == check) s.steps += sheet.working.steps().size();
  return s;
}

TEST(ManyRuns, SeparationSaysOneThingOfEachRunHoweverManyCircuits) {
  const std::string class2 = "class = 2, voltage = \"24 V ac\"";
  const Report few = test::check_text(crowded(20, 20, class2)), many = test::check_text(crowded(80, 80, class2));
  const Size a = said(few, "control-separation"), b = said(many, "control-separation");
  EXPECT_EQ(a.findings, 40u);  // the shared raceway, and that it runs in one all the way
  EXPECT_EQ(b.findings, 160u);
  EXPECT_LE(b.letters, 5 * a.letters) << "four times the runs say four times as much, and no more for each";
  EXPECT_LE(b.steps, 4 * a.steps + 80);
  bool found = false;
  for (const Finding* f : test::findings(many, "control-separation", "control r7"))
    found = found || f->message == "Class 2 conductors share 'wall' with circuits c0, c1, c2 and 77 others; insulation alone does not part them";
  EXPECT_TRUE(found);
}

TEST(ManyRuns, OfOneClassAmongAnotherSayOneThingToo) {
  std::string text = crowded(0, 30, "class = 2, voltage = \"24 V ac\"");
  for (int i = 0; i < 30; ++i)
    text += fmt::format("[[control]]\nname = \"x{}\"\npath = [\"wall\"]\nsource = {{ class = 1, voltage = \"24 V ac\", rating = \"100 VA\" }}\n", i);
  const Report report = test::check_text(text);
  std::size_t shared = 0;
  for (const Finding* f : test::findings(report, "control-separation", "control r3")) shared += f->verdict == Verdict::fail ? 1u : 0u;
  EXPECT_EQ(shared, 1u);
}

TEST(ManyRuns, OfOneSourceAreAddedUpOnce) {
  const std::string source = "name = \"t\", class = 2, voltage = \"24 V ac\", rating = \"40 VA\"";
  const Size a = said(test::check_text(crowded(0, 50, source)), "control-transformer"), b = said(test::check_text(crowded(0, 100, source)), "control-transformer");
  EXPECT_EQ(a.findings, 50u);
  EXPECT_EQ(b.findings, 100u);
  EXPECT_LE(b.steps, 2 * a.steps + 10);
}

}  // namespace
}  // namespace pullproof
