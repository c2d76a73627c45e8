#include "core/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <iterator>
#include <limits>

namespace pullproof {
namespace {

constexpr int most_decimals = 12;

double power_of_ten(int n) {
  static constexpr double powers[] = {1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12};
  return powers[std::clamp(n, 0, most_decimals)];
}

constexpr double too_many = 1e15;

/// How many times 1/scale a value is, rounded; `too_many` or more where it has no such digits, or is no number.
double rounded_units(double value, double scale) {
  const double scaled = std::abs(value) * scale;
  if (!(scaled < too_many)) return std::numeric_limits<double>::infinity();
  return std::floor(scaled + std::min(scaled * 1e-12 + 1e-9, 1e-3) + 0.5);
}

}  // namespace

double round_half_up(double value, int decimals) {
  const double scale = power_of_ten(decimals);
  const double units = rounded_units(value, scale);
  return units < too_many ? std::copysign(units / scale, value) : value;
}

std::string number_text(double value, int decimals) {
  if (!std::isfinite(value)) return value != value ? "not a number" : value > 0 ? "unlimited" : "-unlimited";
  const auto after = static_cast<std::size_t>(std::clamp(decimals, 0, most_decimals));
  const double units = rounded_units(value, power_of_ten(decimals));
  std::string s;
  if (units < too_many) {  // the digits of a whole number, which take a fifth of the instructions of those of a fraction
    const fmt::format_int all(static_cast<std::uint64_t>(units));
    const std::string_view digits(all.data(), all.size());
    if (value < 0 && units > 0) s += '-';
    if (digits.size() <= after) s.append("0.").append(after - digits.size(), '0').append(digits);
    else s.append(digits.substr(0, digits.size() - after)).append(".").append(digits.substr(digits.size() - after));
  } else {
    s = fmt::format("{:#.{}f}", value, after);
  }
  s.resize(s.find_last_not_of('0') + 1);  // there is a point
  if (s.back() == '.') s.pop_back();
  return s;
}

int decimals_for(double value, int unit_decimals) {
  if (value == 0 || !std::isfinite(value)) return unit_decimals;
  const int magnitude = static_cast<int>(std::floor(std::log10(std::abs(value))));
  return std::clamp(4 - magnitude, unit_decimals, 9);
}

int decimals_to_redo(double value, double redone, int decimals) {
  if (!std::isfinite(value) || !std::isfinite(redone)) return decimals;
  constexpr double nearly = 0.999;
  while (decimals > 0 && std::abs(round_half_up(value, decimals) - redone) > nearly / power_of_ten(decimals)) --decimals;
  return decimals;
}

std::string brief_number(double value, double other) {
  const double a = std::abs(value);
  int decimals = a == 0 || !std::isfinite(a) ? 1 : std::clamp(2 - static_cast<int>(std::floor(std::log10(a))), 1, 9);
  std::string text = number_text(value, decimals);
  if (!std::isfinite(value) || !std::isfinite(other) || std::abs(value - other) <= std::abs(other) * 1e-9) return text;
  while (decimals < 9 && text == number_text(other, decimals)) text = number_text(value, ++decimals);
  return text;
}

std::string_view Texts::keep(std::string_view text) {
  if (text.empty()) return {};
  if (text.size() > left_) {
    const std::size_t size = std::max(block_size, text.size());
    blocks_.push_back(std::make_unique<char[]>(size));
    next_ = blocks_.back().get();
    left_ = size;
  }
  std::memcpy(next_, text.data(), text.size());
  const std::string_view kept(next_, text.size());
  next_ += text.size();
  left_ -= text.size();
  return kept;
}

std::string_view Texts::format_all(fmt::string_view pattern, fmt::format_args args) {
  fmt::memory_buffer out;
  fmt::vformat_to(std::back_inserter(out), pattern, args);
  return keep({out.data(), out.size()});
}

namespace {
/// Insertions, deletions, replacements and swaps of neighbours that make one text of the other; `enough` when it is
/// that many or more.
std::size_t edits(std::string_view a, std::string_view b, std::size_t enough) {
  if (std::max(a.size(), b.size()) - std::min(a.size(), b.size()) >= enough) return enough;
  std::vector<std::size_t> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) above[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1)});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) row[j] = std::min(row[j], before[j - 2] + 1);
    }
    const auto least = [](const std::vector<std::size_t>& r) { return *std::min_element(r.begin(), r.end()); };
    if (std::min(least(above), least(row)) >= enough) return enough;
    std::swap(before, above);
    std::swap(above, row);
  }
  return above.back();
}
}  // namespace

std::string_view nearest(std::string_view word, const std::vector<std::string_view>& known) {
  std::string_view best;
  if (word.size() > 64) return best;
  std::size_t least = (word.size() < 4 ? 1 : std::max<std::size_t>(2, word.size() / 3)) + 1;
  for (const std::string_view candidate : known) {
    if (candidate.size() > 64) continue;
    const std::size_t n = edits(word, candidate, least);
    if (n < least) {
      least = n;
      best = candidate;
    }
  }
  if (best.empty() && word.size() >= 3)
    for (const std::string_view candidate : known)
      if (candidate.starts_with(word)) return candidate;
  return best;
}

}  // namespace pullproof
