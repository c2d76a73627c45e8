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
  std::uint32_t source_from = 1;  ///< the column that `source_line` begins with: of a very long line a piece is kept
};

class Diagnostics {
 public:
  /// More than this many are counted and not kept: a text that is wrong throughout is no reason to hang.
  static constexpr std::size_t most = 200;

  void add(Diagnostic d);
  bool empty() const { return all_.empty(); }
  /// Whether another one would only be counted; to be asked before working out a costly note.
  bool full() const { return all_.size() >= most; }
  std::size_t size() const { return all_.size() + dropped_; }
  /// Sorted by file, line and column; equal ones once. The last one says how many were not kept.
  std::vector<Diagnostic> sorted() const;

 private:
  std::vector<Diagnostic> all_;
  std::size_t dropped_ = 0;
};

/// `file:line:column: message`, the source line with a caret under the span, and the note. Control
/// characters of the source are shown as U+FFFD, so that nothing typed in a case can drive a terminal.
std::string render(const Diagnostic& d);

/// Terminal cells that a UTF-8 text takes: 0 for combining marks, 2 for wide characters.
std::size_t display_width(std::string_view utf8);

/// `text` with control characters, what turns the direction of text, noncharacters and invalid UTF-8 replaced by U+FFFD.
std::string printable(std::string_view text);

/// `text` with invalid UTF-8 replaced by U+FFFD, all else as it is.
std::string well_formed(std::string_view text);

/// `text`, cut after `most` code points when it is longer.
std::string shortened(std::string_view text, std::size_t most);
/// `text` in quotes for a message, cut short when it is long.
std::string quoted(std::string_view text);

}  // namespace pullproof
