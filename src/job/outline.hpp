#pragma once
// Where the values of a text that is TOML stand, so that one can be changed and nothing else: a parser of values says
// what they are, and not where they end.
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace pullproof {

/// What is not TOML leaves it incomplete, and good() false. It points into the text.
class Outline {
 public:
  /// A value and where it stands. `home` is the table that it is written in: a section, or an inline table.
  struct Entry {
    std::string path;
    std::size_t home = 0;         ///< the section
    std::string table;            ///< path of the section or inline table around it
    std::size_t begin = 0;        ///< of the key; of the value itself for an item of a list
    std::size_t equals = 0;       ///< of the sign between; 0 for an item of a list
    std::size_t value = 0, end = 0;
  };

  /// A header and what stands below it up to the next; the first has no header.
  struct Section {
    std::string path;
    std::size_t end = 0;  ///< after the last value, or after the header where there is none
  };

  explicit Outline(std::string_view text);
  bool good() const { return good_; }
  const std::vector<Section>& sections() const { return sections_; }
  const std::vector<Entry>& entries() const { return entries_; }
  /// Null when there is none.
  const Entry* entry(std::string_view path) const;

 private:
  bool more() const { return at_ < text_.size(); }
  char now() const { return more() ? text_[at_] : '\0'; }
  bool stop() { return good_ = false; }
  bool take(char c);
  bool skip(std::string_view what, bool comments);
  void statement();
  void header();
  std::vector<std::string> dotted();
  void pair(const std::string& table);
  void value(Entry e);
  void bare();
  void string();
  void list(const std::string& path);
  void table(const std::string& path);

  std::string_view text_;
  std::size_t at_ = 0;
  int depth_ = 0;
  bool good_ = true;
  std::map<std::string, int> lists_;  ///< the number of the last item of each list of sections
  std::vector<Section> sections_;
  std::vector<Entry> entries_;
};

}  // namespace pullproof
