// The runner and what it gives checks to work with.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "engine/run.hpp"
#include "job/read.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

const std::string two_circuits = R"(edition = "us-2023"
[[raceway]]
name = "wall"
[[circuit]]
name = "a"
voltage = "120 V"
[[circuit]]
name = "b"
[[control]]
name = "remote"
)";

code::Edition edition(std::string_view id = "us-2023") { return *code::Edition::find(code::built_in(), id); }

Report run(std::initializer_list<const Check*> checks, const code::Edition& in = edition(), const std::string& text = two_circuits) {
  Diagnostics d;
  const auto job = read_case("case.toml", text, d);
  for (const Diagnostic& one : d.sorted()) ADD_FAILURE() << render(one);
  const std::vector<const Check*> list(checks);
  return run_checks(job, in, list);
}

Check check(std::string_view id, CheckRun fn) { return {id, "a title", Family::none, "about", "", "", "", fn}; }

/// "subject | verdict | message | missing" of each finding.
std::vector<std::string> told(const Report& r) {
  std::vector<std::string> out;
  for (const Finding& f : r.findings) out.push_back(fmt::format("{} | {} | {} | {}", f.subject, name(f.verdict), f.message, f.missing));
  return out;
}

using testing::ElementsAre;
using CircuitFn = void (*)(Context&, const Circuit&);

TEST(Engine, RunsACheckOnceForEachOfItsKind) {
  const Check circuits = check("c", CircuitFn([](Context& cx, const Circuit&) { cx.pass("seen", {}); }));
  const Check raceways = check("r", static_cast<void (*)(Context&, const Raceway&)>([](Context& cx, const Raceway&) { cx.pass("seen", {}); }));
  const Check controls = check("k", static_cast<void (*)(Context&, const Control&)>([](Context& cx, const Control&) { cx.pass("seen", {}); }));
  const Check supplies = check("s", static_cast<void (*)(Context&, const Supply&)>([](Context& cx, const Supply&) { cx.pass("seen", {}); }));
  EXPECT_THAT(told(run({&circuits, &raceways, &controls, &supplies})),
              ElementsAre("circuit a | pass | seen | ", "circuit b | pass | seen | ", "raceway wall | pass | seen | ",
                          "control remote | pass | seen | ", "supply | pass | seen | "));
}

TEST(Engine, ACheckThatSaysNothingIsOpen) {
  const Check silent = check("silent", CircuitFn([](Context&, const Circuit&) {}));
  const Report r = run({&silent});
  EXPECT_THAT(told(r), ElementsAre("circuit a | not covered | the check gave no answer for this case | ",
                                   "circuit b | not covered | the check gave no answer for this case | "));
  EXPECT_EQ(r.outcome(), Outcome::open);
}

TEST(Engine, AMissingKeyIsNamedAndLocated) {
  const Check needs = check("needs", CircuitFn([](Context& cx, const Circuit& c) {
    cx.need(c.voltage, "circuit.voltage", "nothing can be said without it");
    cx.pass("fine", {});
  }));
  const Report r = run({&needs});
  EXPECT_THAT(told(r), ElementsAre("circuit b | needs input | circuit.voltage is not given: nothing can be said without it | circuit.voltage",
                                   "circuit a | pass | fine | "));
  EXPECT_EQ(r.findings[0].where.line, 7u);
}

TEST(Engine, WhatTheEditionHasNotOrNobodySawIsNotCovered) {
  const Check rule = check("rule", CircuitFn([](Context& cx, const Circuit&) { cx.rule("no-such-rule"); }));
  EXPECT_EQ(told(run({&rule}))[0], "circuit a | not covered | NFPA 70-2023: the rule 'no-such-rule' has not been seen; read the adopted book | ");
  const Check table = check("table", CircuitFn([](Context& cx, const Circuit&) { cx.table("no-such-table"); }));
  EXPECT_EQ(told(run({&table}))[0], "circuit a | not covered | NFPA 70-2023: the table 'no-such-table' has not been seen; read the adopted book | ");
  // The 2026 edition inherits what nobody has seen in it.
  const Check unseen = check("unseen", CircuitFn([](Context& cx, const Circuit&) {
    EXPECT_FALSE(cx.has_rule("multiwire"));
    cx.rule("multiwire");
  }));
  EXPECT_THAT(told(run({&unseen}, edition("us-2026")))[0], testing::HasSubstr("| not covered | NFPA 70-2026: the rule 'multiwire' has not been seen"));
  const Check blank = check("blank", CircuitFn([](Context& cx, const Circuit&) { cx.parameter("fill-nipple", "no-such-key", units::percent); }));
  EXPECT_EQ(told(run({&blank}))[0], "circuit a | not covered | NFPA 70-2023: the rule 'fill-nipple' says nothing about 'no-such-key' | ");
  const Check row = check("row", CircuitFn([](Context& cx, const Circuit&) { cx.row(cx.table("ampacity"), "13 AWG"); }));
  EXPECT_EQ(told(run({&row}))[0], "circuit a | not covered | Table 310.16 has no row for 13 AWG | ");
}

