#include "starter/draft.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "core/diagnostic.hpp"
#include "job/key-list.hpp"

namespace pullproof::starter {

std::string quoted_toml(std::string_view text) {
  std::string s = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') s += '\\';
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) s += fmt::format("\\u{:04x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
    else s += c;
  }
  return s + '"';
}

void Draft::remark(std::string_view text) { lines_.push_back({fmt::format("# {}", text), {}, {}}); }

void Draft::table(std::string_view header, std::string_view path) {
  if (!lines_.empty()) lines_.push_back({});
  path_ = path;
  if (header.empty()) return;
  std::string meaning;
  for (const KeyTable& t : key_tables())
    if (t.name == path) meaning = t.meaning;
  lines_.push_back({std::string(header), {}, meaning});
}

/// What the vocabulary says of a key, without its example: a value stands beside it.
std::string Draft::meaning_of(std::string_view key) const {
  static const std::vector<KeyTable> all = key_tables();
  for (const KeyTable& t : all)
    if (t.name == path_)
      for (const Key& k : t.keys)
        if (k.key == key) return k.meaning.substr(0, k.meaning.find(", \""));
  return {};
}

void Draft::add(std::string_view mark, std::string_view key, std::string_view value, std::string_view meaning) {
  lines_.push_back({fmt::format("{}{}", mark, key), std::string(value), meaning.empty() ? meaning_of(key) : std::string(meaning)});
}

void Draft::text(std::string_view key, std::string_view value, std::string_view meaning) {
  if (!value.empty()) add("", key, quoted_toml(value), meaning);
}

void Draft::texts(std::string_view key, const std::vector<std::string>& values, std::string_view meaning) {
  std::string s;
  for (const std::string& v : values) s += (s.empty() ? "" : ", ") + quoted_toml(v);
  if (!values.empty()) add("", key, fmt::format("[{}]", s), meaning);
}

void Draft::plain(std::string_view key, std::string_view value, std::string_view meaning) {
  if (!value.empty()) add("", key, value, meaning);
}

void Draft::open(std::string_view key, std::string_view value, std::string_view meaning) { add("#", key, value, meaning); }

/// The lines between two empty ones, with their values and what they mean in columns.
std::string Draft::laid_out(const std::vector<Line>& block) {
  constexpr std::size_t widest_left = 46;
  std::size_t keys = 0, column = 0;
  for (const Line& l : block)
    if (!l.value.empty()) keys = std::max(keys, l.left.size());
  std::vector<std::string> lefts;
  for (const Line& l : block) {
    lefts.push_back(l.value.empty() ? l.left : fmt::format("{:<{}} = {}", l.left, keys, l.value));
    if (const std::size_t w = display_width(lefts.back()); w <= widest_left && !l.right.empty()) column = std::max(column, w);
  }
  std::string out;
  for (std::size_t i = 0; i < block.size(); ++i) {
    const std::size_t w = display_width(lefts[i]);
    out += lefts[i];
    if (!block[i].right.empty()) out += std::string(2 + column - std::min(column, w), ' ') + "# " + block[i].right;
    out += '\n';
  }
  return out;
}

std::string Draft::take() {
  std::string out;
  std::vector<Line> block;
  lines_.push_back({});
  for (const Line& l : lines_) {
    if (!l.left.empty()) {
      block.push_back(l);
      continue;
    }
    if (!block.empty()) out += (out.empty() ? "" : "\n") + laid_out(block);
    block.clear();
  }
  lines_.clear();
  return out;
}

}  // namespace pullproof::starter
