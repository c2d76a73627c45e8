// Quantities in text. The units are those of NIST SP 811 and of the trade.
#include "job/measure.hpp"

#include <gtest/gtest.h>

#include <cmath>

namespace pullproof {
namespace {

double read(std::string_view text, Dimension d) {
  const Measured m = read_quantity(text, d);
  EXPECT_TRUE(m.ok) << text << ": " << m.error;
  return m.si;
}

/// "error | the bytes that are to blame | note"
std::string wrong(std::string_view text, Dimension d) {
  const Measured m = read_quantity(text, d);
  EXPECT_FALSE(m.ok) << text << " was read as " << m.si;
  EXPECT_LE(m.at, text.size()) << text;
  EXPECT_GE(m.size, 1u) << text;
  return m.error + " | " + std::string(text.substr(std::min(m.at, text.size()), m.size)) + " | " + m.note;
}

TEST(Measure, ReadsEveryUnit) {
  const struct {
    std::string_view text;
    Dimension d;
    double si;
  } all[] = {
      {"2 in", Dimension::length, 0.0508},       {"2 inch", Dimension::length, 0.0508},  {"2 inches", Dimension::length, 0.0508},
      {"2\"", Dimension::length, 0.0508},        {"2 ft", Dimension::length, 0.6096},    {"2 foot", Dimension::length, 0.6096},
      {"2 feet", Dimension::length, 0.6096},     {"2'", Dimension::length, 0.6096},      {"2 yd", Dimension::length, 1.8288},
      {"2 mm", Dimension::length, 0.002},        {"2 cm", Dimension::length, 0.02},      {"2 m", Dimension::length, 2},
      {"2 km", Dimension::length, 2000},         {"2 in²", Dimension::area, 0.00129032}, {"2 in2", Dimension::area, 0.00129032},
      {"2 mm²", Dimension::area, 2e-6},          {"2 mm2", Dimension::area, 2e-6},       {"2 in³", Dimension::volume, 3.2774128e-5},
      {"2 in3", Dimension::volume, 3.2774128e-5}, {"2 cm³", Dimension::volume, 2e-6},    {"2 cm3", Dimension::volume, 2e-6},
      {"2 ft²", Dimension::area, 0.18580608},    {"2 m²", Dimension::area, 2},           {"3/4 hp", Dimension::horsepower, 0.75},
      {"2 gal", Dimension::volume, 0.007570823568}, {"2 L", Dimension::volume, 0.002},
      {"2 A", Dimension::current, 2},            {"2 mA", Dimension::current, 0.002},    {"2 kA", Dimension::current, 2000},
      {"2 V", Dimension::voltage, 2},            {"2 mV", Dimension::voltage, 0.002},    {"2 kV", Dimension::voltage, 2000},
      {"2 W", Dimension::power, 2},              {"2 kW", Dimension::power, 2000},       {"2 mW", Dimension::power, 0.002},
      {"2 VA", Dimension::power, 2},             {"2 kVA", Dimension::power, 2000},      {"2 ohm", Dimension::resistance, 2},
      {"2 ohms", Dimension::resistance, 2},      {"2 \u03a9", Dimension::resistance, 2}, {"2 \u2126", Dimension::resistance, 2},
      {"2 m\u03a9", Dimension::resistance, 0.002}, {"2 \u2126/km", Dimension::resistance_per_length, 0.002},
      {"2 m\u2126", Dimension::resistance, 0.002},    {"2 milliohm", Dimension::resistance, 0.002},
      {"2 ohm/km", Dimension::resistance_per_length, 0.002},
      {"2 ohm/kft", Dimension::resistance_per_length, 2 / 304.8},
      {"2 \u03a9/km", Dimension::resistance_per_length, 0.002},
      {"40 °C", Dimension::temperature, 40},     {"104 °F", Dimension::temperature, 40}, {"40 C", Dimension::temperature, 40},
      {"104 F", Dimension::temperature, 40},     {"-40 °F", Dimension::temperature, -40}, {"270°", Dimension::angle, 270},
      {"270 deg", Dimension::angle, 270},        {"270 degrees", Dimension::angle, 270}, {"85 %", Dimension::ratio, 0.85},
      {"0.85", Dimension::ratio, 0.85},
  };
  for (const auto& one : all) EXPECT_NEAR(read(one.text, one.d), one.si, std::abs(one.si) * 1e-12) << one.text;
}

TEST(Measure, ReadsBitRates) {
  constexpr std::pair<std::string_view, double> texts[] = {{"9600 bit/s", 9600}, {"9600 baud", 9600}, {"38.4 kbit/s", 38400}, {"115.2 kbps", 115200},
                                                           {"1 Mbit/s", 1e6},    {"19200 bps", 19200}, {"57.6 kbaud", 57600}, {"10 Mbps", 1e7}};
  for (const auto& [text, value] : texts) {
    const Measured m = read_quantity(text, Dimension::bit_rate);
    EXPECT_TRUE(m.ok) << text << ": " << m.error;
    EXPECT_DOUBLE_EQ(m.si, value) << text;
  }
  EXPECT_FALSE(read_quantity("9600 m", Dimension::bit_rate).ok);
  EXPECT_FALSE(read_quantity("9600", Dimension::bit_rate).ok);
  EXPECT_EQ(range_text(Dimension::bit_rate, 1, 1e9), "from 1 bit/s through 1000000000 bit/s");
}

TEST(Measure, NeedsNoSpaceBeforeTheUnit) {
  EXPECT_DOUBLE_EQ(read("62ft", Dimension::length), 62 * 0.3048);
  EXPECT_DOUBLE_EQ(read("15A", Dimension::current), 15);
  EXPECT_DOUBLE_EQ(read(" 15   A ", Dimension::current), 15);
  EXPECT_DOUBLE_EQ(read("104°F", Dimension::temperature), 40);
  EXPECT_DOUBLE_EQ(read("85%", Dimension::ratio), 0.85);
  EXPECT_DOUBLE_EQ(read(".5 A", Dimension::current), 0.5);
  EXPECT_DOUBLE_EQ(read("5. A", Dimension::current), 5);
  EXPECT_DOUBLE_EQ(read("+5 A", Dimension::current), 5);
}

TEST(Measure, AddsInchesToFeet) {
  EXPECT_DOUBLE_EQ(read("5 ft 6 in", Dimension::length), 5.5 * 0.3048);
  EXPECT_DOUBLE_EQ(read("5'6\"", Dimension::length), 5.5 * 0.3048);
  EXPECT_DOUBLE_EQ(read("5 ft 6-1/2 in", Dimension::length), 66.5 * 0.0254);
  EXPECT_DOUBLE_EQ(read("5 feet 6 inches", Dimension::length), 5.5 * 0.3048);
  EXPECT_EQ(wrong("5 in 6 ft", Dimension::length), "only feet and inches go together | 6 ft | ");
  EXPECT_EQ(wrong("5 ft 6 ft", Dimension::length), "only feet and inches go together | 6 ft | ");
  EXPECT_EQ(wrong("5 m 6 cm", Dimension::length), "only feet and inches go together | 6 cm | ");
  EXPECT_EQ(wrong("5 ft 6 in 2 in", Dimension::length), "only feet and inches go together | 2 in | ");
  EXPECT_EQ(wrong("5 ft -6 in", Dimension::length), "inches are added to feet and have no sign | - | ");
  EXPECT_EQ(wrong("5 ft +6 in", Dimension::length), "inches are added to feet and have no sign | + | ");
  EXPECT_EQ(wrong("5 ft 6", Dimension::length), "this number has no unit; a length is wanted | 6 | write \"62 ft\" or \"19 m\"");
}

TEST(Measure, ReadsFractionsOfInches) {
  EXPECT_DOUBLE_EQ(read("7/8 in", Dimension::length), 0.875 * 0.0254);
  EXPECT_DOUBLE_EQ(read("1-1/4 in", Dimension::length), 1.25 * 0.0254);
  EXPECT_DOUBLE_EQ(read("1 1/4 in", Dimension::length), 1.25 * 0.0254);
  EXPECT_DOUBLE_EQ(read("3/4\"", Dimension::length), 0.75 * 0.0254);
  for (const char* text : {"1/0 in", "1-1/0 in", "1/2/3 in", "1/ in", "/2 in", "1.5-1/2 in", "1--1/2 in", "5 -1/2 in", "1/-2 in", "1/+2 in",
                           "1.5/2.5 in", "1 - 1/4 in", "1 1 in", "1-1 in"})
    wrong(text, Dimension::length);
  wrong("1/2 A", Dimension::current);  // currents are decimal
}

TEST(Measure, SaysWhichDimensionIsWanted) {
  EXPECT_EQ(wrong("15 A", Dimension::length), "'A' is the unit of a current, but a length is wanted | A | write \"62 ft\" or \"19 m\"");
  EXPECT_EQ(wrong("240 V", Dimension::current), "'V' is the unit of a voltage, but a current is wanted | V | write \"15 A\"");
  EXPECT_EQ(wrong("4500 W", Dimension::voltage), "'W' is the unit of a power, but a voltage is wanted | W | write \"240 V\"");
  EXPECT_EQ(wrong("40 °", Dimension::temperature),
            "'°' is the unit of an angle, but a temperature is wanted | ° | write \"104 °F\" or \"40 °C\"");
  EXPECT_EQ(wrong("40 °C", Dimension::angle), "'°C' is the unit of a temperature, but an angle is wanted | °C | write \"270°\"");
  EXPECT_EQ(wrong("5 ohm", Dimension::resistance_per_length),
            "'ohm' is the unit of a resistance, but a resistance for a length is wanted | ohm | write \"6.4 ohm/kft\" or \"21 ohm/km\"");
  EXPECT_EQ(wrong("5 ohm/km", Dimension::resistance),
            "'ohm/km' is the unit of a resistance for a length, but a resistance is wanted | ohm/km | write \"2.5 ohm\"");
  EXPECT_EQ(wrong("2 mm²", Dimension::length), "'mm²' is the unit of an area, but a length is wanted | mm² | write \"62 ft\" or \"19 m\"");
  EXPECT_EQ(wrong("5 in²", Dimension::volume), "'in²' is the unit of an area, but a volume is wanted | in² | write \"21 in³\"");
  EXPECT_EQ(wrong("85 %", Dimension::current), "'%' is the unit of a ratio, but a current is wanted | % | write \"15 A\"");
}

TEST(Measure, SaysWhatIsNoQuantity) {
  EXPECT_EQ(wrong("", Dimension::current), "a quantity is wanted here, not an empty text |  | write \"15 A\"");
  EXPECT_EQ(wrong("   ", Dimension::current), "a quantity is wanted here, not an empty text |     | write \"15 A\"");
  EXPECT_EQ(wrong("15", Dimension::current), "this number has no unit; a current is wanted | 15 | write \"15 A\"");
  EXPECT_EQ(wrong("A", Dimension::current), "a quantity begins with a number | A | write \"15 A\"");
  EXPECT_EQ(wrong("about 15 A", Dimension::current), "a quantity begins with a number | about 15 A | write \"15 A\"");
  EXPECT_EQ(wrong("15 A max", Dimension::current), "this is left over after the quantity | max | ");
  EXPECT_EQ(wrong("15 A 20 A", Dimension::current), "this is left over after the quantity | 20 A | ");
  EXPECT_EQ(wrong("62 ft long", Dimension::length), "this is left over after the quantity | long | write \"62 ft\" or \"19 m\"");
  EXPECT_EQ(wrong("62 fet", Dimension::length),
            "'fet' is no unit known here | fet | a length is wanted, such as \"62 ft\" or \"19 m\"");
  for (const char* text : {"1.2.3 A", "--5 A", "+-5 A", ". A", "- A", "nan A", "inf A", "0x10 A", "１５ A", "²A", "\xff A", "15\tA", "15\u00a0A"})
    wrong(text, Dimension::current);
  wrong(std::string(100000, '9') + " A", Dimension::current);
  const std::string long_unit = wrong("1 " + std::string(100000, 'x'), Dimension::current);
  EXPECT_EQ(long_unit.substr(0, 66), "'" + std::string(60, 'x') + "...' ");  // a message is not as long as what it is about
}

TEST(Measure, KnowsTheUsualSlips) {
  EXPECT_EQ(wrong("1,000 ft", Dimension::length),
            "digits are written without separators, the decimal sign is a point | , | write \"62 ft\" or \"19 m\"");
  EXPECT_EQ(wrong("2,5 A", Dimension::current), "digits are written without separators, the decimal sign is a point | , | write \"15 A\"");
  EXPECT_EQ(wrong("1_000 A", Dimension::current), "digits are written without separators, the decimal sign is a point | _ | write \"15 A\"");
  EXPECT_EQ(wrong("1e3 A", Dimension::current), "numbers are written out, without an exponent | e3 A | write \"15 A\"");
  EXPECT_EQ(wrong("1e999 A", Dimension::current), "numbers are written out, without an exponent | e999 A | write \"15 A\"");
  EXPECT_EQ(wrong("1E-3 A", Dimension::current), "numbers are written out, without an exponent | E-3 A | write \"15 A\"");
  EXPECT_EQ(wrong("120 v", Dimension::voltage), "'v' is no unit known here | v | did you mean 'V'?");
  EXPECT_EQ(wrong("62 FT", Dimension::length), "'FT' is no unit known here | FT | did you mean 'ft'?");
  EXPECT_EQ(wrong("10 KA", Dimension::current), "'KA' is no unit known here | KA | did you mean 'kA'?");
  EXPECT_EQ(wrong("5 kw", Dimension::power), "'kw' is no unit known here | kw | did you mean 'kW'?");
  // Capitals that make another unit are no slip to be guessed at.
  EXPECT_EQ(wrong("5 MW", Dimension::power), "'MW' is no unit known here | MW | a power is wanted, such as \"4500 W\" or \"40 VA\"");
  // Look-alikes: the ordinal sign for the degree, a Greek capital for a Latin one.
  wrong("40 ºC", Dimension::temperature);
  wrong("15 Α", Dimension::current);
  wrong("104 ℉", Dimension::temperature);
}

TEST(Measure, ReadsSupplySystems) {
  const auto system = [](std::string_view text) {
    const MeasuredSystem m = read_system(text);
    EXPECT_TRUE(m.ok) << text;
    return m.system;
  };
  System s = system("120/240 V 1-phase 3-wire");
  EXPECT_EQ(raw(s.line_to_line), 240);
  EXPECT_EQ(raw(s.line_to_neutral), 120);
  EXPECT_EQ(s.phases, 1);
  EXPECT_EQ(s.wires, 3);
  EXPECT_FALSE(s.wye || s.dc);
  s = system("208Y/120 V 3-phase, 4-wire");
  EXPECT_EQ(raw(s.line_to_line), 208);
  EXPECT_TRUE(s.wye);
  s = system("120/208 V 3-phase 4-wire");
  EXPECT_TRUE(s.wye);
  EXPECT_EQ(raw(s.line_to_neutral), 120);
  s = system("120/240 V 3-phase 4-wire");  // a delta with one winding tapped in the middle
  EXPECT_FALSE(s.wye);
  s = system("480Y/277 V 3-phase 4-wire");
  EXPECT_EQ(raw(s.line_to_neutral), 277);
  s = system("480 V 3-phase 3-wire");
  EXPECT_EQ(raw(s.line_to_neutral), 0);
  s = system("24 V dc");
  EXPECT_TRUE(s.dc);
  EXPECT_EQ(s.wires, 2);
  s = system("120 V 1-phase 2-wire");
  EXPECT_EQ(s.wires, 2);
  for (const char* text :
       {"", "240", "240 V", "V 1-phase 3-wire", "240 V 1-phase", "240 V 3-wire", "120/240 V 2-phase 3-wire", "240 V 1-phase 3-wire",
        "120/240 V 1-phase 4-wire", "480 V 3-phase 2-wire", "480 V 3-phase 4-wire", "120/240 V 3-phase 3-wire", "0 V dc", "-24 V dc",
        "120/-240 V 1-phase 3-wire", "120/0 V 1-phase 3-wire", "240Y/120 V 3-phase 4-wire", "208Y V 3-phase 4-wire", "120/120 V 1-phase 3-wire",
        "12/240 V 1-phase 3-wire", "120/240 V 1-phase 3-wire grounded", "120/240 v 1-phase 3-wire", "1e3 V dc", "120/240 V dc ac",
        "999999 V dc"})
    EXPECT_FALSE(read_system(text).ok) << text;
}

TEST(Measure, ReadsSourceVoltages) {
  const auto m = read_source_voltage("24 V ac");
  EXPECT_TRUE(m.measured.ok && m.kind_given && !m.voltage.dc);
  EXPECT_EQ(raw(m.voltage.volts), 24);
  EXPECT_TRUE(read_source_voltage("12 V dc").voltage.dc);
  EXPECT_TRUE(read_source_voltage("12Vdc").voltage.dc);
  EXPECT_FALSE(read_source_voltage("24 V").kind_given);
  EXPECT_FALSE(read_source_voltage("24 ac").measured.ok);
  EXPECT_FALSE(read_source_voltage("24 V DC").measured.ok);
  EXPECT_FALSE(read_source_voltage("dc").measured.ok);
}

}  // namespace
}  // namespace pullproof
