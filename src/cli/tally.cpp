#include "cli/tally.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <utility>

#include "cli/commands.hpp"
#include "cli/open_case.hpp"

namespace pullproof::cli {

Tally::Tally() : shows_(::isatty(STDERR_FILENO) == 1 && ::isatty(STDOUT_FILENO) != 1) {}

void Tally::add(int status) {
  ++count_;
  ++by_status_[static_cast<std::size_t>(std::clamp(status, 0, 3))];
  worst_ = worse(worst_, status);
  if (!shows_) return;
  const auto now = Clock::now();
  constexpr auto pause = std::chrono::milliseconds(250);
  if (now - last_ < pause) return;
  last_ = now;
  const double seconds = std::chrono::duration<double>(now - began_).count();
  fmt::print(stderr, "\r\033[K{} cases, {:.0f} a second", count_, static_cast<double>(count_) / seconds);
  std::fflush(stderr);
  shown_ = true;
}

void Tally::clear() {
  if (shown_) fmt::print(stderr, "\r\033[K");
  shown_ = false;
}

std::string Tally::summary() const {
  std::string s = fmt::format("{} case{}", count_, count_ == 1 ? "" : "s");
  constexpr std::pair<int, const char*> words[] = {
      {status_pass, "pass"}, {status_fail, "fail"}, {status_open, "open"}, {status_bad, "unreadable"}};
  const char* between = ": ";
  for (const auto& [status, word] : words) {
    const std::size_t n = by_status_[static_cast<std::size_t>(status)];
    if (n == 0) continue;
    s += fmt::format("{}{} {}", between, n, word);
    between = ", ";
  }
  return s;
}

}  // namespace pullproof::cli
