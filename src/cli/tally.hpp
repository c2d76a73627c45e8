#pragma once
// How many cases came to what, and how far along we are.
#include <array>
#include <chrono>
#include <cstddef>
#include <string>

namespace pullproof::cli {

/// Counts cases by exit status. On a terminal it shows progress on a line of standard error that it erases; nothing
/// when standard error is no terminal, or when standard output is the same screen.
class Tally {
 public:
  Tally();
  void add(int status);
  /// Takes the line of progress away.
  void clear();
  int worst() const { return worst_; }
  std::size_t count() const { return count_; }
  /// "12 cases: 8 pass, 2 fail, 1 open, 1 unreadable"
  std::string summary() const;

 private:
  using Clock = std::chrono::steady_clock;
  bool shows_, shown_ = false;
  Clock::time_point began_ = Clock::now(), last_ = began_;
  std::array<std::size_t, 4> by_status_{};
  std::size_t count_ = 0;
  int worst_ = 0;
};

}  // namespace pullproof::cli
