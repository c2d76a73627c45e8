#include "draw/figures.hpp"

#include <gmock/gmock.h>

#include <cmath>
#include <numbers>
#include <random>
#include <regex>
#include <set>

#include "draw/lettering.hpp"
#include "draw/packing.hpp"
#include "draw/svg.hpp"
#include "engine/load.hpp"
#include "support/cases.hpp"

namespace pullproof::draw {
namespace {

using testing::HasSubstr;

// --- packing ---

double apart(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// The largest overlap of circles with one another and with the wall, in parts of the tube's radius.
double overlap(const std::vector<double>& radii, const Packed& p, double tube) {
  double worst = 0;
  for (std::size_t i = 0; i < radii.size(); ++i) {
    if (!p.inside[i]) continue;
    worst = std::max(worst, apart(p.centres[i], {}) + radii[i] - tube);
    for (std::size_t j = 0; j < i; ++j)
      if (p.inside[j]) worst = std::max(worst, radii[i] + radii[j] - apart(p.centres[i], p.centres[j]));
  }
  return worst / tube;
}

/// Whether circle `i` would hit something if it sank by a twentieth of its radius: nothing floats.
bool rests(const std::vector<double>& radii, const Packed& p, double tube, std::size_t i) {
  const Point lower{p.centres[i].x, p.centres[i].y + 0.05 * radii[i]};
  if (apart(lower, {}) + radii[i] > tube) return true;
  for (std::size_t j = 0; j < radii.size(); ++j)
    if (j != i && p.inside[j] && apart(lower, p.centres[j]) < radii[i] + radii[j]) return true;
  return false;
}

TEST(Packing, OneLiesAtTheBottomAndTwoSideBySide) {
  const Packed one = pack({1}, 5);
  EXPECT_NEAR(one.centres[0].x, 0, 1e-4);
  EXPECT_NEAR(one.centres[0].y, 4, 1e-4);
  // Two alike touch one another and the wall, as high as one another: the middles 4 from the centre of the tube.
  const Packed two = pack({1, 1}, 5);
  EXPECT_NEAR(std::abs(two.centres[0].x), 1, 0.02);
  EXPECT_NEAR(two.centres[0].y, std::sqrt(15.0), 0.005);
  EXPECT_NEAR(two.centres[1].y, std::sqrt(15.0), 0.005);
}

TEST(Packing, NothingOverlapsLeavesTheTubeOrFloats) {
  std::mt19937 random(20261125);
  std::uniform_real_distribution<double> radius(0.4, 1.6), fill(0.05, 0.7);
  for (int round = 0; round < 120; ++round) {
    std::vector<double> radii(1 + random() % 30);
    double area = 0;
    for (double& r : radii) {
      r = round % 3 == 0 ? 1 : radius(random);
      area += r * r;
    }
    const double tube = std::max(std::sqrt(area / fill(random)), 1.7);
    const Packed p = pack(radii, tube);
    EXPECT_LE(overlap(radii, p, tube), packing_slack);
    for (std::size_t i = 0; i < radii.size(); ++i)
      if (p.inside[i]) {
        EXPECT_TRUE(rests(radii, p, tube, i)) << round << ' ' << i;
      }
    const Packed again = pack(radii, tube);
    for (std::size_t i = 0; i < radii.size(); ++i) EXPECT_EQ(p.centres[i].x, again.centres[i].x);
  }
}

TEST(Packing, HoldsWhatIsPermittedAndSaysWhatDoesNotFit) {
  // 40 % of three or more alike always lie in; the code's fill is far from what geometry allows.
  for (int n = 3; n <= 40; ++n) {
    const std::vector<double> radii(static_cast<std::size_t>(n), 1);
    const Packed p = pack(radii, std::sqrt(n / 0.4));
    EXPECT_EQ(std::count(p.inside.begin(), p.inside.end(), true), n);
  }
  const Packed too_many = pack({1, 1, 1}, 2);  // two across are all there is room for
  EXPECT_EQ(std::count(too_many.inside.begin(), too_many.inside.end(), true), 2);
  const Packed too_large = pack({3, 1}, 2);
  EXPECT_FALSE(too_large.inside[0]);
  EXPECT_TRUE(too_large.inside[1]);
}

// --- figures ---

struct Loaded {
  std::shared_ptr<const Case> job;
  std::optional<code::Edition> edition;
  Report report;
};

Loaded load(const std::string& text, const std::string& file = "case.toml") {
  Diagnostics diagnostics;
  auto loaded = load_case(Shelf{}, file, text, std::nullopt, diagnostics);
  for (const Diagnostic& d : diagnostics.sorted()) ADD_FAILURE() << render(d);
  if (!loaded) throw std::runtime_error("the case cannot be read");
  return {loaded->job, loaded->edition, run_checks(loaded->job, loaded->edition)};
}

Loaded demo(const std::string& name) { return load(test::read_text(test::source_dir() / "cases" / (name + ".toml"))); }

std::vector<Drawing> all_figures(const Loaded& l) {
  std::vector<Drawing> out;
  for (auto* make : {one_lines, cross_sections, volts_along})
    for (Drawing& d : make(l.report, *l.job, *l.edition).drawings) out.push_back(std::move(d));
  for (Drawing& d : margins(l.report).drawings) out.push_back(std::move(d));
  return out;
}

std::vector<Text> texts(const Drawing& d) {
  std::vector<Text> out;
  for (const Shape& s : d.shapes)
    if (const auto* t = std::get_if<Text>(&s)) out.push_back(*t);
  return out;
}

std::string all_text(const Drawing& d) {
  std::string out;
  for (const Text& t : texts(d)) out += t.text + '\n';
  return out;
}

bool meet(const Extent& a, const Extent& b) {
  constexpr double near = 0.01;
  return a.left < b.right - near && b.left < a.right - near && a.top < b.bottom - near && b.top < a.bottom - near;
}

/// Whether a line passes through a box, by cutting it down to it (Liang and Barsky).
bool crosses(Point a, Point b, const Extent& e) {
  double from = 0, to = 1;
  const double dx = b.x - a.x, dy = b.y - a.y;
  for (const auto& [p, q] : {std::pair{-dx, a.x - e.left}, {dx, e.right - a.x}, {-dy, a.y - e.top}, {dy, e.bottom - a.y}}) {
    if (p == 0 && q <= 0) return false;
    if (p < 0) from = std::max(from, q / p);
    if (p > 0) to = std::min(to, q / p);
  }
  return from < to;
}

void expect_sound(const Drawing& d) {
  SCOPED_TRACE(d.title);
  EXPECT_FALSE(d.title.empty());
  EXPECT_FALSE(d.description.empty());
  EXPECT_LE(d.width, column);
  for (const Shape& s : d.shapes) {
    const Extent e = extent(s);
    const auto* t = std::get_if<Text>(&s);
    const std::string what = t != nullptr ? t->text : "a shape";
    EXPECT_GE(e.left, -0.01) << what;
    EXPECT_GE(e.top, -0.01) << what;
    EXPECT_LE(e.right, d.width + 0.01) << what;
    EXPECT_LE(e.bottom, d.height + 0.01) << what;
    if (t != nullptr) {
      EXPECT_GE(t->size, smallest_text) << what;
    }
  }
  const auto all = texts(d);
  for (std::size_t i = 0; i < all.size(); ++i)
    for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(meet(extent(all[i]), extent(all[j]))) << all[i].text << " | " << all[j].text;
  for (const Shape& s : d.shapes) {
    const auto* line = std::get_if<Polyline>(&s);
    if (line == nullptr) continue;
    for (const Text& t : all) {
      if (t.anchor == Anchor::middle && t.strong) continue;  // the number on a conductor, over its own pattern
      Extent e = extent(t);
      e.top += 0.2 * t.size;  // letters are rarely as high as their font
      for (std::size_t i = 1; i < line->points.size(); ++i) EXPECT_FALSE(crosses(line->points[i - 1], line->points[i], e)) << t.text;
    }
  }
}

TEST(Figures, OfEveryDemoCaseAreSound) {
  for (const char* name : {"cabin-range", "cooling-unit", "dozen-faults", "far-bath-house", "first-look", "guest-house", "long-thermostat",
                           "metric", "mill-fan", "shared-raceway", "wash-house"}) {
    SCOPED_TRACE(name);
    const auto all = all_figures(demo(name));
    EXPECT_FALSE(all.empty());
    for (const Drawing& d : all) {
      expect_sound(d);
      EXPECT_LE(d.height, 9.5 * 72) << d.title << " is higher than a printed page";
    }
  }
}

TEST(Figures, OfEveryCaseOfTheChecksAreSound) {
  std::string last;
  for (const auto& [file, edition] : test::checked_cases()) {
    if (file == last || !file.starts_with("tests/checks")) continue;
    last = file;
    SCOPED_TRACE(file);
    for (const Drawing& d : all_figures(load(test::read_text(test::source_dir() / file)))) expect_sound(d);
  }
}

TEST(Figures, AreTheSameEachTime) {
  const auto once = all_figures(demo("shared-raceway")), again = all_figures(demo("shared-raceway"));
  ASSERT_EQ(once.size(), again.size());
  for (std::size_t i = 0; i < once.size(); ++i) EXPECT_EQ(svg_file(once[i]), svg_file(again[i]));
}

std::string replaced(std::string text, const std::string& what, const std::string& with) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + with.size())) text.replace(at, what.size(), with);
  return text;
}

