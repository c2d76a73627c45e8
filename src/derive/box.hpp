#pragma once
// What is in a box, and how much room it takes.
#include <vector>

#include "derive/wiring.hpp"
#include "engine/context.hpp"
#include "job/box.hpp"

namespace pullproof::derive {

/// Conductors of one circuit that come in through one entry.
struct Incoming {
  const Circuit* circuit = nullptr;
  const BoxEntry* entry = nullptr;
  ConductorSize size;
  double count = 0;  ///< circuit conductors, all sets
  std::optional<ConductorSize> ground;
};

/// Everything that comes in, circuit by circuit and entry by entry. Empty when no circuit passes the box.
std::vector<Incoming> incoming(Context& cx, const Box& b);

/// The largest circuit conductor that comes in, `also` among them; nothing when none does.
std::optional<ConductorSize> largest_conductor(const std::vector<Incoming>& in, const Box& b);

/// Whether the volume rule holds for this box, or the one for pull boxes: by the largest conductor.
bool goes_by_volume(Context& cx, const Box& b, const std::vector<Incoming>& in);

/// The volume that its contents need.
Traced<Volume> needed_volume(Context& cx, const Box& b, const std::vector<Incoming>& in);

/// The volume of the box: as marked, else of its standard size. Needs one of them.
Traced<Volume> box_volume(Context& cx, const Box& b);

}  // namespace pullproof::derive
