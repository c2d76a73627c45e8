// Every formula that any report prints is worked out again from the numbers that the report prints.
#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "job/read.hpp"
#include "support/cases.hpp"
#include "support/expression.hpp"

namespace pullproof {
namespace {

namespace fs = std::filesystem;

/// A printed value as a number to reckon with: a percentage is a ratio.
struct Printed {
  double value = 0;
  double half_unit = 0;  ///< half of its last printed place; 0 when nothing was rounded away
};

Printed printed(const Step& s) {
  const double rounded = round_half_up(s.value, s.decimals);
  const double scale = s.unit == "%" ? 0.01 : 1;
  const bool exact = std::abs(rounded - s.value) <= std::abs(s.value) * 1e-12;
  return {rounded * scale, exact ? 0 : 0.5 * std::pow(10.0, -s.decimals) * scale};
}

std::string complaint(const Working& w, const Step& s) {
  std::map<std::string, double> names;
  std::map<std::string, double> half;
  for (std::size_t i = 0; i < s.input_count; ++i) {
    if (s.parameters[i].empty()) continue;
    const Printed p = printed(w.steps()[s.inputs[i]]);
    names[std::string(s.parameters[i])] = p.value;
    half[std::string(s.parameters[i])] = p.half_unit;
  }
  std::string error;
  const auto value = test::evaluate(s.expression, names, error);
  if (!value) return error;
  const double scale = s.unit == "%" ? 0.01 : 1;
  const double result = round_half_up(s.value, s.decimals) * scale;
  double allowed = 0.5 * std::pow(10.0, -s.decimals) * scale * (1 + 1e-6) + 1e-12;
  // What the rounding of the inputs can do to the result, input by input.
  for (const auto& [name, h] : half) {
    double most = 0;
    for (const double sign : {-1.0, 1.0}) {
      auto moved = names;
      moved[name] += sign * h;
      const auto other = test::evaluate(s.expression, moved, error);
      if (other) most = std::max(most, std::abs(*other - *value));
    }
    allowed += most;
  }
  const double off = std::abs(*value - result);
  if (!(off <= allowed)) return fmt::format("gives {} from the printed values, allowed {}", *value, allowed);
  // Rounding that is allowed for may still mislead: four digits have to hold.
  if (off > std::abs(result) * 1e-3 && off > std::pow(10.0, -s.decimals) * scale) return fmt::format("gives {}, which misleads", *value);
  return {};
}

TEST(Formulas, GiveWhatIsPrintedFromWhatIsPrinted) {
  std::vector<fs::path> files;
  for (const char* folder : {"cases", "tests/checks"})
    for (const auto& entry : fs::recursive_directory_iterator(test::source_dir() / folder))
      if (entry.path().extension() == ".toml") files.push_back(entry.path());
  std::sort(files.begin(), files.end());
  std::size_t worked = 0;
  std::set<std::string_view> names;
  for (const fs::path& file : files) {
    const Report report = test::check_text(test::read_text(file), {}, file.filename().string());
    for (const Sheet& sheet : report.sheets)
      for (const Step& s : sheet.working.steps()) {
        if (s.kind != Step::Kind::formula) continue;
        ++worked;
        names.insert(report.texts->keep(s.expression));
        const std::string wrong = complaint(sheet.working, s);
        EXPECT_TRUE(wrong.empty()) << file.lexically_relative(test::source_dir()) << ", " << sheet.check << ": " << s.name << " "
                                   << s.symbol << " = " << s.expression << " = " << shown(s) << " " << wrong;
      }
  }
  EXPECT_GT(worked, 1000u);
}

TEST(Formulas, TheEvaluatorKnowsItsArithmetic) {
  std::string error;
  const std::map<std::string, double> names{{"a", 3}, {"b", 4}};
  EXPECT_DOUBLE_EQ(*test::evaluate("sqrt(a^2 + b^2) * 2 - -1", names, error), 11);
  EXPECT_DOUBLE_EQ(*test::evaluate("min(a, b, 2) + max(a, b) / 2", names, error), 4);
  EXPECT_DOUBLE_EQ(*test::evaluate("floor(7.2 / 2) + ceil(0.1)", names, error), 4);
  EXPECT_FALSE(test::evaluate("a + c", names, error));
  EXPECT_EQ(error, "'c' is no input");
  EXPECT_FALSE(test::evaluate("a +", names, error));
  EXPECT_FALSE(test::evaluate("(a", names, error));
}

}  // namespace
}  // namespace pullproof
