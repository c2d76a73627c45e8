// Control runs against a circuit simulator: every conductor is a resistor of its own, a constant current a current
// source, a constant power a source whose current is the power over the voltage across it. Nothing of the program's
// method is in the netlists: no loop of two, no root, no sum of currents.
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "support/cases.hpp"
#include "support/ngspice.hpp"

namespace pullproof {
namespace {

struct Load {
  bool power = false;
  double amount = 0;  // A or VA
};

struct Line {
  double volts = 24, feet = 100;
  double own = 6.385, common = 6.385;  // ohm/kft
  std::vector<Load> loads{};
  bool together = false;  // side by side on two conductors
};

/// The voltages at the loads by simulation.
std::vector<double> simulated(const Line& line) {
  std::string text = fmt::format("* control run\nV1 s 0 dc {:.12g}\nRc c 0 {:.15g}\n", line.volts, line.common * line.feet / 1000);
  std::string ask, start = ".nodeset v(c)=0";
  for (std::size_t k = 0; k < line.loads.size(); ++k) {
    const std::size_t node = line.together ? 0 : k;
    if (node == k) {
      text += fmt::format("R{} s d{} {:.15g}\n", k, k, line.own * line.feet / 1000);
      start += fmt::format(" v(d{})={:.6g}", k, line.volts);
    }
    if (line.loads[k].power) text += fmt::format("B{0} d{1} c I = {2:.12g} / max(v(d{1})-v(c), 0.01)\n", k, node, line.loads[k].amount);
    else text += fmt::format("I{} d{} c dc {:.12g}\n", k, node, line.loads[k].amount);
    ask += fmt::format("let v{} = v(d{})-v(c)\nprint v{}\n", k, node, k);
  }
  text += start + "\n.options reltol=1e-12 abstol=1e-15 vntol=1e-13 itl1=500\n.control\nset numdgt=15\nop\n" + ask + "quit\n.endc\n.end\n";
  const auto values = test::ngspice(text);
  std::vector<double> volts;
  for (std::size_t k = 0; k < line.loads.size(); ++k) {
    const auto at = values.find(fmt::format("v{}", k));
    volts.push_back(at == values.end() ? std::nan("") : at->second);
  }
  return volts;
}

std::string load_text(const Load& l, std::size_t k) {
  return fmt::format("{{ name = \"load {}\", kind = \"{}\", {} = \"{:.12f} {}\", minimum_voltage = \"0.1 V\" }}", k,
                     l.power ? "constant power" : "constant current", l.power ? "apparent_power" : "current", l.amount, l.power ? "VA" : "A");
}

/// The voltages at the loads as the program works them out, from its steps.
std::vector<double> worked_out(const Line& line, const std::string& cable) {
  std::string toml = fmt::format("edition = \"us-2023\"\n[[control]]\nname = \"run\"\nlength = \"{:.12f} ft\"\nsource = {{ voltage = \"{:.12f} V dc\" }}\n"
                                 "cable = {{ {}, material = \"copper\", stranding = \"solid\", temperature = \"20 °C\" }}\nload = {}\nalso = [",
                                 line.feet, line.volts, cable, load_text(line.loads[0], 0));
  for (std::size_t k = 1; k < line.loads.size(); ++k) toml += load_text(line.loads[k], k) + ", ";
  const Report report = test::check_text(toml + "]\n");
  std::vector<double> volts(line.loads.size(), std::nan(""));
  for (const Finding* f : test::findings(report, "control-drop"))
    for (std::size_t k = 0; k < line.loads.size(); ++k)
      if (f->message.starts_with(fmt::format("voltage at 'load {}'", k))) volts[k] = test::step_value(report, *f, "V");
  return volts;
}

void expect_agree(const Line& line, const std::string& cable) {
  const auto ours = worked_out(line, cable), theirs = simulated(line);
  for (std::size_t k = 0; k < line.loads.size(); ++k) EXPECT_NEAR(ours[k], theirs[k], 1e-8 * line.volts) << "load " << k << " of " << line.loads.size();
}

TEST(ControlAgainstSpice, OneConstantCurrent) { expect_agree({24, 313, 6.385, 6.385, {{false, 0.83}}}, "size = \"18 AWG\""); }
TEST(ControlAgainstSpice, OneConstantPower) { expect_agree({24, 313, 6.385, 6.385, {{true, 20}}}, "size = \"18 AWG\""); }
TEST(ControlAgainstSpice, ConstantPowerNearItsMost) {
  // 24² / (4 * 2 * 100 * 6.385 / 1000) = 112.76 VA
  expect_agree({24, 100, 6.385, 6.385, {{true, 112.5}}}, "size = \"18 AWG\"");
}
TEST(ControlAgainstSpice, LargerCommon) { expect_agree({24, 850, 6.385, 2.525, {{false, 0.35}}}, "size = \"18 AWG\", common_size = \"14 AWG\""); }
TEST(ControlAgainstSpice, ValvesOnOneCommon) {
  expect_agree({24, 500, 6.385, 6.385, {{false, 0.35}, {false, 0.19}, {false, 0.23}}}, "size = \"18 AWG\"");
}
TEST(ControlAgainstSpice, MixedOnOneCommon) {
  expect_agree({24, 200, 6.385, 2.525, {{true, 12}, {false, 0.4}, {true, 5}, {false, 0.1}}}, "size = \"18 AWG\", common_size = \"14 AWG\"");
}

TEST(ControlAgainstSpice, SideBySideOnTwoConductors) {
  expect_agree({24, 200, 6.385, 6.385, {{false, 0.4}, {false, 0.5}}, true}, "size = \"18 AWG\", conductors = 2");
  expect_agree({24, 200, 6.385, 6.385, {{true, 12}, {false, 0.5}, {true, 3}}, true}, "size = \"18 AWG\", conductors = 2");
}

TEST(ControlAgainstSpice, ManyAtRandom) {
  std::mt19937 random(20261125);
  const auto between = [&](double low, double high) { return low + (high - low) * static_cast<double>(random()) / 4294967296.0; };
  struct Size {
    const char* name;
    double ohms;
  };
  constexpr Size sizes[] = {{"22 AWG", 16.143}, {"20 AWG", 10.152}, {"18 AWG", 6.385}, {"16 AWG", 4.015}, {"14 AWG", 2.525}};
  int stable = 0;
  for (int n = 0; n < 60; ++n) {
    const Size &own = sizes[random() % 5], &common = sizes[random() % 5];
    Line line{between(10, 30), between(5, 400), own.ohms, common.ohms, {}, false};
    const std::size_t count = 1 + random() % 4;
    double amperes = 0;
    for (std::size_t k = 0; k < count; ++k) {
      const double i = between(0.01, 0.4);
      line.loads.push_back({random() % 2 == 0, 0});
      line.loads.back().amount = line.loads.back().power ? i * line.volts : i;
      amperes += i;
    }
    if (amperes * line.feet * (line.own + line.common) / 1000 > line.volts / 5) continue;  // far enough from collapse
    ++stable;
    SCOPED_TRACE(n);
    expect_agree(line, fmt::format("size = \"{}\", common_size = \"{}\"", own.name, common.name));
  }
  EXPECT_GT(stable, 30);
}

}  // namespace
}  // namespace pullproof
