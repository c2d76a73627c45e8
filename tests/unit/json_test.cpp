// The form of JSON reports is held to its schema in tests/golden; here is what a schema cannot say.
#include "report/json.hpp"

#include <gtest/gtest.h>

#include <limits>

namespace pullproof::report {
namespace {

std::string json(const Report& r) {
  JsonReports out("1.2.3");
  out.add(r);
  out.finish(1);
  return out.take();
}

Report report_with(double value, const Unit<double>& unit) {
  Report r;
  r.case_file = "case.toml";
  r.sheets.push_back({"some-check", "circuit a", Working(*r.texts)});
  Working& w = r.sheets.back().working;
  const auto a = w.given("a", "a", value, unit, "as written", {"case.toml", 3, 4, 5});
  constexpr auto twice = formula("twice", "b", "a * 2", {"a"}, [](double x) { return x * 2; });
  const auto b = w.apply(twice, unit, {}, a);
  w.choice("unused", "u", 9.0, units::count, "it is not shown", {});
  Finding f;
  f.check = "some-check";
  f.title = "Some check";
  f.subject = "circuit a";
  f.verdict = Verdict::fail;
  f.message = "it is so";
  f.demand = b.step;
  f.limit = a.step;
  f.used = 2;
  r.findings.push_back(f);
  return r;
}

bool has(const std::string& text, std::string_view piece) { return text.find(piece) != std::string::npos; }

TEST(Json, GivesNumbersInFullAndAsShown) {
  const std::string s = json(report_with(1.0 / 3, units::ratio));
  EXPECT_TRUE(has(s, "\"value\": 0.3333333333333333,")) << s;
  EXPECT_TRUE(has(s, "\"shown\": \"0.33333\""));
  EXPECT_TRUE(has(s, "\"value\": 0.6666666666666666,"));
  const std::string percent = json(report_with(0.03, units::percent));
  EXPECT_TRUE(has(percent, "\"value\": 3.0,\n      \"unit\": \"%\"")) << percent;
}

TEST(Json, GivesWhatIsNotFiniteAsNull) {
  const double inf = std::numeric_limits<double>::infinity();
  for (const double v : {inf, -inf, std::nan("")}) {
    const std::string s = json(report_with(v, units::ratio));
    EXPECT_TRUE(has(s, "\"value\": null"));
    EXPECT_FALSE(has(s, "inf") || has(s, "nan") || has(s, "NaN")) << s;
  }
}

TEST(Json, NumbersTheStepsOfAFindingFromZero) {
  const std::string s = json(report_with(2, units::count));
  EXPECT_TRUE(has(s, "\"step\": 0,\n         \"parameter\": \"a\"")) << s;
  EXPECT_FALSE(has(s, "unused"));
  EXPECT_TRUE(has(s, "\"expression\": \"a * 2\""));
}

TEST(Json, EscapesWhateverIsInATextAndStaysAscii) {
  Report r = report_with(1, units::count);
  r.title = "\"<b>\\ \x01 \x7f \u202E \u009B2J 電 👩 \xff end";
  r.case_file = "\xc0name";
  const std::string s = json(r);
  for (const char c : s) EXPECT_TRUE(c == '\n' || (c >= 0x20 && c <= 0x7f)) << static_cast<int>(c);
  EXPECT_TRUE(has(s, "\\\"<b>\\\\ \\u0001 ")) << s;
  EXPECT_TRUE(has(s, "\\u202E \\u009B2J \\u96FB \\uD83D\\uDC69 \\uFFFD end")) << s;
}

TEST(Json, WritesPieceByPieceWhatItWritesAtOnce) {
  const Report r = report_with(1, units::count);
  JsonReports one("1"), many("1");
  one.add(r);
  one.add_unreadable("x", {{"x", 1, 2, 3, "wrong", "so", "line"}});
  one.finish(2);
  std::string pieces = many.take();
  many.add(r);
  pieces += many.take();
  many.add_unreadable("x", {{"x", 1, 2, 3, "wrong", "so", "line"}});
  pieces += many.take();
  many.finish(2);
  pieces += many.take();
  EXPECT_EQ(one.take(), pieces);
}

}  // namespace
}  // namespace pullproof::report