TEST(Figures, WithstandWhateverSomebodyTypes) {
  const std::string plain = test::read_text(test::source_dir() / "cases" / "shared-raceway.toml");
  std::string marks;
  for (int i = 0; i < 120; ++i) marks += "e\u0301";
  for (const std::string& hostile : {std::string(480, 'W'), std::string("<b>&amp;</b> {0} %s"), std::string("مرحبا بالعالم مرحبا بالعالم"),
                                     std::string("👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦"), marks}) {
    SCOPED_TRACE(hostile.substr(0, 20));
    std::string text = replaced(plain, "\"corridor\"", "\"" + hostile + "\"");
    text = replaced(text, "\"boiler\"", "\"" + hostile + " boiler\"");
    for (const Drawing& d : all_figures(load(text))) {
      expect_sound(d);
      EXPECT_EQ(svg_file(d).find("<b>"), std::string::npos);
    }
  }
}

// --- one-line diagrams ---

TEST(OneLine, ShowsTheWholeWay) {
  const auto figures = one_lines(demo("wash-house").report, *demo("wash-house").job, *demo("wash-house").edition);
  ASSERT_EQ(figures.drawings.size(), 1u);
  const std::string all = all_text(figures.drawings.front());
  for (const char* part : {"120/240 V 1-phase 3-wire", "available fault 9.2 kA", "Breaker 15 A", "EMT 1/2, 62 ft, indoors, dry", "LFMC 1/2, 4 ft, outdoors, wet",
                           "ground 14 AWG, green", "Disconnect: switch", "gas water heater, on demand", "Class 2, 12 V dc, 6 VA",
                           "48 ft, indoors, dry", "2 × 18 AWG, CL2, solid", "90 mA, works from 10 V"})
    EXPECT_THAT(all, HasSubstr(part));
  EXPECT_THAT(all, HasSubstr("2 × 14 AWG copper THHN/THWN-2"));
  EXPECT_EQ(all.find("Fails"), std::string::npos);
}

