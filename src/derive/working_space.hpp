#pragma once
// Room to work in front of electrical equipment.
#include "engine/context.hpp"

namespace pullproof::derive {

/// What is in front of the equipment and how much that has to be.
struct SpaceOf {
  const WorkingSpace* space = nullptr;
  Voltage to_ground{};
  std::string_view key;   ///< of the table with its keys, "disconnect.working_space"
  bool binding = true;    ///< what is too small fails, else it is advice
  Citation cite;          ///< what asks for it beside the general rule; may be empty
};

/// Compares depth, width, height, door and what is kept there, one finding each.
void judge_working_space(Context& cx, const SpaceOf& s);

}  // namespace pullproof::derive