TEST(Engine, RuleDataThatIsNotWhatACheckExpectsIsNotCovered) {
  // With a rules folder of one's own a column may be missing.
  const Check column = check("column", CircuitFn([](Context& cx, const Circuit&) { (void)cx.table("ampacity").column("cu-105"); }));
  EXPECT_EQ(told(run({&column}))[0], "circuit a | not covered | the rule data is not what this check expects: ampacity has no column cu-105 | ");
  const Check value = check("value", CircuitFn([](Context& cx, const Circuit&) {
    const auto t = cx.table("ampacity");
    (void)t.cell(0, "cu-60").number().value();  // a blank cell
  }));
  EXPECT_THAT(told(run({&value}))[0], testing::StartsWith("circuit a | not covered | the rule data is not what this check expects: "));
}

TEST(Engine, ComparisonsSayBothNumbersAndHowMuchIsUsed) {
  const Check compares = check("compares", CircuitFn([](Context& cx, const Circuit& c) {
    const auto demand = cx.working().choice("demand", "D", units::ampere.of(*c.name == "a" ? 16 : 16.0001), units::ampere, "picked", {});
    const auto limit = cx.working().choice("limit", "L", units::ampere.of(16), units::ampere, "picked", {});
    cx.require(demand, Must::at_most, limit, {});
    cx.require(demand, Must::at_least, limit, {});
  }));
  const Report r = run({&compares});
  EXPECT_THAT(told(r), ElementsAre("circuit b | fail | demand 16.0001 A is over limit 16 A | ", "circuit a | pass | demand 16 A is within limit 16 A | ",
                                   "circuit a | pass | demand 16 A covers limit 16 A | ", "circuit b | pass | demand 16.0001 A covers limit 16 A | "));
  EXPECT_DOUBLE_EQ(*r.findings[1].used, 1);
  EXPECT_DOUBLE_EQ(*r.findings[0].used, 16.0001 / 16);
}

TEST(Engine, AFindingRestsOnItsWeakestStep) {
  const Check weak = check("weak", CircuitFn([](Context& cx, const Circuit&) {
    const auto demand = cx.working().constant("demand", "D", 1.0, units::factor, {"E", "1", "r", {}, {}, "s", Basis::published, {}});
    const auto limit = cx.working().constant("limit", "L", 2.0, units::factor, {"E", "1", "r", {}, {}, "s", Basis::memory, {}});
    cx.require(demand, Must::at_most, limit, {"E", "1", "r", {}, {}, "s", Basis::derived, {}});
  }));
  EXPECT_EQ(run({&weak}).findings[0].basis, Basis::memory);
}

TEST(Engine, AScratchContextLeavesNothingBehindButItsWords) {
  const Check tries = check("tries", CircuitFn([](Context& cx, const Circuit& c) {
    {
      Context scratch = cx.scratch();
      scratch.assume("something", "a thing that is tried");
      scratch.pass("tried", {});
      EXPECT_EQ(cx.findings(), 0u);
    }
    if (*c.name == "b") {
      Context scratch = cx.scratch();
      // Thrown past the end of the scratch context: the words have to outlive it.
      scratch.needs_input("circuit.voltage", cx.text("{} of a text that is long enough not to be stored in place", "made"));
    }
    cx.pass("done", {});
  }));
  const Report r = run({&tries});
  EXPECT_TRUE(r.assumptions.empty());
  EXPECT_THAT(told(r), ElementsAre("circuit b | needs input | circuit.voltage is not given: made of a text that is long enough not to be stored in "
                                   "place | circuit.voltage",
                                   "circuit a | pass | done | "));
}

TEST(Engine, AnAssumptionIsSaidOnceForEachSubject) {
  const Check assumes = check("assumes", CircuitFn([](Context& cx, const Circuit&) {
    cx.assume("place", "taken as dry");
    cx.assume("place", "taken as dry");
    cx.pass("done", {});
  }));
  const Report r = run({&assumes, &assumes});
  ASSERT_EQ(r.assumptions.size(), 2u);
  EXPECT_EQ(r.assumptions[0].subject, "circuit a");
  EXPECT_EQ(r.assumptions[1].subject, "circuit b");
}