TEST(OneLine, GoesThroughFeedersAndBoxesInOrder) {
  const Loaded l = demo("guest-house");
  const auto figures = one_lines(l.report, *l.job, *l.edition);
  ASSERT_EQ(figures.drawings.size(), 1u);
  const std::string all = all_text(figures.drawings.front());
  std::size_t last = 0;
  for (const char* part : {"Breaker 60 A", "yard", "End of feeder guest feeder", "Breaker 30 A", "utility room", "electric water heater, storage"}) {
    const std::size_t at = all.find(part);
    ASSERT_NE(at, std::string::npos) << part;
    EXPECT_GT(at, last) << part;
    last = at;
  }
}

TEST(OneLine, MarksWhatFailsWhereItIs) {
  const Loaded l = demo("dozen-faults");
  const auto figures = one_lines(l.report, *l.job, *l.edition);
  ASSERT_EQ(figures.drawings.size(), 1u);
  const std::string all = replaced(all_text(figures.drawings.front()), "\n", " ");
  for (const Finding& f : l.report.findings)
    if (f.verdict == Verdict::fail) {
      EXPECT_THAT(all, HasSubstr(std::string(f.title)));
    }
}

// --- cross-sections ---

// Outside diameters: NFPA 70 Chapter 9 Table 5, THHN: 14 AWG 0.111 in, 12 AWG 0.130 in, 10 AWG 0.164 in. Inside
// diameter of 3/4 EMT, Table 4: 0.824 in. The control cable is 0.16 in, by the case.
TEST(CrossSection, IsTrueToScale) {
  const Loaded l = demo("shared-raceway");
  const auto figures = cross_sections(l.report, *l.job, *l.edition);
  ASSERT_EQ(figures.drawings.size(), 1u);
  EXPECT_TRUE(figures.missing.empty());
  const Drawing& d = figures.drawings.front();
  const std::string all = all_text(d);
  std::smatch found;
  ASSERT_TRUE(std::regex_search(all, found, std::regex("drawn ([0-9.]+) : 1")));
  const double point_of_an_inch = 72 * std::stod(found[1]);
  double bore = 0, bar = 0;
  std::multiset<int> thousandths;
  for (const Shape& s : d.shapes) {
    if (const auto* c = std::get_if<Circle>(&s)) {
      const double inches = 2 * (c->radius + c->stroke.width / 2) / point_of_an_inch;  // to the outer edge of the stroke
      if (c->fill == Ink::paper) bore = 2 * c->radius / point_of_an_inch;
      const bool conductor = c->fill == Ink::live || c->fill == Ink::neutral || c->fill == Ink::earth || c->fill == Ink::control;
      if (conductor && c->stroke.ink == Ink::ink && std::abs(c->radius - 6.2) > 1e-9) thousandths.insert(static_cast<int>(std::lround(inches * 1000)));
    }
    if (const auto* p = std::get_if<Polyline>(&s); p != nullptr && p->points.size() == 2 && p->points[0].y == p->points[1].y && p->stroke.width == 1)
      bar = std::max(bar, std::abs(p->points[1].x - p->points[0].x));
  }
  EXPECT_NEAR(bore, 0.824, 1e-9);
  EXPECT_EQ(thousandths, (std::multiset<int>{111, 111, 130, 130, 130, 160, 164, 164, 164, 164}));
  EXPECT_THAT(all, HasSubstr("1/4 in"));
  EXPECT_NEAR(bar / point_of_an_inch, 0.25, 1e-9);
}

