#pragma once
// The things that a case is made of, as answers speak of them.
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "job/case.hpp"

namespace pullproof::answers {

enum class Kind : std::uint8_t { supply, circuit, raceway, cable, box, control };
std::string_view word(Kind kind);

/// A thing of the case: the supply, or one of a list.
struct Part {
  Kind kind = Kind::supply;
  std::size_t index = 0;
  friend bool operator==(const Part&, const Part&) = default;
};

/// Every part of a case: circuits first, a feeder before what it feeds; then what they run in, boxes and control runs.
std::vector<Part> parts_of(const Case& job);
/// "circuit heater", as findings name their subject.
std::string subject_of(const Case& job, const Part& part);
/// The parts that a check of `subject` looks at, itself among them.
std::vector<Part> around(const Case& job, std::string_view subject);

}  // namespace pullproof::answers
