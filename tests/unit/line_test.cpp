// What kind of circuit a circuit is. Sources: definitions of the systems; √3 between the voltages of a wye, 2 between
// those of a mid-tapped winding.
#include <gtest/gtest.h>

#include "derive/line.hpp"
#include "job/measure.hpp"
#include "support/cases.hpp"

namespace pullproof {
namespace {

TEST(Systems, WyeByItsRatio) {
  for (const std::string_view wye : {"208Y/120 V 3-phase 4-wire", "120/208 V 3-phase 4-wire", "120/208 V 1-phase 3-wire", "480Y/277 V 3-phase 4-wire",
                                     "277/480 V 3-phase 4-wire", "600Y/347 V 3-phase 4-wire", "400Y/230 V 3-phase 4-wire"}) {
    const auto s = read_system(wye);
    EXPECT_TRUE(s.ok && s.system.wye) << wye;
  }
  for (const std::string_view other : {"120/240 V 1-phase 3-wire", "120/240 V 3-phase 4-wire", "240 V 3-phase 3-wire"}) {
    const auto s = read_system(other);
    EXPECT_TRUE(s.ok && !s.system.wye) << other;
  }
  EXPECT_FALSE(read_system("240Y/120 V 3-phase 4-wire").ok) << "a wye has no ratio of 2";
}

struct Shape {
  std::string_view system;
  double volts;
  double phases;             ///< 0: not given
  std::string_view neutral;  ///< empty: not given
  int hots, counted;
  bool has_neutral;
  double to_ground, nominal;
};
constexpr Shape shapes[] = {
    {"120/240 V 1-phase 3-wire", 120, 0, "", 1, 2, true, 120, 120},
    {"120/240 V 1-phase 3-wire", 230, 0, "", 2, 2, false, 120, 240},
    {"120/240 V 1-phase 3-wire", 240, 0, "white", 2, 2, true, 120, 240},
    {"120/240 V 1-phase 3-wire", 240, 0, "none", 2, 2, false, 120, 240},
    {"208Y/120 V 3-phase 4-wire", 208, 1, "", 2, 2, false, 120, 208},
    {"208Y/120 V 3-phase 4-wire", 208, 1, "white", 2, 3, true, 120, 208},
    {"208Y/120 V 3-phase 4-wire", 208, 3, "white", 3, 3, true, 120, 208},
    {"120/208 V 1-phase 3-wire", 208, 0, "white", 2, 3, true, 120, 208},
    {"480Y/277 V 3-phase 4-wire", 277, 0, "", 1, 2, true, 277, 277},
    {"120/240 V 3-phase 4-wire", 240, 3, "", 3, 3, false, 207.846, 240},
    {"120/240 V 3-phase 4-wire", 240, 1, "white", 2, 2, true, 120, 240},
    {"240 V 3-phase 3-wire", 240, 3, "", 3, 3, false, 240, 240},
    {"120 V 1-phase 2-wire", 120, 0, "", 1, 2, true, 120, 120},
    {"240 V 1-phase 2-wire", 240, 0, "none", 2, 2, false, 240, 240},
    {"48 V dc", 48, 0, "", 1, 2, true, 48, 48},
};

TEST(Line, Shapes) {
  for (const Shape& s : shapes) {
    SCOPED_TRACE(fmt::format("{} at {} V, {} phases, neutral '{}'", s.system, s.volts, s.phases, s.neutral));
    Case job;
    job.supply.system = {read_system(s.system).system, true, {}, s.system};
    Circuit c;
    c.voltage = {Voltage::from_value(s.volts), true, {}, "V"};
    if (s.phases > 0) c.phases = {s.phases, true, {}, {}};
    if (!s.neutral.empty()) c.wire.neutral = {s.neutral, true, {}, s.neutral};
    Report report;
    const auto edition = code::Edition::find(code::built_in(), "us-2023");
    Context cx(report, job, *edition, "test", "test", "test", {});
    const derive::Line line = derive::line_of(cx, c);
    EXPECT_EQ(line.hots, s.hots);
    EXPECT_EQ(line.neutral, s.has_neutral);
    EXPECT_EQ(line.counted, s.counted);
    EXPECT_NEAR(raw(line.to_ground), s.to_ground, 0.001);
    EXPECT_EQ(raw(line.nominal), s.nominal);
  }
}

}  // namespace
}  // namespace pullproof