TEST(CrossSection, SaysTheAreasOfTheReport) {
  for (const char* name : {"shared-raceway", "dozen-faults", "wash-house", "cooling-unit"}) {
    const Loaded l = demo(name);
    for (const Raceway& r : l.job->raceways) {
      const std::string subject = "raceway " + std::string(*r.name);
      const auto fill = test::findings(l.report, "raceway-fill", subject);
      ASSERT_FALSE(fill.empty()) << subject;
      std::string all;
      for (const Drawing& d : cross_sections(l.report, *l.job, *l.edition).drawings)
        if (d.title.find(subject + ",") != std::string::npos) all = replaced(all_text(d), "\n", " ");
      for (const Step& s : l.report.sheets[fill.front()->sheet].working.steps())
        for (const char* symbol : {"Au", "Am", "u", "D"})
          if (s.symbol == symbol) {
            EXPECT_THAT(all, HasSubstr(shown(s))) << name << ' ' << s.name;
          }
      EXPECT_THAT(all, HasSubstr(std::string(fill.front()->message)));
    }
  }
}

TEST(CrossSection, IsLeftOutAloudWhereSomethingIsMissing) {
  std::string text = test::read_text(test::source_dir() / "cases" / "shared-raceway.toml");
  text = replaced(text, ", diameter = \"0.16 in\"", "");
  const Loaded l = load(text);
  const auto figures = cross_sections(l.report, *l.job, *l.edition);
  EXPECT_TRUE(figures.drawings.empty());
  ASSERT_EQ(figures.missing.size(), 1u);
  EXPECT_EQ(figures.missing.front().what, "cross-section of raceway corridor");
  EXPECT_THAT(figures.missing.front().why, HasSubstr("control.cable.diameter"));
}

TEST(CrossSection, SaysHowManyFoundNoRoom) {
  std::string text = test::read_text(test::source_dir() / "cases" / "dozen-faults.toml");
  text = replaced(text, "{ count = 6,", "{ count = 30,");
  const Loaded l = load(text);
  const auto figures = cross_sections(l.report, *l.job, *l.edition);
  EXPECT_THAT(all_text(figures.drawings.front()), testing::ContainsRegex("[0-9]+ of them could not be laid in"));
  for (const Drawing& d : figures.drawings) expect_sound(d);
  const Loaded crowd = load(replaced(text, "{ count = 30,", "{ count = 400,"));
  const auto none = cross_sections(crowd.report, *crowd.job, *crowd.edition);
  ASSERT_EQ(none.missing.size(), 1u);
  EXPECT_THAT(none.missing.front().why, HasSubstr("too many to draw"));
}

