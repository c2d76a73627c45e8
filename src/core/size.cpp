#include "core/size.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace pullproof {
namespace {

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && s.front() == ' ') s.remove_prefix(1);
  while (!s.empty() && s.back() == ' ') s.remove_suffix(1);
  return s;
}

bool strip_suffix(std::string_view& s, std::string_view suffix) {
  if (!s.ends_with(suffix)) return false;
  s = trimmed(s.substr(0, s.size() - suffix.size()));
  return true;
}

template <class N>
std::optional<N> number(std::string_view s) {
  N value{};
  const auto [end, error] = std::from_chars(s.data(), s.data() + s.size(), value);
  if (error != std::errc{} || end != s.data() + s.size()) return std::nullopt;
  return value;
}

/// ASTM B258: the diameters of 4/0 (0.46 in) and 36 AWG (0.005 in) fixed, 39 equal ratios between.
double gauge_circular_mils(int gauge) {
  const double mils = 5.0 * std::pow(92.0, (36.0 - gauge) / 39.0);
  return mils * mils;
}

struct Trade {
  std::string_view label;
  int designator;
  double inches;
};
// Trade sizes and metric designators: NFPA 70 Table 300.1(C), a fixed list of names.
constexpr std::array<Trade, 13> trades{{{"3/8", 12, 0.375},
                                        {"1/2", 16, 0.5},
                                        {"3/4", 21, 0.75},
                                        {"1", 27, 1},
                                        {"1-1/4", 35, 1.25},
                                        {"1-1/2", 41, 1.5},
                                        {"2", 53, 2},
                                        {"2-1/2", 63, 2.5},
                                        {"3", 78, 3},
                                        {"3-1/2", 91, 3.5},
                                        {"4", 103, 4},
                                        {"5", 129, 5},
                                        {"6", 155, 6}}};

}  // namespace

std::optional<ConductorSize> ConductorSize::parse(std::string_view text) {
  std::string_view s = trimmed(text);
  ConductorSize size;
  std::string_view unit;
  std::array<char, 16> shortest{};
  if (strip_suffix(s, "AWG")) {
    unit = " AWG";
    int gauge = 0;
    if (s.size() == 3 && s.substr(1) == "/0" && s[0] >= '1' && s[0] <= '4') {
      gauge = 1 - (s[0] - '0');
    } else {
      const auto n = number<int>(s);
      if (!n || *n < 1 || *n > 40 || s.front() == '0') return std::nullopt;
      gauge = *n;
    }
    size.cmil_ = gauge_circular_mils(gauge);
  } else if (strip_suffix(s, "kcmil") || strip_suffix(s, "MCM")) {
    unit = " kcmil";
    const auto n = number<int>(s);
    if (!n || *n < 250 || *n > 2000) return std::nullopt;
    size.cmil_ = *n * 1000.0;
  } else if (strip_suffix(s, "mm²") || strip_suffix(s, "mm2")) {
    unit = " mm²";
    const auto n = number<double>(s);
    const bool plain = s.find_first_not_of("0123456789.") == std::string_view::npos && s.size() <= 8;
    if (!n || !plain || *n < 0.01 || *n > 1200) return std::nullopt;
    size.cmil_ = *n * 1973.525;
    size.metric_ = true;
    // "2.50" and "2.5" are one label, or they would be two rows of a table.
    const auto end = std::to_chars(shortest.data(), shortest.data() + shortest.size(), *n, std::chars_format::fixed).ptr;
    s = {shortest.data(), static_cast<std::size_t>(end - shortest.data())};
  } else {
    return std::nullopt;
  }
  auto* out = std::copy(s.begin(), s.end(), size.text_.data());
  out = std::copy(unit.begin(), unit.end(), out);
  size.length_ = static_cast<std::uint8_t>(out - size.text_.data());
  return size;
}

std::optional<TradeSize> TradeSize::parse(std::string_view text) {
  std::string_view s = trimmed(text);
  if (s.starts_with("metric ")) {
    const auto n = number<int>(trimmed(s.substr(7)));
    for (std::uint8_t i = 0; n && i < trades.size(); ++i)
      if (trades[i].designator == *n) return TradeSize(i);
    return std::nullopt;
  }
  if (!strip_suffix(s, "in")) strip_suffix(s, "\"");
  for (std::uint8_t i = 0; i < trades.size(); ++i) {
    const std::string_view label = trades[i].label;
    const bool same = s.size() == label.size() && std::equal(s.begin(), s.end(), label.begin(), [](char a, char b) {
                        return a == b || (a == ' ' && b == '-');
                      });
    if (same) return TradeSize(i);
  }
  return std::nullopt;
}

std::string_view TradeSize::label() const { return trades[index_].label; }
int TradeSize::metric_designator() const { return trades[index_].designator; }
double TradeSize::nominal_inches() const { return trades[index_].inches; }

}  // namespace pullproof
