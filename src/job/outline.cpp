#include "job/outline.hpp"

#include <algorithm>
#include <cctype>

namespace pullproof {
namespace {

constexpr std::string_view blanks = " \t", white = " \t\r\n";

std::string joined(std::string_view table, std::string_view key) {
  std::string path(table);
  if (!table.empty()) path += '.';
  return path.append(key);
}

}  // namespace

Outline::Outline(std::string_view text) : text_(text) {
  if (text_.starts_with("\xef\xbb\xbf")) at_ = 3;
  sections_.push_back({{}, at_});
  while (good_ && skip(white, true)) statement();
}

const Outline::Entry* Outline::entry(std::string_view path) const {
  for (const Entry& e : entries_)
    if (e.path == path) return &e;
  return nullptr;
}

bool Outline::take(char c) {
  if (now() != c) return stop();
  ++at_;
  return true;
}

/// Whether something is left after spaces and, with `comments`, comments.
bool Outline::skip(std::string_view what, bool comments) {
  while (more()) {
    if (what.find(now()) != std::string_view::npos) ++at_;
    else if (comments && now() == '#') at_ = std::min(text_.find('\n', at_), text_.size());
    else return true;
  }
  return false;
}

void Outline::statement() {
  if (now() == '[') return header();
  pair(sections_.back().path);
  sections_.back().end = at_;
}

void Outline::header() {
  const bool list = text_.substr(at_).starts_with("[[");
  at_ += list ? 2 : 1;
  std::vector<std::string> parts = dotted();
  if (!take(']') || (list && !take(']')) || parts.empty()) return void(stop());
  std::string path;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    path = joined(path, parts[i]);
    const auto found = lists_.find(path);
    if (i + 1 == parts.size() && list) path = joined(path, std::to_string(found == lists_.end() ? (lists_[path] = 0) : ++found->second));
    else if (found != lists_.end()) path = joined(path, std::to_string(found->second));
  }
  sections_.push_back({path, at_});
}

/// A key of one or more parts, as plain names.
std::vector<std::string> Outline::dotted() {
  std::vector<std::string> parts;
  while (good_) {
    skip(blanks, false);
    const std::size_t begin = at_;
    if (now() == '"' || now() == '\'') {
      string();
      if (good_) parts.emplace_back(text_.substr(begin + 1, at_ - begin - 2));  // one with escapes matches no key
    } else {
      while (more() && (std::isalnum(static_cast<unsigned char>(now())) != 0 || now() == '_' || now() == '-')) ++at_;
      if (at_ == begin) stop();
      parts.emplace_back(text_.substr(begin, at_ - begin));
    }
    skip(blanks, false);
    if (now() != '.') break;
    ++at_;
  }
  return parts;
}

void Outline::pair(const std::string& table) {
  Entry e;
  e.home = sections_.size() - 1;
  e.table = table;
  e.begin = at_;
  std::string path = table;
  for (const std::string& part : dotted()) path = joined(path, part);
  e.equals = at_;
  if (!take('=')) return;
  skip(blanks, false);
  e.path = path;
  value(std::move(e));
}

/// The value that begins here, as an entry, and the ones in it.
void Outline::value(Entry e) {
  if (++depth_ > 64) return void(stop());
  e.value = at_;
  const std::size_t place = entries_.size();
  const std::string path = e.path;
  entries_.push_back(std::move(e));
  if (now() == '"' || now() == '\'') string();
  else if (now() == '[') list(path);
  else if (now() == '{') table(path);
  else bare();
  entries_[place].end = at_;
  --depth_;
}

void Outline::bare() {
  const std::size_t begin = at_;
  while (more() && std::string_view(",]}#\n").find(now()) == std::string_view::npos) ++at_;
  while (at_ > begin && white.find(text_[at_ - 1]) != std::string_view::npos) --at_;
  if (at_ == begin) stop();
}

void Outline::string() {
  const char quote = now();
  const std::string three(3, quote);
  const bool several = text_.substr(at_).starts_with(three);
  at_ += several ? 3 : 1;
  while (more()) {
    if (quote == '"' && now() == '\\') {
      at_ += 2;
    } else if (several ? text_.substr(at_).starts_with(three) : now() == quote) {
      at_ += several ? 3 : 1;
      for (int i = 0; several && i < 2 && now() == quote; ++i) ++at_;  // up to two quotes may stand before the three
      return;
    } else {
      if (!several && now() == '\n') break;
      ++at_;
    }
  }
  at_ = std::min(at_, text_.size());
  stop();
}

void Outline::list(const std::string& path) {
  take('[');
  for (std::size_t n = 0; good_ && skip(white, true) && now() != ']'; ++n) {
    Entry item;
    item.home = sections_.size() - 1;
    item.path = joined(path, std::to_string(n));
    item.table = path;
    item.begin = at_;
    value(std::move(item));
    skip(white, true);
    if (now() == ',') ++at_;
    else if (now() != ']') stop();
  }
  if (good_) take(']');
}

void Outline::table(const std::string& path) {
  take('{');
  while (good_ && skip(white, true) && now() != '}') {
    pair(path);
    skip(white, true);
    if (now() == ',') ++at_;
    else if (now() != '}') stop();
  }
  if (good_) take('}');
}

}  // namespace pullproof
