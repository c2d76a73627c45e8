#include "answers/draft.hpp"

#include <algorithm>
#include <limits>

#include "engine/load.hpp"
#include "job/measure.hpp"

namespace pullproof::answers {

void Effort::spend(std::size_t bytes) {
  constexpr std::size_t page = 4096;
  const std::size_t cost = bytes + bytes / page * bytes;
  if (cost > left_) throw TooMuch();
  left_ -= cost;
}

std::string Draft::edited(std::span<const Edit> edits) const {
  return (editable ? editable->with(edits) : pullproof::edited(text, edits)).value_or(std::string{});
}

std::shared_ptr<const Case> Draft::with(std::span<const Edit> edits) const { return read(edited(edits)); }

std::shared_ptr<const Case> Draft::read(std::string edited_text) const {
  if (edited_text.empty()) return nullptr;
  if (effort) effort->spend(edited_text.size());
  Diagnostics complaints;
  const auto loaded = load_case({}, file, std::move(edited_text), edition, complaints);
  return loaded ? loaded->job : nullptr;
}

void put(std::vector<Edit>& edits, Edit edit) {
  const auto same = std::find_if(edits.begin(), edits.end(), [&](const Edit& e) { return e.key == edit.key; });
  if (same == edits.end()) edits.push_back(std::move(edit));
  else *same = std::move(edit);
}

bool is_bad(const Finding& f) {
  return f.verdict == Verdict::fail || f.verdict == Verdict::needs_input || f.verdict == Verdict::not_covered;
}

bool is_unheeded(const Finding& f) { return f.verdict == Verdict::advice && f.used && !at_most(*f.used, 1.0); }

double magnitude(std::string_view toml_value) {
  const std::string_view text = unquoted(toml_value);
  if (const auto size = ConductorSize::parse(text)) return size->circular_mils();
  for (const Dimension d : {Dimension::current, Dimension::power})
    if (const Measured m = read_quantity(text, d); m.ok) return m.si;
  if (const auto trade = TradeSize::parse(text)) return trade->nominal_inches();
  return std::numeric_limits<double>::quiet_NaN();
}

std::string_view unquoted(std::string_view toml_value) {
  if (toml_value.size() < 2 || (toml_value.front() != '"' && toml_value.front() != '\'')) return toml_value;
  return toml_value.substr(1, toml_value.size() - 2);
}

}  // namespace pullproof::answers
