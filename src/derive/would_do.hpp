#pragma once
// What would do where something does not: for the words that tell a person what to change.
#include <algorithm>
#include <vector>

#include "engine/context.hpp"

namespace pullproof::derive {

/// A circuit with all of its conductors in one size, raceways and cables alike. Stays in place: its path points into it.
class Resized {
 public:
  explicit Resized(const Circuit& c);
  Resized(const Resized&) = delete;
  Resized& operator=(const Resized&) = delete;
  void set(ConductorSize size);
  const Circuit& circuit() const { return circuit_; }

 private:
  Circuit circuit_;
  std::vector<Cable> cables_;
};

/// The sizes of the ampacity table from the smallest that the circuit has now, in order.
std::vector<std::string_view> larger_sizes(const Context& cx, const Circuit& c);

/// The label of the smallest size, none below the circuit's own, with which `good(scratch context, circuit)` holds
/// and everything else stays; empty when none does.
template <class Good>
std::string_view smallest_size(const Context& cx, const Circuit& c, Good good) {
  Resized trial(c);
  for (const std::string_view label : larger_sizes(cx, c)) {
    trial.set(*ConductorSize::parse(label));
    Context quiet = cx.scratch();
    try {
      if (good(quiet, trial.circuit())) return label;
    } catch (const Stop&) {
      continue;  // this size has no answer; the next may
    }
  }
  return {};
}

}  // namespace pullproof::derive
