#include "report/steps.hpp"

#include <fmt/format.h>

#include <set>

namespace pullproof::report {
namespace {

bool name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '.';
}

void gather(const Working& w, StepId id, std::set<StepId>& into) {
  if (id == no_step || !into.insert(id).second) return;
  const Step& s = w.steps()[id];
  for (std::size_t i = 0; i < s.input_count; ++i) gather(w, s.inputs[i], into);
}

/// Puts a step behind all that it rests on: a check may give a step an input that it made later.
void place(const Working& w, StepId id, std::set<StepId>& placed, std::vector<StepId>& order) {
  if (id == no_step || !placed.insert(id).second) return;
  const Step& s = w.steps()[id];
  for (std::size_t i = 0; i < s.input_count; ++i) place(w, s.inputs[i], placed, order);
  order.push_back(id);
}

}  // namespace

std::vector<StepId> steps_behind(const Working& working, const Finding& finding) {
  std::set<StepId> ids;
  gather(working, finding.demand, ids);
  gather(working, finding.limit, ids);
  gather(working, finding.beside, ids);
  std::vector<StepId> order;
  std::set<StepId> placed;
  for (const StepId id : ids) place(working, id, placed, order);
  return order;
}

std::string with_values(const Working& working, const Step& step) {
  std::string out;
  const std::string_view e = step.expression;
  for (std::size_t at = 0; at < e.size();) {
    if (!name_character(e[at])) {
      out += e[at++];
      continue;
    }
    std::size_t end = at;
    while (end < e.size() && name_character(e[end])) ++end;
    const std::string_view word = e.substr(at, end - at);
    std::string text(word);
    for (std::size_t i = 0; i < step.input_count; ++i)
      if (!step.parameters[i].empty() && step.parameters[i] == word) text = shown(working.steps()[step.inputs[i]]);
    const bool below_zero = text.starts_with('-');  // a minus sign of its own must not run into the sum's
    out += below_zero ? "(" + text + ")" : text;
    at = end;
  }
  return out;
}

std::string origin_text(const Step& step, std::string_view home) {
  std::string s;
  if (!step.cite.clause.empty()) {
    s = step.cite.edition == home ? std::string(step.cite.clause) : fmt::format("{} {}", step.cite.edition, step.cite.clause);
    if (!step.cite.column.empty()) s += fmt::format(", {}{}{}", step.cite.row, step.cite.row.empty() ? "" : ", ", step.cite.column);
    if (step.cite.basis != Basis::published) s += fmt::format("; {}", name(step.cite.basis));
  } else if (step.where) {
    s = home.empty() ? fmt::format("{}:{}:{}", step.where.file, step.where.line, step.where.column)
                     : fmt::format("line {}", step.where.line);
  }
  return s;
}

std::string step_text(const Working& working, const Step& step, std::string_view home) {
  std::string s(step.name);
  if (!step.symbol.empty()) s += fmt::format(" {}", step.symbol);
  if (step.kind == Step::Kind::formula) s += fmt::format(" = {} = {} = {}", step.expression, with_values(working, step), shown(step));
  else if (step.numeric) s += fmt::format(" = {}", shown(step));
  else s += fmt::format(": {}", step.text);
  if (step.numeric && step.kind == Step::Kind::given && !step.text.empty() && step.text != shown(step)) s += fmt::format(" ({})", step.text);
  if (step.numeric && (step.kind == Step::Kind::choice || step.kind == Step::Kind::assumption) && !step.text.empty())
    s += fmt::format(" ({})", step.text);
  const std::string origin = origin_text(step, home);
  if (!origin.empty()) s += fmt::format(" [{}]", origin);
  return s;
}

}  // namespace pullproof::report
