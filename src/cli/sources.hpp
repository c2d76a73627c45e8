#pragma once
// The cases that a command line names, one after another.
#include <cstddef>
#include <memory>
#include <string>
#include <vector>

#include "cli/lines.hpp"
#include "cli/options.hpp"

namespace pullproof::cli {

/// Files, the .toml files in folders and below them, and the lines of a list. A folder's files come in the order of
/// their names; symbolic links to folders are not followed inside one, so that none goes round in a circle, and what
/// begins with a dot is left out. A list is read as it is needed, so that it may be long, or come from a pipe.
class Sources {
 public:
  /// Throws CommandError when the list cannot be opened.
  explicit Sources(const Options& options);

  struct Source {
    std::size_t number = 0;  ///< counted from 1
    std::string name;        ///< a path, or "-" for standard input
    std::string trouble;     ///< why there is nothing to be read under that name; else empty
  };
  /// False at the end. Throws CommandError when the list cannot be read on.
  bool next(Source& source);

 private:
  bool next_from(Source& source);
  void open(const std::string& folder);

  std::vector<std::string> words_;
  std::size_t at_ = 0;
  std::unique_ptr<Lines> list_;
  std::vector<Source> waiting_;  ///< of the folder that is being gone through, the next one last
  std::size_t count_ = 0;
};

}  // namespace pullproof::cli
