#pragma once
// A case being written: tables with keys one to a line, their remarks in a column.
#include <string>
#include <string_view>
#include <vector>

namespace pullproof::starter {

class Draft {
 public:
  /// A line of comment above what follows.
  void remark(std::string_view text);
  /// A header such as "[[circuit]]" or "[circuit.load]"; `path` names its table for what its keys mean.
  void table(std::string_view header, std::string_view path);
  /// A key with a text, a list of texts, or a value that takes no quotes. Nothing is written for an empty text, nor
  /// for an empty list. What the key means stands beside it, or `meaning` does.
  void text(std::string_view key, std::string_view value, std::string_view meaning = {});
  void texts(std::string_view key, const std::vector<std::string>& values, std::string_view meaning = {});
  void plain(std::string_view key, std::string_view value, std::string_view meaning = {});
  /// As `plain`, but commented out: not known yet. `value` is an example, with its quotes.
  void open(std::string_view key, std::string_view value, std::string_view meaning = {});
  std::string take();

 private:
  struct Line {
    std::string left, value, right;  ///< a key, its value and what it means; a header has no value, a remark neither
  };
  std::string meaning_of(std::string_view key) const;
  static std::string laid_out(const std::vector<Line>& block);
  void add(std::string_view mark, std::string_view key, std::string_view value, std::string_view meaning);
  std::vector<Line> lines_;
  std::string path_;
};

/// A text in TOML's quotes.
std::string quoted_toml(std::string_view text);

}  // namespace pullproof::starter
