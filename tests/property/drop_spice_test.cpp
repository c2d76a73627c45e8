// Voltage drop against a circuit simulator (ngspice, with `ngspice -b`): every conductor is a resistor and an
// inductor of its own, the neutral too, and every load a current source whose phase is set anew until it fits the
// voltage across it. Nothing of the program's method is in the netlists: no loop of two, no sqrt(3), no shares.
#include <gtest/gtest.h>

#include <cmath>
#include <complex>
#include <cstdio>
#include <fstream>
#include <map>

#include "support/cases.hpp"
#include "support/ngspice.hpp"

namespace pullproof {
namespace {

using Complex = std::complex<double>;
constexpr double degree = 3.14159265358979323846 / 180;

/// A circuit simulator's job: conductors and loads between named nodes, at 60 Hz.
class Netlist {
 public:
  void source(const std::string& node, double volts, double degrees) {
    body_ += fmt::format("V{} {} 0 dc 0 ac {:.12g} {:.12g}\n", ++count_, node, volts, degrees);
  }
  /// Ohms per 1000 ft, as the tables have them.
  void conductor(const std::string& from, const std::string& to, double r, double x, double feet) {
    const int n = ++count_;
    const double ohms = r * feet / 1000, henries = x * feet / 1000 / (2 * 180 * degree * 60);
    if (x == 0) body_ += fmt::format("R{} {} {} {:.12g}\n", n, from, to, ohms);
    else body_ += fmt::format("R{} {} m{} {:.12g}\nL{} m{} {} {:.12g}\n", n, from, n, ohms, n, n, to, henries);
  }
  /// Constant current at a power factor (lagging) to the voltage across the load.
  std::size_t load(const std::string& from, const std::string& to, double amperes, double power_factor) {
    loads_.push_back({from, to, from, to, amperes, power_factor, Complex{}});
    return loads_.size() - 1;
  }
  /// Takes away, between two nodes nearer the source, what a load draws: a feeder whose whole current is known
  /// carries the load within it.
  void within(const std::string& from, const std::string& to, std::size_t load) {
    const Load l = loads_[load];
    loads_.push_back({from, to, l.from, l.to, -l.amperes, l.power_factor, Complex{}});
  }
  /// The voltage across a load, once the phases have settled.
  double volts_across(std::size_t load) {
    for (int round = 0; round < 30; ++round)
      if (simulate() < 1e-12) return std::abs(loads_[load].across);
    ADD_FAILURE() << "the phases do not settle";
    return std::nan("");
  }

 private:
  struct Load {
    std::string from, to, see_from, see_to;
    double amperes, power_factor;
    Complex across;
  };

  /// One run; returns how far a voltage moved.
  double simulate() {
    std::string text = "* voltage drop\n" + body_, ask;
    for (std::size_t i = 0; i < loads_.size(); ++i) {
      const Load& l = loads_[i];
      const double phase = (l.across == Complex{} ? 0 : std::arg(l.across)) - std::acos(l.power_factor);
      text += fmt::format("I{} {} {} dc 0 ac {:.12g} {:.15g}\n", i, l.from, l.to, l.amperes, phase / degree);
      const std::string across = l.see_to == "0" ? fmt::format("v({})", l.see_from) : fmt::format("v({})-v({})", l.see_from, l.see_to);
      ask += fmt::format("let re{0} = real({1})\nlet im{0} = imag({1})\nprint re{0} im{0}\n", i, across);
    }
    text += ".control\nset numdgt=14\nac lin 1 60 60\n" + ask + "quit\n.endc\n.end\n";
    const std::map<std::string, double> values = test::ngspice(text);
    double moved = 0;
    for (std::size_t i = 0; i < loads_.size(); ++i) {
      const auto re = values.find(fmt::format("re{}", i)), im = values.find(fmt::format("im{}", i));
      if (re == values.end() || im == values.end()) {
        ADD_FAILURE() << "ngspice gave no answer: is it installed?\n" << text;
        return 0;
      }
      const Complex now{re->second, im->second};
      moved = std::max(moved, std::abs(now - loads_[i].across) / std::abs(now));
      loads_[i].across = now;
    }
    return moved;
  }

