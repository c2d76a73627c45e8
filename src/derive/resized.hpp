#pragma once
// A circuit in another size of conductor: to find the smallest that would do, and to tell a person what to change.
#include <deque>
#include <vector>

#include "engine/context.hpp"

namespace pullproof::derive {

/// A circuit like another, with one size of conductor all along, in raceways and cables alike. Stays in place: its
/// path points into it.
class Resized {
 public:
  explicit Resized(const Circuit& c);
  Resized(const Resized&) = delete;
  Resized& operator=(const Resized&) = delete;
  const Circuit& with(const ConductorSize& size);

 private:
  std::deque<Cable> cables_;
  Circuit circuit_;
};

/// The sizes of the ampacity table from the smallest that the circuit has now, in order.
std::vector<std::string_view> larger_sizes(const Context& cx, const Circuit& c);

/// The label of the smallest size, none below the circuit's own, with which `good(scratch context, circuit)` holds
/// and everything else stays; empty when none does.
template <class Good>
std::string_view smallest_size(const Context& cx, const Circuit& c, Good good) {
  Resized trial(c);
  for (const std::string_view label : larger_sizes(cx, c)) {
    Context quiet = cx.scratch();
    try {
      if (good(quiet, trial.with(*ConductorSize::parse(label)))) return label;
    } catch (const Stop&) {
      continue;  // this size has no answer; the next may
    }
  }
  return {};
}

}  // namespace pullproof::derive
