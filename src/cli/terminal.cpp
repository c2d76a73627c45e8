#include "cli/terminal.hpp"

#include <fmt/format.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <optional>
#include <string>
#include <system_error>

#include "core/diagnostic.hpp"
#include "report/page.hpp"

namespace pullproof::cli {
namespace {

std::atomic<bool> reader_gone = false;  // where the signal of a closed pipe is ignored: what is left is not written

void check(bool good) {
  if (good) return;
  const int error = errno;
  reader_gone = error == EPIPE;
  if (reader_gone) return;
  throw CommandError("the output cannot be written: " + std::generic_category().message(error));
}

/// Cells of a line, 40 to 100, where it is a terminal.
std::optional<std::size_t> cells_of(int file) {
  struct winsize size {};
  if (::isatty(file) != 1) return std::nullopt;
  if (::ioctl(file, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return 80;
  return std::clamp<std::size_t>(size.ws_col, 40, 100);
}

}  // namespace

bool wants_color(Color choice) {
  if (choice != Color::automatic) return choice == Color::always;
  const char *no_color = std::getenv("NO_COLOR"), *term = std::getenv("TERM");
  if (no_color != nullptr && *no_color != '\0') return false;
  return ::isatty(STDOUT_FILENO) == 1 && term != nullptr && std::string_view(term) != "dumb";
}

std::size_t page_width() { return cells_of(STDOUT_FILENO).value_or(80); }

void complain(std::string_view message, std::string_view note) {
  const auto width = cells_of(STDERR_FILENO);
  if (!width) {
    fmt::print(stderr, "pullproof: {}\n", printable(message));
    if (!note.empty()) fmt::print(stderr, "  note: {}\n", printable(note));
    return;
  }
  report::Page page(*width, false);
  page.paragraph(0, fmt::format("pullproof: {}", message));
  if (!note.empty()) page.paragraph(2, fmt::format("note: {}", note));
  fmt::print(stderr, "{}", page.take());
}

void put(std::string_view text) {
  if (reader_gone) return;
  errno = 0;
  check(std::fwrite(text.data(), 1, text.size(), stdout) == text.size());
}

bool output_wanted() { return !reader_gone; }

void flush() {
  if (reader_gone) return;
  errno = 0;
  check(std::fflush(stdout) == 0);
}

}  // namespace pullproof::cli
