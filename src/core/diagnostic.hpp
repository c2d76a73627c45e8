#pragma once
// Located complaints about input that could not be read.
#include <string>
#include <string_view>
#include <vector>

#include "core/working.hpp"

namespace pullproof {

/// A complaint about one place of one text. `message` is a fact in lower case; `note` says what would do.
struct Diagnostic {
  std::string file;
  std::uint32_t line = 0, column = 0, length = 1;  ///< line 0: about the whole file
  std::string message, note;
  std::string source_line;  ///< the line complained about, for the caret; empty when there is none to show
};

class Diagnostics {
 public:
  void add(Diagnostic d) { all_.push_back(std::move(d)); }
  bool empty() const { return all_.empty(); }
  /// Sorted by file, line and column; equal ones once.
  std::vector<Diagnostic> sorted() const;
  std::vector<Diagnostic>& all() { return all_; }

 private:
  std::vector<Diagnostic> all_;
};

/// `file:line:column: message`, the source line with a caret under the span, and the note. Control
/// characters of the source are shown as `?`, so that nothing typed in a case can drive a terminal.
std::string render(const Diagnostic& d);

/// Terminal cells that a UTF-8 text takes: 0 for combining marks, 2 for wide characters.
std::size_t display_width(std::string_view utf8);

/// `text` with control characters and invalid UTF-8 replaced by U+FFFD.
std::string printable(std::string_view text);

/// `text` with invalid UTF-8 replaced by U+FFFD, all else as it is.
std::string well_formed(std::string_view text);

}  // namespace pullproof
