#pragma once
// Conductor sizes and trade sizes: ordered labels, not numbers. "1/0" is no fraction and a larger gauge
// number is a smaller wire.
#include <array>
#include <compare>
#include <cstdint>
#include <optional>
#include <string_view>

namespace pullproof {

/// A conductor size as the trade writes it: "14 AWG", "4/0 AWG", "250 kcmil", "2.5 mm²".
/// Ordered by area in circular mils (ASTM B258 for AWG, 1973.525 cmil per mm²).
class ConductorSize {
 public:
  ConductorSize() = default;

  /// Reads a label; "mm2" is taken for "mm²". Empty for anything that is no size: AWG runs from 40 to 4/0,
  /// kcmil from 250 to 2000 in whole numbers, mm² from 0.01 to 1200 without an exponent.
  static std::optional<ConductorSize> parse(std::string_view text);

  std::string_view label() const { return {text_.data(), length_}; }
  /// Nominal area in circular mils: a circle one mil across is one.
  double circular_mils() const { return cmil_; }
  bool metric() const { return metric_; }

  friend bool operator==(const ConductorSize& a, const ConductorSize& b) { return a.cmil_ == b.cmil_; }
  friend std::partial_ordering operator<=>(const ConductorSize& a, const ConductorSize& b) {
    return a.cmil_ <=> b.cmil_;
  }

 private:
  double cmil_ = 0;
  std::array<char, 14> text_{};
  std::uint8_t length_ = 0;
  bool metric_ = false;
};

/// The trade size of a raceway, an ordered label: "3/8" to "6". The metric designator names the same thing.
class TradeSize {
 public:
  TradeSize() = default;

  /// Reads "1/2", "1-1/4", "1 1/4", with or without "in" or an inch mark, or a metric designator "metric 35".
  static std::optional<TradeSize> parse(std::string_view text);

  std::string_view label() const;
  int metric_designator() const;
  /// The nominal number, in inches: right for rules that say "trade diameter", wrong as a dimension.
  double nominal_inches() const;
  friend auto operator<=>(const TradeSize&, const TradeSize&) = default;

 private:
  explicit TradeSize(std::uint8_t index) : index_(index) {}
  std::uint8_t index_ = 0;
};

}  // namespace pullproof
