#include "cli/lines.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "cli/options.hpp"
#include "cli/stopping.hpp"

namespace pullproof::cli {
namespace {

[[noreturn]] void refuse(const std::string& path, int error) {
  throw CommandError(fmt::format("'{}' cannot be read: {}", path, std::generic_category().message(error)));
}

}  // namespace

Lines::Lines(const std::string& path, char end)
    : fd_(path == "-" ? STDIN_FILENO : ::open(path.c_str(), O_RDONLY | O_CLOEXEC)), path_(path), end_(end) {
  if (fd_ < 0) refuse(path, errno);
}

Lines::~Lines() {
  if (fd_ > STDIN_FILENO) ::close(fd_);
}

bool Lines::fill() {
  constexpr std::size_t piece = 64 * 1024;
  buffer_.resize(piece);
  at_ = 0;
  for (;;) {
    // A signal may reach another thread and not wake a read: look up now and then.
    struct pollfd waiting {fd_, POLLIN, 0};
    constexpr int patience_ms = 200;
    const int ready = ::poll(&waiting, 1, patience_ms);
    if (stop_wanted()) return buffer_.clear(), false;
    if (ready == 0 || (ready < 0 && errno == EINTR)) continue;
    const ssize_t n = ::read(fd_, buffer_.data(), piece);
    if (n >= 0) {
      buffer_.resize(static_cast<std::size_t>(n));
      return n > 0;
    }
    if (errno != EINTR) refuse(path_, errno);
  }
}

Lines::Got Lines::next(std::string& line, std::size_t limit) {
  line.clear();
  bool any = false, too_long = false;
  for (;;) {
    if (stop_wanted()) return Got::end;
    if (at_ == buffer_.size() && !fill()) return too_long ? Got::too_long : any ? Got::line : Got::end;
    any = true;
    const std::size_t stop = buffer_.find(end_, at_);
    const std::size_t to = stop == buffer_.npos ? buffer_.size() : stop;
    too_long = too_long || line.size() + (to - at_) > limit;
    if (!too_long) line.append(buffer_, at_, to - at_);
    else line.clear();
    at_ = stop == buffer_.npos ? to : to + 1;
    if (stop != buffer_.npos) return too_long ? Got::too_long : Got::line;
  }
}

}  // namespace pullproof::cli