// --- volts ---

TEST(Volts, AreThoseOfTheReport) {
  for (const char* name : {"wash-house", "dozen-faults", "guest-house", "cooling-unit", "far-bath-house", "metric"}) {
    const Loaded l = demo(name);
    for (const Drawing& d : volts_along(l.report, *l.job, *l.edition).drawings) {
      SCOPED_TRACE(std::string(name) + ": " + d.title);
      std::set<std::string> known;
      for (const Sheet& s : l.report.sheets)
        for (const Step& step : s.working.steps()) known.insert(shown(step));
      const std::regex lost("([0-9.]+%) lost");
      std::size_t seen = 0;
      for (const Text& t : texts(d))
        if (t.strong && t.anchor == Anchor::end) {  // the table beside the curve
          ++seen;
          EXPECT_TRUE(known.contains(t.text)) << t.text;
        }
      EXPECT_GE(seen, 2u);
      for (std::sregex_iterator it(d.description.begin(), d.description.end(), lost), end; it != end; ++it)
        EXPECT_TRUE(known.contains((*it)[1].str())) << (*it)[1];
    }
  }
}

/// 120 V less what 66 ft of 14 AWG lose at 4.2 A, worked out here: 2 * 4.2 A * 3.14 ohm/kft * 66 ft (NFPA 70 Chapter 9
/// Table 8, 14 AWG stranded uncoated) = 1.7408 V, so 118.2592 V.
TEST(Volts, OfTheWashHouseAreAsByHand) {
  const Loaded l = demo("wash-house");
  const auto figures = volts_along(l.report, *l.job, *l.edition);
  ASSERT_EQ(figures.drawings.size(), 2u);
  EXPECT_THAT(all_text(figures.drawings.front()), HasSubstr("118.2592 V"));
  EXPECT_THAT(all_text(figures.drawings.front()), HasSubstr("66 ft from the start"));
  // The drawing's own scale: the height of the last joint between the grid lines of 118 V and 119 V.
  std::map<std::string, double> height;
  double last = 0;
  for (const Shape& s : figures.drawings.front().shapes) {
    if (const auto* t = std::get_if<Text>(&s); t != nullptr && t->ink == Ink::faint && t->anchor == Anchor::end) height[t->text] = t->at.y - 0.36 * t->size;
    if (const auto* c = std::get_if<Circle>(&s); c != nullptr && c->fill == Ink::paper) last = c->centre.y;
  }
  ASSERT_TRUE(height.contains("118 V") && height.contains("119 V"));
  EXPECT_NEAR((height["118 V"] - last) / (height["118 V"] - height["119 V"]), 0.2592, 0.0005);
}

// --- margins ---

TEST(Margins, ShowEveryComparedNumberOnceTheTightestFirst) {
  for (const char* name : {"wash-house", "dozen-faults"}) {
    const Loaded l = demo(name);
    std::size_t compared = 0, rows = 0;
    for (const Finding& f : l.report.findings) compared += f.used.has_value();
    double before = 1e9;
    for (const Drawing& d : margins(l.report).drawings)
      for (const Text& t : texts(d))
        if (t.strong && t.anchor == Anchor::end) {
          ++rows;
          const double percent = std::stod(t.text);
          EXPECT_LE(percent, before + 0.06);
          before = percent;
        }
    EXPECT_EQ(rows, compared);
  }
}

TEST(Margins, BarsAreAsLongAsTheirNumbers) {
  const Loaded l = demo("wash-house");
  for (const Drawing& d : margins(l.report).drawings) {
    std::vector<double> bars, limits, numbers;
    for (const Shape& s : d.shapes) {
      if (const auto* r = std::get_if<Rectangle>(&s)) bars.push_back(r->corner.x + r->width);
      if (const auto* p = std::get_if<Polyline>(&s)) limits.push_back(p->points.front().x);
      if (const auto* t = std::get_if<Text>(&s); t != nullptr && t->strong && t->anchor == Anchor::end) numbers.push_back(std::stod(t->text));
    }
    ASSERT_EQ(bars.size(), numbers.size());
    ASSERT_EQ(limits.size(), numbers.size());
    for (std::size_t i = 0; i < bars.size(); ++i) EXPECT_NEAR(bars[i] / limits[i], numbers[i] / 100, 0.0006) << numbers[i];
  }
}

}  // namespace
}  // namespace pullproof::draw
