#pragma once
// TOML that is none: going on after a syntax error, so that one look shows them all. Private to read.cpp.
#include <toml++/toml.h>

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "core/diagnostic.hpp"

namespace pullproof {

/// The lines of a text that is parsed again and again, with what cannot be read blanked out.
class Lines {
 public:
  explicit Lines(std::string_view text) : text_(text) {
    begins_.push_back(0);
    for (std::size_t at = text_.find('\n'); at != std::string::npos; at = text_.find('\n', at + 1)) begins_.push_back(at + 1);
  }

  const std::string& text() const { return text_; }
  /// Lines count from 1.
  bool has(std::uint32_t line) const { return line >= 1 && line <= begins_.size(); }
  std::string_view line(std::uint32_t n) const {
    const std::size_t end = n < begins_.size() ? begins_[n] - 1 : text_.size();
    return std::string_view(text_).substr(begins_[n - 1], end - begins_[n - 1]);
  }
  std::string_view trimmed(std::uint32_t n) const {
    std::string_view s = line(n);
    s.remove_prefix(std::min(s.find_first_not_of(" \t\r"), s.size()));
    return s;
  }
  /// True when there was anything to blank.
  bool blank(std::uint32_t n) {
    const bool any = !trimmed(n).empty();
    text_.replace(begins_[n - 1], line(n).size(), line(n).size(), ' ');
    return any;
  }
  /// Blanks the line, and when it is a header all up to the next one: what stands there cannot be judged.
  bool blank_with_what_it_heads(std::uint32_t n) {
    const bool header = trimmed(n).starts_with('[');
    const bool any = blank(n);
    while (header && has(++n) && !trimmed(n).starts_with('[')) blank(n);
    return any;
  }
  /// Whether the line looks like the beginning of something: "key =" or a header.
  bool begins_something(std::uint32_t n) const {
    const std::string_view s = trimmed(n);
    if (s.starts_with('[')) return true;
    const std::size_t end = s.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_-. ");
    return end != std::string_view::npos && end > 0 && s[end] == '=';
  }

 private:
  std::string text_;
  std::vector<std::size_t> begins_;
};

/// Parses. After a syntax error it goes on without the line that it is on. `complain` gets the place, what is wrong
/// and what would do.
template <class Complain>
toml::table parse_leniently(std::string_view text, std::string_view file, Complain complain) {
  Lines lines(text);
  constexpr int most = 25;
  std::set<std::uint32_t> seen;
  for (int i = 0; i < most; ++i) {
    try {
      return toml::parse(std::string_view(lines.text()), file);
    } catch (const toml::parse_error& e) {
      const toml::source_position at = e.source().begin;
      const std::string_view what = e.description();
      if (!seen.insert(at.line).second || !lines.has(at.line)) {
        complain(e.source(), shortened(what, 200), std::string{});
        break;
      }
      const std::string_view line = lines.line(at.line);
      std::string message = shortened(what, 200), note;
      if (what.find("parsing string") != std::string_view::npos && what.find("control characters") != std::string_view::npos &&
          line.find_first_of("\"'") != std::string_view::npos && display_width(line) < at.column)
        message = "a text that begins on this line has no closing quote";
      for (const std::string_view quote : {"\u201c", "\u201d", "\u2018", "\u2019"})
        if (line.find(quote) != std::string_view::npos) note = "these quotes are those of print; the ones of the keyboard are wanted: \"";
      // A list that is still open where the next key stands: what is wrong is the list, and the key is not.
      std::uint32_t opened = 0;
      if (what.find("parsing array") != std::string_view::npos && lines.begins_something(at.line))
        for (std::uint32_t n = at.line - 1; n >= 1 && opened == 0; --n)
          if (lines.begins_something(n)) opened = n;
      if (opened != 0) note = fmt::format("the list that begins on line {} has no end", opened);
      complain(e.source(), std::move(message), std::move(note));
      if (opened != 0) {
        for (std::uint32_t n = opened; n < at.line; ++n) lines.blank(n);
        seen.erase(at.line);
      } else if (!lines.blank_with_what_it_heads(at.line)) {
        break;
      }
    }
  }
  return {};
}

/// The offset of a dotted key with more parts than any key has; the parser would follow it as deep as it goes.
inline std::optional<std::size_t> overlong_key(std::string_view text) {
  constexpr int most = 16;
  int parts = 1;
  std::size_t begin = 0;
  for (std::size_t at = 0; at < text.size();) {
    const char c = text[at];
    if (c == '"' || c == '\'') {  // a text is skipped whole; as part of a key it is one part
      const std::string_view three = text.substr(at, 3);
      if (three == "\"\"\"" || three == "'''") {
        const std::size_t end = text.find(three, at + 3);
        at = end == std::string_view::npos ? text.size() : end + 3;
        continue;
      }
      for (++at; at < text.size() && text[at] != c && text[at] != '\n'; ++at)
        if (c == '"' && text[at] == '\\') ++at;
      ++at;
      continue;
    }
    if (c == '#') {
      at = std::min(text.find('\n', at), text.size());
      continue;
    }
    const bool bare = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '-';
    if (c == '.') {
      if (++parts > most) return begin;
    } else if (!bare && c != ' ' && c != '\t') {
      parts = 1;
      begin = at + 1;
    }
    ++at;
  }
  return std::nullopt;
}

}  // namespace pullproof
