// Ampacity and the largest device against a second computation that shares nothing with the first: sizes, columns and
// ratings typed from 2021 IRC Table E3705.1 and EC&M's list of ratings, ambient factors from the square-root equation.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "support/cases.hpp"

namespace pullproof {
namespace {

struct Row {
  const char* size;
  double cu[3], al[3];  // 60, 75, 90 °C; 0: none
};
constexpr Row rows[] = {
    {"14 AWG", {15, 20, 25}, {0, 0, 0}},          {"12 AWG", {20, 25, 30}, {15, 20, 25}},      {"10 AWG", {30, 35, 40}, {25, 30, 35}},
    {"8 AWG", {40, 50, 55}, {35, 40, 45}},        {"6 AWG", {55, 65, 75}, {40, 50, 55}},       {"4 AWG", {70, 85, 95}, {55, 65, 75}},
    {"3 AWG", {85, 100, 115}, {65, 75, 85}},      {"2 AWG", {95, 115, 130}, {75, 90, 100}},    {"1 AWG", {110, 130, 145}, {85, 100, 115}},
    {"1/0 AWG", {125, 150, 170}, {100, 120, 135}}, {"4/0 AWG", {195, 230, 260}, {150, 180, 205}}, {"500 kcmil", {320, 380, 430}, {260, 310, 350}},
};
constexpr double ratings[] = {10,  15,  20,  25,  30,  35,  40,  45,  50,  60,  70,  80,  90,  100, 110,
                              125, 150, 175, 200, 225, 250, 300, 350, 400, 450, 500, 600, 700, 800};
struct Type {
  const char* name;
  int dry, wet;  // column where dry and where wet
};
constexpr Type types[] = {{"TW", 60, 60}, {"THW", 75, 75}, {"XHHW", 90, 75}, {"THHN/THWN-2", 90, 90}, {"XHHW-2", 90, 90}};

struct Draw {
  const Row* row;
  Type type;
  bool aluminum, wet;
  int fahrenheit, others, end;  // end: marking of both ends, 0 for none
  double rating, load;
};

int column_index(int celsius) { return celsius == 60 ? 0 : celsius == 75 ? 1 : 2; }

/// NaN where no current is permitted.
double usable(const Draw& d) {
  const double* amperes = d.aluminum ? d.row->al : d.row->cu;
  const int column = d.wet ? d.type.wet : d.type.dry;
  // The top of the 9 °F band, in °C; the table starts at 50 °F.
  const double top_f = std::max(50.0, std::ceil((d.fahrenheit - 50) / 9.0) * 9 + 50), top = (top_f - 32) / 1.8;
  if (top > column - 1e-9) return std::nan("");
  const double ambient = std::round(std::sqrt((column - top) / (column - 30.0)) * 100) / 100;
  const int n = 2 + d.others;
  const double count = n <= 3 ? 1 : n <= 6 ? 0.8 : n <= 9 ? 0.7 : n <= 20 ? 0.5 : n <= 30 ? 0.45 : n <= 40 ? 0.4 : 0.35;
  const int end = d.end == 0 ? (d.rating <= 100 ? 60 : 75) : std::min(d.end, 75);
  return std::min(amperes[column_index(column)] * ambient * count, amperes[column_index(end)]);
}

double largest_device(const Draw& d, double amperes) {
  double most = 0;
  for (const double r : ratings)
    if (most == 0 && r >= amperes - 1e-9) most = r;
  const std::string_view size = d.row->size;
  double fixed = 1e9;
  if (size == "14 AWG") fixed = 15;
  if (size == "12 AWG") fixed = d.aluminum ? 15 : 20;
  if (size == "10 AWG") fixed = d.aluminum ? 25 : 30;
  return std::min(most, fixed);
}

std::string text_of(const Draw& d) {
  const std::string end = d.end == 0 ? "" : fmt::format(", terminals = \"{} °C\"", d.end);
  return fmt::format(R"(edition = "us-2023"
supply = {{ system = "120/240 V 1-phase 3-wire" }}
[[raceway]]
name = "r"
type = "RMC"
size = "6"
place = "{}"
ambient = "{} °F"
also = [{{ count = {}, size = "12 AWG", type = "THHN" }}]
[[circuit]]
name = "c"
voltage = "240 V"
path = ["r"]
breaker = {{ rating = "{} A"{} }}
load = {{ current = "{} A", continuous = false{} }}
wire = {{ size = "{}", material = "{}", type = "{}" }}
)", d.wet ? "outdoors, wet" : "indoors, dry", d.fahrenheit, d.others, d.rating, end, d.load, end, d.row->size, d.aluminum ? "aluminum" : "copper", d.type.name);
}

TEST(AmpacityProperty, SecondComputationAgrees) {
  std::mt19937 random(20261125);
  const auto pick = [&](int low, int high) { return static_cast<int>(random() % static_cast<unsigned>(high - low + 1)) + low; };
  int compared = 0, refused = 0;
  for (int i = 0; i < 600; ++i) {
    Draw d{};
    d.row = &rows[pick(0, static_cast<int>(std::size(rows)) - 1)];
    d.type = types[pick(0, static_cast<int>(std::size(types)) - 1)];
    d.aluminum = pick(0, 2) == 0 && d.row->al[0] > 0;
    d.wet = pick(0, 1) == 1;
    d.fahrenheit = pick(20, 180);
    d.others = pick(1, 45);
    d.end = pick(0, 2) == 0 ? 0 : pick(0, 1) == 0 ? 60 : 75;
    d.rating = ratings[pick(1, static_cast<int>(std::size(ratings)) - 1)];
    d.load = pick(1, 300);
    const std::string text = text_of(d);
    SCOPED_TRACE(text);
    const Report report = test::check_text(text);
    const double want = usable(d);
    const auto found = test::findings(report, "ampacity", "circuit c");
    ASSERT_EQ(found.size(), 1u);
    if (std::isnan(want)) {
      EXPECT_EQ(found[0]->verdict, Verdict::fail);
      EXPECT_NE(found[0]->message.find("may carry no current"), std::string_view::npos) << found[0]->message;
      ++refused;
      continue;
    }
    EXPECT_NEAR(test::step_value(report, *found[0], "Iz"), want, 1e-9 * want);
    EXPECT_EQ(found[0]->verdict, want >= d.load * (1 - 1e-9) ? Verdict::pass : Verdict::fail) << found[0]->message;
    const auto device = test::findings(report, "device-conductor", "circuit c");
    ASSERT_EQ(device.size(), 1u);
    const double most = largest_device(d, want);
    EXPECT_NEAR(report.sheets[device[0]->sheet].working.steps()[device[0]->limit].value, most, 1e-9 * most);
    EXPECT_EQ(device[0]->verdict, d.rating <= most ? Verdict::pass : Verdict::fail) << device[0]->message;
    ++compared;
  }
  EXPECT_GT(compared, 400);
  EXPECT_GT(refused, 20);
}

/// The number in "use 8 AWG conductors": what the program says would do.
std::string size_in(std::string_view change) {
  const std::string_view start = "use ";
  const auto at = change.find(start), end = change.find(" conductors");
  return at == std::string_view::npos || end == std::string_view::npos ? "" : std::string(change.substr(at + start.size(), end - at - start.size()));
}

// What a failure advises has to do what it says.
TEST(AmpacityProperty, AdvisedSizeCarriesTheLoad) {
  std::mt19937 random(7);
  const auto pick = [&](int low, int high) { return static_cast<int>(random() % static_cast<unsigned>(high - low + 1)) + low; };
  int tried = 0;
  for (int i = 0; i < 200; ++i) {
    Draw d{&rows[pick(0, 5)], types[3], false, pick(0, 1) == 1, pick(60, 150), pick(1, 20), 75, 60, static_cast<double>(pick(30, 150))};
    SCOPED_TRACE(text_of(d));
    const Report report = test::check_text(text_of(d));
    const auto found = test::findings(report, "ampacity", "circuit c");
    ASSERT_EQ(found.size(), 1u);
    if (found[0]->verdict != Verdict::fail) continue;
    const std::string size = size_in(found[0]->change);
    if (size.empty()) continue;  // no size does
    std::string better = text_of(d);
    const std::string was = fmt::format("wire = {{ size = \"{}\"", d.row->size);
    better.replace(better.find(was), was.size(), fmt::format("wire = {{ size = \"{}\"", size));
    EXPECT_EQ(test::findings(test::check_text(better), "ampacity", "circuit c")[0]->verdict, Verdict::pass) << better;
    ++tried;
  }
  EXPECT_GT(tried, 50);
}

}  // namespace
}  // namespace pullproof