TEST(Engine, OneMistakeIsOneFailure) {
  const Check first = check("first", CircuitFn([](Context& cx, const Circuit&) { cx.fails_in("owner", "the wire is too thin", "use a thicker one", {}); }));
  const Check owner = check("owner", CircuitFn([](Context& cx, const Circuit&) { cx.fail("the wire is too thin for this", "use 12 AWG", {}); }));
  EXPECT_THAT(told(run({&first, &owner})),
              ElementsAre("circuit a | fail | the wire is too thin for this | ", "circuit b | fail | the wire is too thin for this | ",
                          "circuit a | not applicable | waits for 'owner', which fails | ", "circuit b | not applicable | waits for 'owner', which fails | "));
  // Without the owner it is the first one's to report; a second one waits for it.
  const Check second = check("second", CircuitFn([](Context& cx, const Circuit&) { cx.fails_in("owner", "the wire is too thin", "use a thicker one", {}); }));
  EXPECT_THAT(told(run({&first, &second})),
              ElementsAre("circuit a | fail | the wire is too thin | ", "circuit b | fail | the wire is too thin | ",
                          "circuit a | not applicable | waits for 'first', which fails | ", "circuit b | not applicable | waits for 'first', which fails | "));
}

TEST(Engine, CautionsFitTheJob) {
  const auto cautions = [](const std::string& text) {
    std::string all;
    for (const std::string_view c : run({}, edition(), text).cautions) all += std::string(c) + "\n";
    return all;
  };
  const std::string plain = cautions(two_circuits);
  EXPECT_THAT(plain, testing::HasSubstr("absence of voltage"));
  const std::string buried = cautions("edition = \"us-2023\"\n[[raceway]]\nname = \"w\"\nplace = \"underground\"\n");
  EXPECT_NE(plain, buried);
  EXPECT_FALSE(cautions("edition = \"us-2023\"\n[supply]\n").empty());  // some cautions always fit
}

// --- the case against the edition's tables ---

TEST(Fit, HoldsWhatTheTablesListAgainstThem) {
  const auto of = [](const std::string& lines) { return test::complaints("edition = \"us-2023\"\n" + lines); };
  EXPECT_EQ(of("[[raceway]]\nname = \"w\"\ntype = \"EMTT\"\nsize = \"1/2\"\n"),
            "case.toml:4:8: 'EMTT' is no raceway type known to NFPA 70-2023\n  type = \"EMTT\"\n         ^^^^^^\n  note: did you mean 'EMT'?\n");
  EXPECT_EQ(of("[[raceway]]\nname = \"w\"\ntype = \"EMT\"\nsize = \"6\"\n"),
            "case.toml:5:8: EMT has no trade size 6 in Chapter 9 Table 4\n  size = \"6\"\n         ^^^\n"
            "  note: sizes there: 1/2, 3/4, 1, 1-1/4, 1-1/2, 2, 2-1/2, 3, 3-1/2, 4; or give inside_diameter\n");
  EXPECT_EQ(of("[[raceway]]\nname = \"w\"\ntype = \"EMT\"\nsize = \"6\"\ninside_diameter = \"6 in\"\n"), "");
  // What lies in a raceway is judged also where the raceway's own type is not known.
  EXPECT_EQ(of("[[raceway]]\nname = \"w\"\nalso = [{ count = 1, size = \"13 AWG\", type = \"THNN\" }]\n"),
            "case.toml:4:29: 13 AWG is no conductor size of the tables\n  also = [{ count = 1, size = \"13 AWG\", type = \"THNN\" }]\n"
            "                              ^^^^^^^^\n  note: 14 AWG through 4/0 AWG and 250 kcmil through 2000 kcmil, in their steps\n"
            "case.toml:4:46: 'THNN' is no insulation type known to NFPA 70-2023\n  also = [{ count = 1, size = \"13 AWG\", type = \"THNN\" }]\n"
            "                                               ^^^^^^\n  note: did you mean 'THHN'?\n");
  // A stretch takes from its circuit what it leaves out.
  EXPECT_EQ(of("[[raceway]]\nname = \"w\"\n[[circuit]]\nname = \"c\"\nwire = { size = \"2000 kcmil\" }\npath = [{ in = \"w\", wire = { type = \"THHN\" } }]\n"),
            "case.toml:6:17: THHN is not made in 2000 kcmil (Table 310.4(1) lists 14 AWG through 1000 kcmil)\n  wire = { size = \"2000 kcmil\" }\n"
            "                  ^^^^^^^^^^^^\n");
  EXPECT_EQ(of("[[cable]]\nname = \"k\"\ntype = \"NM\"\nsize = \"2.5 mm²\"\n").find("case.toml:4:8: 'NM' is no cable type known to NFPA 70-2023\n"), 0u);
  EXPECT_EQ(of("[[circuit]]\nname = \"c\"\nload = { appliance = \"toaster oven of the neighbour\" }\n").find("case.toml:4:22: 'toaster oven of the neighbour' is no appliance known to"), 0u);
  EXPECT_EQ(of("[[control]]\nname = \"c\"\ncable = { size = \"40 AWG\" }\n"),
            "case.toml:4:18: no resistance is known for 40 AWG\n  cable = { size = \"40 AWG\" }\n                   ^^^^^^^^\n"
            "  note: control conductors run from 26 AWG up\n");
}

}  // namespace
}  // namespace pullproof
