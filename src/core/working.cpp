#include "core/working.hpp"

#include <algorithm>

namespace pullproof {

std::string_view name(Basis basis) {
  switch (basis) {
    case Basis::published: return "published";
    case Basis::derived: return "derived";
    case Basis::memory: return "memory";
    case Basis::common_practice: return "common practice";
  }
  return "";
}

std::string_view name(Step::Kind kind) {
  switch (kind) {
    case Step::Kind::given: return "given";
    case Step::Kind::table: return "table";
    case Step::Kind::constant: return "constant";
    case Step::Kind::formula: return "formula";
    case Step::Kind::choice: return "choice";
    case Step::Kind::assumption: return "assumption";
  }
  return "";
}

std::string shown(const Step& step) {
  if (!step.numeric) return std::string(step.text);
  std::string s = number_text(step.value, step.decimals);
  if (!step.unit.empty()) {
    if (step.unit != "%" && step.unit != "°") s += ' ';
    s += step.unit;
  }
  return s;
}

Step& Working::label(Step::Kind kind, std::string_view name, std::string_view symbol, std::string_view text) {
  Step& s = steps_.emplace_back();
  s.kind = kind;
  s.name = name;
  s.symbol = symbol;
  s.text = text;
  s.numeric = false;
  return s;
}

// A step never rests on itself: the walk over inputs would not end.
void Working::because_of(StepId step, StepId on) {
  Step& s = steps_[step];
  if (on == no_step || on == step || s.input_count == Step::most_inputs) return;
  s.inputs[s.input_count++] = on;
}

void Working::rename(StepId step, std::string_view name, std::string_view symbol) {
  steps_[step].name = name;
  steps_[step].symbol = symbol;
}

Basis Working::weakest(StepId step) const {
  if (step == no_step) return Basis::published;
  const Step& s = steps_[step];
  Basis worst = s.cite.basis;
  for (std::size_t i = 0; i < s.input_count; ++i) worst = std::max(worst, weakest(s.inputs[i]));
  return worst;
}

}  // namespace pullproof
