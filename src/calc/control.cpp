#include "calc/control.hpp"

namespace pullproof::calc::control {
namespace {

/// A load's current and how fast it grows, when the common conductor carries a total.
struct Answer {
  double current = 0, slope = 0;
};

/// Nothing when the load cannot have its power at this total.
std::optional<Answer> current_at(const Draw& load, double source, double own, double common, double total) {
  if (!load.constant_power) return Answer{load.amount, 0};
  const double left = source - common * total;
  // At the most power the root vanishes; a hair below zero is rounding.
  const double under = left * left - 4 * own * load.amount;
  if (left <= 0 || under < -slack * left * left) return std::nullopt;
  const double root = std::sqrt(std::max(0.0, under)), volts = (left + root) / 2;
  const double volts_slope = root > 0 ? -common * (1 + left / root) / 2 : 0;
  return Answer{load.amount / volts, -load.amount / (volts * volts) * volts_slope};
}

}  // namespace

std::optional<std::vector<Voltage>> voltages_together(Voltage source, Resistance own, Resistance common, std::span<const Draw> loads) {
  const double vs = raw(source), ro = raw(own), rc = raw(common);
  double total = 0;
  std::vector<double> currents(loads.size());
  constexpr int most_rounds = 200;
  for (int round = 0; round < most_rounds; ++round) {
    double sum = 0, slope = 0;
    for (std::size_t k = 0; k < loads.size(); ++k) {
      const auto a = current_at(loads[k], vs, ro, rc, total);
      if (!a) return std::nullopt;
      currents[k] = a->current;
      sum += a->current;
      slope += a->slope;
    }
    const double missing = sum - total;
    if (std::abs(missing) <= 1e-13 * (1 + sum)) {
      std::vector<Voltage> out;
      for (const double i : currents) out.push_back(Voltage::from_value(vs - ro * i - rc * sum));
      return out;
    }
    if (slope >= 1) return std::nullopt;  // the currents grow faster than the total: they never meet
    total += missing / (1 - slope);
  }
  return std::nullopt;
}

}  // namespace pullproof::calc::control
