#pragma once
// Numbers and texts as people read them: no locale, half up, one place.
#include <fmt/core.h>

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace pullproof {

/// Rounds half up (away from zero) to `decimals` places, the way a hand calculation does: 2.675 gives 2.68.
/// Binary noise below one part in 1e9 does not turn a tie down.
double round_half_up(double value, int decimals);

/// `value` with at most `decimals` places, half up, trailing zeros dropped, "-0" never printed.
std::string number_text(double value, int decimals);

/// The decimals that show at least `unit_decimals` places and at least five significant digits.
int decimals_for(double value, int unit_decimals);

/// As many of `decimals` as a reader can confirm who redoes the sum from printed inputs and gets `redone`: the last
/// place shown is off by less than one.
int decimals_to_redo(double value, double redone, int decimals);

/// As `number_text`, for sentences: three significant digits or one decimal, whichever is more, and as many
/// more as it takes to tell `value` from `other`.
std::string brief_number(double value, double other);

/// Owns the texts that steps and findings point into. Views stay valid as long as the arena lives.
class Texts {
 public:
  std::string_view keep(std::string_view text);
  template <class... A>
  std::string_view format(fmt::format_string<A...> pattern, A&&... a) {
    return format_all(pattern, fmt::make_format_args(a...));
  }

 private:
  std::string_view format_all(fmt::string_view pattern, fmt::format_args args);
  static constexpr std::size_t block_size = 8192;
  std::vector<std::unique_ptr<char[]>> blocks_;
  std::size_t left_ = 0;
  char* next_ = nullptr;
};

/// The entry of `known` nearest to `word` by edits (two letters that changed places are one edit), or else the first
/// that begins with it; empty when none is near enough to be meant.
std::string_view nearest(std::string_view word, const std::vector<std::string_view>& known);

}  // namespace pullproof
