// The closed form of calc/drop.hpp against the same circuit solved by iterating on complex numbers.
#include "calc/drop.hpp"

#include <gtest/gtest.h>

#include <complex>
#include <vector>

namespace pullproof {
namespace {

using Complex = std::complex<double>;

struct Link {
  double conductors, amperes, power_factor, ohms, reactance;
};

/// The load's voltage by walking from the source again and again until the current's angle fits the voltage there.
/// Knows nothing of the closed form.
double by_iteration(double source, const std::vector<Link>& links) {
  Complex load = source;
  for (int n = 0; n < 2000; ++n) {
    Complex next = source;
    for (const Link& l : links)
      next -= l.conductors * Complex(l.ohms, l.reactance) * std::polar(l.amperes, std::arg(load) - std::acos(l.power_factor));
    if (std::abs(next - load) < 1e-13 * source) return std::abs(next);
    load = next;
  }
  return std::nan("");
}

struct Sums {
  Voltage a, b;
};
Sums sums(const std::vector<Link>& links) {
  Sums s;
  for (const Link& l : links) {
    const Current i = Current::from_value(l.amperes);
    const double q = calc::reactive_factor.apply(l.power_factor);
    const Current ip = calc::active_current.apply(l.conductors, i, l.power_factor);
    const Current iq = calc::reactive_current.apply(l.conductors, i, q);
    const Resistance r = Resistance::from_value(l.ohms), x = Resistance::from_value(l.reactance);
    s.a += calc::drop_in_phase.apply(r, ip, x, iq);
    s.b += calc::drop_in_quadrature.apply(x, ip, r, iq);
  }
  return s;
}

Voltage volts(double v) { return Voltage::from_value(v); }

TEST(Drop, ClosedFormIsTheIteratedOne) {
  int compared = 0;
  for (const double source : {12.0, 120.0, 208.0, 480.0})
    for (const double conductors : {2.0, calc::sqrt3})
      for (const double pf : {0.2, 0.5, 0.8, 0.95, 1.0})
        for (const double lost : {0.001, 0.03, 0.1, 0.3})  // |Z| I over the source, about
          for (const double angle : {0.0, 0.1, 1.0, 3.0}) {  // X over R
            const double z = lost * source / (conductors * 16);
            const std::vector<Link> links{{conductors, 16, pf, z / std::hypot(1, angle), z * angle / std::hypot(1, angle)}};
            const Sums s = sums(links);
            if (!calc::can_be_fed(volts(source), s.a, s.b)) continue;
            EXPECT_NEAR(raw(calc::end_voltage.apply(volts(source), s.a, s.b)), by_iteration(source, links), 1e-9 * source)
                << source << " V, pf " << pf << ", " << lost << ", X/R " << angle;
            ++compared;
          }
  EXPECT_EQ(compared, 4 * 2 * 5 * 4 * 4) << "all of them can be fed";
}

TEST(Drop, CurrentsOnTheSameConductorsAddAsPhasors) {
  for (const double one : {0.4, 0.9, 1.0})
    for (const double other : {0.3, 0.85, 1.0}) {
      const std::vector<Link> links{{1, 150, one, 0.03, 0.02}, {2, 16, other, 0.03, 0.02}};
      const Sums s = sums(links);
      EXPECT_NEAR(raw(calc::end_voltage.apply(volts(120), s.a, s.b)), by_iteration(120, links), 1e-9);
    }
}

TEST(Drop, ABranchStartsFromTheFeedersEnd) {
  for (const double feeder_pf : {0.4, 0.9, 1.0})
    for (const double branch_pf : {0.3, 0.85, 1.0}) {
      const Link feeder{1, 150, feeder_pf, 0.03, 0.02}, branch{2, 16, branch_pf, 0.2, 0.01};
      const Sums f = sums({feeder}), b = sums({branch});
      const Voltage middle = calc::end_voltage.apply(volts(120), f.a, f.b);
      // The whole of it at once: each current leans back from the voltage at its own end.
      const auto amperes = [](const Link& l, Complex v) {
        return l.conductors * std::polar(l.amperes, std::arg(v) - std::acos(l.power_factor)) * Complex(l.ohms, l.reactance);
      };
      Complex at_feeder = 120, at_load = 120;
      for (int n = 0; n < 500; ++n) {
        at_feeder = 120.0 - amperes(feeder, at_feeder);
        at_load = at_feeder - amperes(branch, at_load);
      }
      EXPECT_NEAR(raw(calc::end_voltage.apply(middle, b.a, b.b)), std::abs(at_load), 1e-9);
    }
}

TEST(Drop, NothingIsFedBeyondTheLastSolution) {
  // There is a load voltage above zero exactly where |Vr + A + jB| passes Vs for some Vr > 0.
  for (const double a : {1.0, 60.0, 119.0, 121.0})
    for (const double b : {-121.0, -90.0, 0.0, 30.0, 119.9}) {
      bool found = false;
      for (double v = 1e-3; v <= 120; v += 1e-3) found = found || std::hypot(v + a, b) <= 120;
      EXPECT_EQ(calc::can_be_fed(volts(120), volts(a), volts(b)), found) << a << ", " << b;
    }
}

TEST(Drop, JointsLieOnTheWay) {
  const std::vector<Link> both{{2, 16, 0.85, 0.10, 0.005}, {2, 16, 0.85, 0.04, 0.002}};
  const Sums all = sums(both), first = sums({both[0]});
  const Voltage vr = calc::end_voltage.apply(volts(120), all.a, all.b);
  // From the load back over the second stretch, in complex numbers with the load as reference.
  const Complex i = std::polar(16.0, -std::acos(0.85));
  const double expected = std::abs(Complex(raw(vr), 0) + 2.0 * Complex(0.04, 0.002) * i);
  EXPECT_NEAR(raw(calc::joint_voltage.apply(vr, all.a, first.a, all.b, first.b)), expected, 1e-10);
}

TEST(Drop, TheApproximationIsCloseAndLow) {
  // 0.10 + j0.005 ohm each way, 120 V, 15.633 A at 0.85: 2.7496 V exactly and 2.7400 V approximately, computed with
  // complex numbers and by a circuit simulator outside this program.
  const Sums s = sums({{2, 15.633, 0.85, 0.10, 0.005}});
  EXPECT_NEAR(raw(s.a), 2.7400, 1e-4);
  EXPECT_NEAR(120 - raw(calc::end_voltage.apply(volts(120), s.a, s.b)), 2.7496, 1e-4);
}

TEST(Drop, TheLongestRunLeavesJustTheTarget) {
  for (const double target : {0.6, 0.9, 0.97, 0.999})
    for (const double pf : {0.3, 0.85, 1.0}) {
      const Sums own = sums({{2, 16, pf, 0.10, 0.02}});
      const Length l = Length::from_value(10);
      const double t = calc::longest_run.apply(l, volts(120 * target), volts(120), own.a, own.b) / l;
      EXPECT_NEAR(by_iteration(120, {{2, 16, pf, 0.10 * t, 0.02 * t}}), 120 * target, 1e-8);
    }
}

}  // namespace
}  // namespace pullproof