  std::string body_;
  std::vector<Load> loads_;
  int count_ = 0;
};

/// What the program says is left at the load of `subject`.
double volts_left(const std::string& toml, std::string_view check, std::string_view subject) {
  const Report report = test::check_text(toml);
  const auto found = test::findings(report, check, subject);
  if (found.size() != 1) ADD_FAILURE() << found.size() << " findings";
  if (found.empty()) return std::nan("");
  const double volts = test::step_value(report, *found[0], "Vr");
  EXPECT_FALSE(std::isnan(volts)) << found[0]->message;
  return volts;
}

std::string head(const std::string& system) { return "edition = \"us-2023\"\nsupply = { system = \"" + system + "\" }\n"; }
std::string way(const std::string& name, const std::string& type, double feet) {
  return fmt::format("[[raceway]]\nname = \"{}\"\ntype = \"{}\"\nsize = \"4\"\nlength = \"{} ft\"\nplace = \"indoors, dry\"\n", name, type, feet);
}
std::string circuit(const std::string& name, const std::string& volts, const std::string& path, const std::string& load, const std::string& wire,
                    const std::string& more = "") {
  return fmt::format("[[circuit]]\nname = \"{}\"\nvoltage = \"{}\"\npath = [{}]\n{}{}wire = {{ {} }}\n", name, volts, path, more,
                     load.empty() ? "" : "load = { " + load + " }\n", wire);
}
const std::string house = "120/240 V 1-phase 3-wire", wye = "208Y/120 V 3-phase 4-wire";

void house_sources(Netlist& n) {
  n.source("A", 120, 0);
  n.source("B", 120, 180);
}
void wye_sources(Netlist& n) {
  n.source("A", 120, 0);
  n.source("B", 120, -120);
  n.source("C", 120, 120);
}

// Where the program's model is the netlist's own, they agree to the last digits that the simulator prints.
constexpr double same = 1e-9;
// Of a feeder without a load of its own the program adds the currents of its circuits as if their power factors
// counted at the feeder's end; in the netlist each counts at its own load, a degree or so away. In volts of the source.
constexpr double close = 2e-4;

TEST(DropSpice, OneStretch) {
  for (const double pf : {0.3, 0.85, 1.0}) {
    Netlist n;
    n.source("A", 120, 0);
    n.conductor("A", "L", 3.14, 0.073, 62);
    n.conductor("0", "N", 3.14, 0.073, 62);
    const auto load = n.load("L", "N", 15, pf);
    const std::string toml = head(house) + way("wall", "EMT", 62) + circuit("c", "120 V", "\"wall\"", fmt::format("current = \"15 A\", power_factor = {}", pf), "size = \"14 AWG\", material = \"copper\"");
    EXPECT_NEAR(volts_left(toml, "drop-branch", "circuit c"), n.volts_across(load), 120 * same) << pf;
  }
}

TEST(DropSpice, TwoStretchesBetweenLines) {
  Netlist n;
  house_sources(n);
  n.conductor("A", "A1", 0.78, 0.065, 140);
  n.conductor("A1", "A2", 2.04, 0.050, 60);
  n.conductor("B", "B1", 0.78, 0.065, 140);
  n.conductor("B1", "B2", 2.04, 0.050, 60);
  const auto load = n.load("A2", "B2", 40, 0.9);
  const std::string toml = head(house) + way("wall", "EMT", 140) + way("yard", "PVC-40", 60) +
                           circuit("c", "240 V", "\"wall\", { in = \"yard\", wire = { size = \"10 AWG\", material = \"aluminum\" } }", "current = \"40 A\", power_factor = 0.9",
                                   "size = \"8 AWG\", material = \"copper\"");
  EXPECT_NEAR(volts_left(toml, "drop-branch", "circuit c"), n.volts_across(load), 240 * same);
}

TEST(DropSpice, ThreePhases) {
  for (const double pf : {0.5, 0.8, 1.0}) {
    Netlist n;
    n.source("A", 480 / std::sqrt(3.0), 0);
    n.source("B", 480 / std::sqrt(3.0), -120);
    n.source("C", 480 / std::sqrt(3.0), 120);
    for (const char* line : {"A", "B", "C"}) n.conductor(line, std::string(line) + "1", 0.029 / 2, 0.048 / 2, 900);
    const auto load = n.load("A1", "0", 600, pf);
    n.load("B1", "0", 600, pf);
    n.load("C1", "0", 600, pf);
    const std::string toml = head("480Y/277 V 3-phase 4-wire") + way("wall", "RMC", 900) +
                             circuit("c", "480 V", "\"wall\"", fmt::format("current = \"600 A\", power_factor = {}", pf), "size = \"500 kcmil\", material = \"copper\", parallel = 2", "phases = 3\n");
    EXPECT_NEAR(volts_left(toml, "drop-branch", "circuit c"), n.volts_across(load) * std::sqrt(3.0), 480 * same) << pf;
  }
}

TEST(DropSpice, DirectCurrent) {
  Netlist n;
  n.source("A", 48, 0);
  n.conductor("A", "L", 1.98, 0, 100);
  n.conductor("0", "N", 1.98, 0, 100);
  const auto load = n.load("L", "N", 10, 1);
  const std::string toml = head("48 V dc") + way("wall", "EMT", 100) + circuit("c", "48 V", "\"wall\"", "current = \"10 A\"", "size = \"12 AWG\", material = \"copper\"");
  EXPECT_NEAR(volts_left(toml, "drop-branch", "circuit c"), n.volts_across(load), 48 * same);
}

/// A feeder of two lines and a neutral that carries 60 A in each line, and a branch circuit to neutral behind it.
TEST(DropSpice, ToNeutralBehindABalancedFeeder) {
  Netlist n;
  house_sources(n);
  for (const auto& [from, to] : {std::pair{"A", "A1"}, {"B", "B1"}, {"0", "N1"}}) n.conductor(from, to, 0.49, 0.051, 150);
  n.conductor("A1", "A2", 3.14, 0.073, 62);
  n.conductor("N1", "N2", 3.14, 0.073, 62);
  const auto load = n.load("A2", "N2", 12, 0.85);
  n.within("A1", "N1", load);
  n.load("A1", "N1", 60, 0.9);
  n.load("N1", "B1", 60, 0.9);
  const std::string toml = head(house) + way("yard", "PVC-40", 150) + way("wall", "EMT", 62) +
                           circuit("sub", "240 V", "\"yard\"", "current = \"60 A\", power_factor = 0.9", "size = \"6 AWG\", material = \"copper\"", "role = \"feeder\"\n") +
                           circuit("c", "120 V", "\"wall\"", "current = \"12 A\", power_factor = 0.85", "size = \"14 AWG\", material = \"copper\"", "fed_by = \"sub\"\n");
  EXPECT_NEAR(volts_left(toml, "drop-total", "circuit c"), n.volts_across(load), 120 * same);
}

TEST(DropSpice, BehindABalancedThreePhaseFeeder) {
  for (const bool to_neutral : {true, false}) {
    Netlist n;
    wye_sources(n);
    for (const auto& [from, to] : {std::pair{"A", "A1"}, {"B", "B1"}, {"C", "C1"}, {"0", "N1"}}) n.conductor(from, to, 0.077, 0.042, 250);
    const std::string back = to_neutral ? "N" : "B";
    n.conductor("A1", "A2", 1.24, 0.050, 80);
    n.conductor(back + "1", back + "2", 1.24, 0.050, 80);
    const auto load = n.load("A2", back + "2", 20, 0.8);
    n.within("A1", back + "1", load);
    for (const char* line : {"A1", "B1", "C1"}) n.load(line, "N1", 150, 0.9);
    // The program's 208 V lie 0.07 % over sqrt(3) * 120 V, which the netlist has: what is lost is compared.
    const std::string volts = to_neutral ? "120 V" : "208 V";
    const std::string toml = head(wye) + way("yard", "PVC-40", 250) + way("pipe", "PVC-40", 80) +
                             circuit("sub", "208 V", "\"yard\"", "current = \"150 A\", power_factor = 0.9", "size = \"3/0 AWG\", material = \"copper\"", "role = \"feeder\"\nphases = 3\n") +
                             circuit("c", volts, "\"pipe\"", "current = \"20 A\", power_factor = 0.8", "size = \"10 AWG\", material = \"copper\"", "fed_by = \"sub\"\nphases = 1\n");
    const double nominal = to_neutral ? 120 : 208, exact = to_neutral ? 120 : 120 * std::sqrt(3.0);
    const double lost = nominal - volts_left(toml, "drop-total", "circuit c"), simulated = exact - n.volts_across(load);
    EXPECT_NEAR(lost, simulated, to_neutral ? 120 * same : 1e-4) << volts;
  }
}

/// A feeder without a load of its own: an oven between lines, and a pump to neutral on one of them.
TEST(DropSpice, AFeederThatCarriesItsCircuits) {
  Netlist n;
  house_sources(n);
  for (const auto& [from, to] : {std::pair{"A", "A1"}, {"B", "B1"}, {"0", "N1"}}) n.conductor(from, to, 0.49, 0.051, 100);
  n.conductor("A1", "A2", 1.24, 0.063, 40);
  n.conductor("B1", "B2", 1.24, 0.063, 40);
  n.conductor("A1", "A3", 1.98, 0.068, 50);
  n.conductor("N1", "N3", 1.98, 0.068, 50);
  const auto oven = n.load("A2", "B2", 20, 1), pump = n.load("A3", "N3", 16, 0.8);
  const std::string toml = head(house) + way("yard", "PVC-40", 100) + way("oven pipe", "EMT", 40) + way("pump pipe", "EMT", 50) +
                           circuit("sub", "240 V", "\"yard\"", "", "size = \"6 AWG\", material = \"copper\"", "role = \"feeder\"\n") +
                           circuit("oven", "240 V", "\"oven pipe\"", "current = \"20 A\", power_factor = 1", "size = \"10 AWG\", material = \"copper\"", "fed_by = \"sub\"\n") +
                           circuit("pump", "120 V", "\"pump pipe\"", "current = \"16 A\", power_factor = 0.8", "size = \"12 AWG\", material = \"copper\"", "fed_by = \"sub\"\n");
  EXPECT_NEAR(volts_left(toml, "drop-total", "circuit pump"), n.volts_across(pump), 120 * close);
  EXPECT_NEAR(volts_left(toml, "drop-total", "circuit oven"), n.volts_across(oven), 240 * close);
}

TEST(DropSpice, FeedersInARow) {
  Netlist n;
  house_sources(n);
  for (const char* line : {"A", "B"}) {
    const std::string l = line;
    n.conductor(l, l + "1", 0.12, 0.044, 200);
    n.conductor(l + "1", l + "2", 0.31, 0.048, 120);
    n.conductor(l + "2", l + "3", 1.24, 0.063, 70);
  }
  const auto load = n.load("A3", "B3", 24, 0.85);
  n.within("A2", "B2", load);
  const auto inner = n.load("A2", "B2", 60, 0.95);
  n.within("A1", "B1", inner);
  n.load("A1", "B1", 120, 0.9);
  const std::string toml = head(house) + way("one", "PVC-40", 200) + way("two", "PVC-40", 120) + way("three", "EMT", 70) +
                           circuit("outer", "240 V", "\"one\"", "current = \"120 A\", power_factor = 0.9", "size = \"1/0 AWG\", material = \"copper\"", "role = \"feeder\"\n") +
                           circuit("inner", "240 V", "\"two\"", "current = \"60 A\", power_factor = 0.95", "size = \"4 AWG\", material = \"copper\"", "role = \"feeder\"\nfed_by = \"outer\"\n") +
                           circuit("c", "240 V", "\"three\"", "current = \"24 A\", power_factor = 0.85", "size = \"10 AWG\", material = \"copper\"", "fed_by = \"inner\"\n");
  EXPECT_NEAR(volts_left(toml, "drop-total", "circuit c"), n.volts_across(load), 240 * same);
}

/// Circuits to neutral of a wye, all on the same line, which is what the program takes.
TEST(DropSpice, ALineOfAWyeThatCarriesTwoCircuitsToNeutral) {
  Netlist n;
  wye_sources(n);
  for (const auto& [from, to] : {std::pair{"A", "A1"}, {"0", "N1"}}) n.conductor(from, to, 0.49, 0.051, 90);
  for (const char* end : {"2", "3"}) {
    n.conductor("A1", std::string("A") + end, 1.98, 0.068, 40);
    n.conductor("N1", std::string("N") + end, 1.98, 0.068, 40);
  }
  const auto load = n.load("A2", "N2", 16, 0.9);
  n.load("A3", "N3", 12, 0.7);
  std::string toml = head(wye) + way("yard", "PVC-40", 90) + way("one", "EMT", 40) + way("two", "EMT", 40) +
                     circuit("sub", "208 V", "\"yard\"", "", "size = \"6 AWG\", material = \"copper\"", "role = \"feeder\"\nphases = 3\n");
  toml += circuit("c", "120 V", "\"one\"", "current = \"16 A\", power_factor = 0.9", "size = \"12 AWG\", material = \"copper\"", "fed_by = \"sub\"\n");
  toml += circuit("d", "120 V", "\"two\"", "current = \"12 A\", power_factor = 0.7", "size = \"12 AWG\", material = \"copper\"", "fed_by = \"sub\"\n");
  EXPECT_NEAR(volts_left(toml, "drop-total", "circuit c"), n.volts_across(load), 120 * close);
}

}  // namespace
}  // namespace pullproof
