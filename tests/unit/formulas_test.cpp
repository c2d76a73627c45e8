// Every formula that any case prints is worked out again from its printed inputs by a reader of its own.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "support/cases.hpp"
#include "support/evaluate.hpp"

namespace pullproof {
namespace {

double by(std::string_view text) {
  const auto e = test::evaluate(text, [](std::string_view name) -> std::optional<double> {
    return name == "a" ? std::optional(3.0) : name == "b1" ? std::optional(4.0) : std::nullopt;
  });
  EXPECT_EQ(e.error, "") << text;
  return e.value;
}

TEST(Evaluate, ReadsFormulasAsPrinted) {
  EXPECT_DOUBLE_EQ(by("1 + 2 * 3"), 7);
  EXPECT_DOUBLE_EQ(by("(1 + 2) * 3"), 9);
  EXPECT_DOUBLE_EQ(by("8 / 2 / 2"), 2);
  EXPECT_DOUBLE_EQ(by("8 - 2 - 2"), 4);
  EXPECT_DOUBLE_EQ(by("2 ^ 3 ^ 2"), 512);
  EXPECT_DOUBLE_EQ(by("-2 ^ 2"), -4);
  EXPECT_DOUBLE_EQ(by("2 * -3"), -6);
  EXPECT_DOUBLE_EQ(by("sqrt(a^2 + b1^2)"), 5);
  EXPECT_DOUBLE_EQ(by("min(5, a, 9) + max(1, 2)"), 5);
  EXPECT_DOUBLE_EQ(by("floor(2.7) + ceil(2.1) + round(2.5) + abs(-1)"), 9);
  EXPECT_NEAR(by("pi / 4 * a * a"), 7.0685834705770345, 1e-12);
  EXPECT_NEAR(by("cos(acos(0.85)) + sin(0)"), 0.85, 1e-12);
}

TEST(Evaluate, RefusesWhatIsNoFormula) {
  for (const char* text : {"", "a +", "(a", "a b1", "c", "2 * c", "foo(a)", "sqrt(a, b1)", "a / 0", "sqrt(-1)", "a $ b1", "1..2"})
    EXPECT_NE(test::evaluate(text, [](std::string_view n) { return n == "a" || n == "b1" ? std::optional(1.0) : std::nullopt; }).error, "")
        << text;
}

/// What a step prints, as a number; percentages as their ratio. `half` is half a unit of its last place.
struct Printed {
  double value = 0, half = 0;
  bool exact = false;  ///< nothing was rounded away
};
Printed printed(const Step& s) {
  Printed p;
  p.value = std::stod(number_text(s.value, s.decimals));
  p.half = 0.5 * std::pow(10.0, -s.decimals);
  p.exact = std::abs(p.value - s.value) <= std::abs(s.value) * 1e-12;
  if (s.unit == "%") {
    p.value *= 0.01;
    p.half *= 0.01;
  }
  return p;
}

/// What is wrong with a printed formula, empty when nothing is.
std::string wrong(const Working& w, const Step& s) {
  const auto input = [&](std::string_view name) -> const Step* {
    for (std::size_t i = 0; i < s.input_count; ++i)
      if (s.parameters[i] == name) return &w.steps()[s.inputs[i]];
    return nullptr;
  };
  const auto with = [&](std::string_view moved, double by_halves) {
    return test::evaluate(s.expression, [&](std::string_view name) -> std::optional<double> {
      const Step* in = input(name);
      if (in == nullptr || !in->numeric) return std::nullopt;
      const Printed p = printed(*in);
      return p.value + (name == moved ? by_halves * p.half : 0);
    });
  };
  const auto plain = with({}, 0);
  if (!plain.error.empty()) return plain.error;
  for (std::size_t i = 0; i < s.input_count; ++i)
    if (!s.parameters[i].empty() && !plain.names.contains(std::string(s.parameters[i])))
      return "its input '" + std::string(s.parameters[i]) + "' is not in it";
  const Printed result = printed(s);
  double of_inputs = 0;  // what the rounding of the inputs can contribute
  for (const std::string& name : plain.names) {
    if (printed(*input(name)).exact) continue;
    const auto up = with(name, 1), down = with(name, -1);
    if (!up.error.empty() || !down.error.empty()) continue;
    of_inputs += std::max(std::abs(up.value - plain.value), std::abs(down.value - plain.value));
  }
  const double allowed = std::min(result.half + of_inputs, 2 * result.half) + std::abs(plain.value) * 1e-9;
  if (std::abs(plain.value - result.value) <= allowed) return {};
  return fmt::format("{} comes to {}, printed is {}; {} is allowed", s.expression, plain.value, result.value, allowed);
}

TEST(Formulas, ComeToWhatIsPrintedBesideThem) {
  std::set<std::string_view> seen;
  std::size_t steps = 0;
  for (const auto& [file, edition] : test::checked_cases()) {
    const Report r = test::check_text(test::read_text(test::source_dir() / file), edition, file);
    for (const Sheet& sheet : r.sheets)
      for (const Step& s : sheet.working.steps()) {
        if (s.kind != Step::Kind::formula) continue;
        ++steps;
        seen.insert(s.expression);
        const std::string w = wrong(sheet.working, s);
        EXPECT_EQ(w, "") << file << " " << edition << ", " << sheet.check << ", " << sheet.subject << ": " << s.name << " " << s.symbol;
      }
  }
  EXPECT_GT(steps, 1000u);
  EXPECT_GT(seen.size(), 30u);
}

}  // namespace
}  // namespace pullproof
