#include "cli/terminal.hpp"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <system_error>

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

}  // namespace

bool wants_color(Color choice) {
  if (choice != Color::automatic) return choice == Color::always;
  const char *no_color = std::getenv("NO_COLOR"), *term = std::getenv("TERM");
  if (no_color != nullptr && *no_color != '\0') return false;
  return ::isatty(STDOUT_FILENO) == 1 && term != nullptr && std::string_view(term) != "dumb";
}

std::size_t page_width() {
  struct winsize size {};
  if (::isatty(STDOUT_FILENO) != 1 || ::ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return 80;
  return std::clamp<std::size_t>(size.ws_col, 40, 100);
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
