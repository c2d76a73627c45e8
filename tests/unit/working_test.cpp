#include "core/working.hpp"

#include <gtest/gtest.h>

#include "core/report.hpp"

namespace pullproof {
namespace {

constexpr auto product = formula("product", "P", "a * b", {"a", "b"}, [](Current a, double b) -> Current { return a * b; });

TEST(Working, KeepsEveryStepWithItsInputs) {
  Texts texts;
  Working w(texts);
  const auto a = w.given("load", "a", units::ampere.of(12.5), units::ampere, "12500 mA", {"case.toml", 3, 5, 8});
  const auto b = w.constant("factor", "b", 1.25, units::percent, {"ED", "1.2", "rule", {}, {}, "a book", Basis::memory, {}});
  const auto p = w.apply(product, units::ampere, {"ED", "3.4", "other", {}, {}, "a book", Basis::derived, {}}, a, b);
  EXPECT_DOUBLE_EQ(raw(p.value), 15.625);
  ASSERT_EQ(w.steps().size(), 3u);
  const Step& s = w.steps()[p.step];
  EXPECT_EQ(s.kind, Step::Kind::formula);
  EXPECT_EQ(s.expression, "a * b");
  EXPECT_EQ(s.input_count, 2);
  EXPECT_EQ(s.parameters[0], "a");
  EXPECT_EQ(s.inputs[1], b.step);
  EXPECT_EQ(shown(s), "15.625 A");
  EXPECT_EQ(shown(w.steps()[b.step]), "125%");
  EXPECT_EQ(shown(w.steps()[a.step]), "12.5 A");
  EXPECT_EQ(w.steps()[a.step].text, "12500 mA");
}

TEST(Working, PrintsNoMoreDigitsThanItsInputsSupport) {
  Texts texts;
  Working w(texts);
  const auto a = w.choice("drop", "a", units::ampere.of(0.9920164), units::ampere, "picked", {});
  const auto b = w.choice("ratio", "b", 1 / 120.0, units::factor, "picked", {});
  const auto p = w.apply(product, units::ampere, {}, a, b);
  const double redone = std::stod(number_text(w.steps()[a.step].value, w.steps()[a.step].decimals)) *
                        std::stod(number_text(w.steps()[b.step].value, w.steps()[b.step].decimals));
  const Step& s = w.steps()[p.step];
  EXPECT_NEAR(std::stod(number_text(s.value, s.decimals)), redone, std::pow(10, -s.decimals));
  EXPECT_DOUBLE_EQ(raw(p.value), 0.9920164 * (1 / 120.0));  // only the print is shortened, never the value
}

// A sum that is only tried out takes values from another sheet: their steps are none of this one's.
TEST(Working, TakesAValueOfAnotherSheetWithoutItsStep) {
  Texts texts;
  Working other(texts), w(texts);
  other.given("first", "f", units::ampere.of(1), units::ampere, "1 A", {});
  const auto a = other.given("load", "a", units::ampere.of(1.0 / 3), units::ampere, "third", {});
  const auto b = w.constant("factor", "b", 1.25, units::percent, {});
  const auto p = w.apply(product, units::ampere, {}, a, b);
  EXPECT_DOUBLE_EQ(raw(p.value), 1.25 / 3);
  EXPECT_EQ(w.steps()[p.step].inputs[0], no_step);
  EXPECT_EQ(w.steps()[p.step].inputs[1], b.step);
  EXPECT_EQ(w.weakest(p.step), Basis::published);
}

TEST(Working, RestsOnItsWeakestStep) {
  Texts texts;
  Working w(texts);
  const auto a = w.given("load", "a", units::ampere.of(1), units::ampere, "1 A", {});
  const auto b = w.constant("factor", "b", 1.0, units::factor, {"ED", "1.2", "rule", {}, {}, "a book", Basis::memory, {}});
  const auto p = w.apply(product, units::ampere, {}, a, b);
  EXPECT_EQ(w.weakest(a.step), Basis::published);
  EXPECT_EQ(w.weakest(p.step), Basis::memory);
  EXPECT_EQ(w.weakest(no_step), Basis::published);
}

TEST(Working, LabelsAreNoNumbersAndCanBeCauses) {
  Texts texts;
  Working w(texts);
  w.label(Step::Kind::choice, "column", "", "75 °C");
  const StepId why = w.last();
  const auto a = w.table("ampacity", "It", units::ampere.of(20), units::ampere, {});
  w.because_of(why);
  w.because_of(no_step);
  EXPECT_EQ(shown(w.steps()[why]), "75 °C");
  EXPECT_EQ(w.steps()[a.step].input_count, 1);
  for (int i = 0; i < 20; ++i) w.because_of(why);  // more than a step can hold are left out, not written past its end
  EXPECT_EQ(w.steps()[a.step].input_count, Step::most_inputs);
  w.rename(a.step, "usable", "Iz");
  EXPECT_EQ(w.steps()[a.step].name, "usable");
}

TEST(Report, OutcomeIsTheWorstThatDecides) {
  const auto outcome = [](std::initializer_list<Verdict> verdicts) {
    Report r;
    for (const Verdict v : verdicts) r.findings.emplace_back().verdict = v;
    return r.outcome();
  };
  EXPECT_EQ(outcome({Verdict::pass, Verdict::advice, Verdict::not_applicable}), Outcome::pass);
  EXPECT_EQ(outcome({Verdict::pass, Verdict::needs_input}), Outcome::open);
  EXPECT_EQ(outcome({Verdict::pass, Verdict::not_covered}), Outcome::open);
  EXPECT_EQ(outcome({Verdict::needs_input, Verdict::fail, Verdict::not_covered}), Outcome::fail);
  EXPECT_EQ(outcome({}), Outcome::open);  // nothing was checked, and that is no pass
  EXPECT_EQ(outcome({Verdict::not_applicable}), Outcome::open);
}

}  // namespace
}  // namespace pullproof
