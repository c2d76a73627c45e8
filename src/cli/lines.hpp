#pragma once
// Lines of a file that may be a pipe, one at a time and with a limit.
#include <cstddef>
#include <string>

namespace pullproof::cli {

class Lines {
 public:
  /// Opens a file, or standard input for "-". `end` closes a line. Throws CommandError.
  explicit Lines(const std::string& path, char end = '\n');
  ~Lines();
  Lines(const Lines&) = delete;
  Lines& operator=(const Lines&) = delete;

  enum class Got { line, too_long, end };
  /// The next line without what closes it. One that is longer than `limit` bytes is skipped. The end also comes when
  /// a signal asks the program to stop. Throws CommandError when the file cannot be read on.
  Got next(std::string& line, std::size_t limit);

 private:
  bool fill();
  int fd_;
  std::string path_, buffer_;
  char end_;
  std::size_t at_ = 0;
};

}  // namespace pullproof::cli
