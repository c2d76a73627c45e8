#pragma once
// Runs the real program as a shell would.
#include <filesystem>
#include <string>
#include <vector>

namespace pullproof::test {

struct Ran {
  int status = -1;     ///< exit status, or 128 and the signal
  std::string out, err;
};

struct RunOptions {
  std::string input{};                      ///< what standard input holds
  std::vector<std::string> environment{};   ///< "NAME=value"; nothing else is in it
  std::filesystem::path folder{};           ///< where it runs; the source tree when empty
  bool close_output = false;                ///< nobody reads standard output
  bool ignore_pipe_signal = false;
  std::filesystem::path output{};           ///< a file that standard output goes to, instead of `out`
  bool often = false;                       ///< one of hundreds: where this build counts coverage, another build's program
  bool bound_by_permissions = false;        ///< root, too, may only read what permissions let it read
};

/// Runs the program with these words. Fails the test when it takes more than 60 s.
Ran run(const std::vector<std::string>& words, const RunOptions& options = {});

/// What bash makes of a command in which $PULLPROOF is the program, in a folder of its own or in `folder`. Ended after
/// 60 s.
Ran shell(const std::string& command, const std::filesystem::path& folder = {});

/// A text without its line breaks and indents, to look for a sentence in it.
std::string flat(const std::string& text);

/// A folder of its own for a test, removed with everything in it at the end.
class Scratch {
 public:
  Scratch();
  ~Scratch();
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  std::filesystem::path path(const std::string& name = {}) const { return folder_ / name; }
  /// Writes a file and returns its path.
  std::string file(const std::string& name, const std::string& text) const;

 private:
  std::filesystem::path folder_;
};

}  // namespace pullproof::test
