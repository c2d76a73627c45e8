#include "job/edit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <unordered_map>
#include <vector>

namespace pullproof {
namespace {

constexpr std::string_view blanks = " \t", white = " \t\r\n";

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

std::string joined(std::string_view table, std::string_view key) {
  std::string path(table);
  if (!table.empty()) path += '.';
  return path.append(key);
}

/// Finds the values of a text that is TOML. What is not leaves it incomplete, and `good` false.
class Outline {
 public:
  explicit Outline(std::string_view text) : text_(text) {
    if (text_.starts_with("\xef\xbb\xbf")) at_ = 3;
    sections_.push_back({{}, at_});
    while (good_ && skip(white, true)) statement();
  }

  bool good() const { return good_; }
  const std::vector<Section>& sections() const { return sections_; }
  const std::vector<Entry>& entries() const { return entries_; }
  const Entry* entry(std::string_view path) const {
    for (const Entry& e : entries_)
      if (e.path == path) return &e;
    return nullptr;
  }

 private:
  bool more() const { return at_ < text_.size(); }
  char now() const { return more() ? text_[at_] : '\0'; }
  bool stop() { return good_ = false; }
  bool take(char c) {
    if (now() != c) return stop();
    ++at_;
    return true;
  }
  /// Whether something is left after spaces and, with `comments`, comments.
  bool skip(std::string_view what, bool comments) {
    while (more()) {
      if (what.find(now()) != std::string_view::npos) ++at_;
      else if (comments && now() == '#') at_ = std::min(text_.find('\n', at_), text_.size());
      else return true;
    }
    return false;
  }

  void statement() {
    if (now() == '[') return header();
    pair(sections_.back().path);
    sections_.back().end = at_;
  }

  void header() {
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
  std::vector<std::string> dotted() {
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

  void pair(const std::string& table) {
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
  void value(Entry e) {
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

  void bare() {
    const std::size_t begin = at_;
    while (more() && std::string_view(",]}#\n").find(now()) == std::string_view::npos) ++at_;
    while (at_ > begin && white.find(text_[at_ - 1]) != std::string_view::npos) --at_;
    if (at_ == begin) stop();
  }

  void string() {
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

  void list(const std::string& path) {
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

  void table(const std::string& path) {
    take('{');
    while (good_ && skip(white, true) && now() != '}') {
      pair(path);
      skip(white, true);
      if (now() == ',') ++at_;
      else if (now() != '}') stop();
    }
    if (good_) take('}');
  }

  std::string_view text_;
  std::size_t at_ = 0;
  int depth_ = 0;
  bool good_ = true;
  std::map<std::string, int> lists_;  ///< the number of the last item of each list of sections
  std::vector<Section> sections_;
  std::vector<Entry> entries_;
};

/// "wire.size" and "\"12 AWG\"" as a member of a table: `wire = { size = "12 AWG" }`, its key and its value.
std::pair<std::string, std::string> member(std::string_view rest, std::string_view value) {
  const std::size_t dot = rest.find('.');
  if (dot == std::string_view::npos) return {std::string(rest), std::string(value)};
  const auto [key, inner] = member(rest.substr(dot + 1), value);
  return {std::string(rest.substr(0, dot)), fmt::format("{{ {} = {} }}", key, inner)};
}

class Editor {
 public:
  explicit Editor(std::string_view text) : text_(text), outline_(text) {}

  const Outline& outline() const { return outline_; }

  std::optional<std::string> set(std::string_view key, std::string_view value) const {
    if (!outline_.good()) return std::nullopt;
    if (const Entry* e = outline_.entry(key)) return replaced(e->value, e->end, value);
    for (std::size_t dot = key.rfind('.'); dot != std::string_view::npos && dot > 0; dot = key.rfind('.', dot - 1)) {
      const std::string_view owner = key.substr(0, dot), rest = key.substr(dot + 1);
      if (const Entry* e = outline_.entry(owner)) return into_value(*e, rest, value);
      for (const Section& s : outline_.sections())
        if (!s.path.empty() && s.path == owner) return new_line(s, owner, member(rest, value));
      if (const Entry* e = last_dotted(owner)) return beside(*e, owner, rest, value);
    }
    const std::size_t dot = key.find('.');
    if (dot == std::string_view::npos) return new_line(outline_.sections().front(), {}, {std::string(key), std::string(value)});
    const std::string_view table = key.substr(0, dot), rest = key.substr(dot + 1);
    if (!rest.empty() && std::isdigit(static_cast<unsigned char>(rest[0])) != 0) return std::nullopt;  // an item that is not there
    const auto [name, inner] = member(rest, value);
    const std::string eol = line_end();
    const bool ended = text_.empty() || text_.ends_with('\n');
    return fmt::format("{}{}{}[{}]{}{} = {}{}", text_, ended ? "" : eol, text_.empty() ? "" : eol, table, eol, name, inner, eol);
  }

 private:
  std::string replaced(std::size_t from, std::size_t to, std::string_view by) const {
    return fmt::format("{}{}{}", text_.substr(0, from), by, text_.substr(to));
  }

  std::string line_end() const { return text_.find("\r\n") != std::string_view::npos ? "\r\n" : "\n"; }

  /// Adds to an inline table, or makes one of an item that is a mere name.
  std::optional<std::string> into_value(const Entry& e, std::string_view rest, std::string_view value) const {
    const auto [key, inner] = member(rest, value);
    const std::string_view old = text_.substr(e.value, e.end - e.value);
    if (old.starts_with('"') || old.starts_with('\'')) {
      if (e.equals != 0) return std::nullopt;
      return replaced(e.value, e.end, fmt::format("{{ in = {}, {} = {} }}", old, key, inner));
    }
    if (!old.starts_with('{')) return std::nullopt;
    std::size_t last = 0;
    for (const Entry& m : outline_.entries())
      if (m.table == e.path && m.begin > e.value && m.end < e.end) last = std::max(last, m.end);
    if (last == 0) return replaced(e.value, e.end, fmt::format("{{ {} = {} }}", key, inner));
    return replaced(last, last, fmt::format(", {} = {}", key, inner));
  }

  /// The last value of a table that is written by dotted keys.
  const Entry* last_dotted(std::string_view owner) const {
    const Entry* last = nullptr;
    const std::string prefix = fmt::format("{}.", owner);
    for (const Entry& e : outline_.entries())
      if (e.equals != 0 && e.path.starts_with(prefix) && e.table.size() < owner.size()) last = &e;
    return last;
  }

  /// Adds a dotted key after another of the same table.
  std::optional<std::string> beside(const Entry& e, std::string_view owner, std::string_view rest, std::string_view value) const {
    const auto [name, inner] = member(rest, value);
    const std::string line = fmt::format("{}.{} = {}", owner.substr(e.table.empty() ? 0 : e.table.size() + 1), name, inner);
    const Entry* around = outline_.entry(e.table);
    if (around != nullptr && text_[around->value] == '{') return replaced(e.end, e.end, fmt::format(", {}", line));
    return after_line(e.end, line, e.begin);
  }

  /// A new line at the end of a section.
  std::optional<std::string> new_line(const Section& s, std::string_view owner, const std::pair<std::string, std::string>& what) const {
    const Entry* last = nullptr;
    std::size_t column = 0, agreeing = 0, entries = 0;
    for (const Entry& e : outline_.entries()) {
      if (e.table != owner || e.equals == 0 || e.home != static_cast<std::size_t>(&s - outline_.sections().data())) continue;
      const std::size_t width = e.equals - e.begin;
      ++entries;
      if (width != column) agreeing = 0;
      column = width;
      ++agreeing;
      last = &e;
    }
    std::string key = what.first;
    if (entries > 1 && agreeing == entries) key.resize(std::max(key.size(), column - 1), ' ');  // signs below one another
    const std::string line = fmt::format("{} = {}", key, what.second);
    if (last == nullptr && s.path.empty()) return fmt::format("{}{}{}{}", text_.substr(0, s.end), line, line_end(), text_.substr(s.end));
    return after_line(last != nullptr ? last->end : s.end, line, last != nullptr ? last->begin : s.end);
  }

  /// Puts a line below the one that `at` is in, as far in as the one that `like` begins.
  std::string after_line(std::size_t at, std::string_view line, std::size_t like) const {
    const std::size_t begin = text_.substr(0, like).rfind('\n');
    const std::size_t from = begin == std::string_view::npos ? 0 : begin + 1;
    std::string_view indent = text_.substr(from, like - from);
    if (indent.find_first_not_of(blanks) != std::string_view::npos) indent = {};
    const std::size_t end = text_.find('\n', at);
    if (end == std::string_view::npos) return fmt::format("{}{}{}{}", text_, line_end(), indent, line);
    return fmt::format("{}{}{}{}{}", text_.substr(0, end + 1), indent, line, line_end(), text_.substr(end + 1));
  }

  std::string_view text_;
  Outline outline_;
};

}  // namespace

/// The text, and where its values stand.
struct Editable::Inner {
  std::string text;
  Editor editor{text};
  std::unordered_map<std::string, const Entry*> places{};
};

Editable::Editable(std::string text) {
  auto inner = std::make_shared<Inner>(std::move(text));
  for (const Entry& e : inner->editor.outline().entries()) inner->places.try_emplace(e.path, &e);
  inner_ = std::move(inner);
}

const std::string& Editable::text() const { return inner_->text; }

std::string_view Editable::at(const std::string& key) const {
  const auto found = inner_->places.find(key);
  return found == inner_->places.end() ? std::string_view{} : std::string_view(inner_->text).substr(found->second->value, found->second->end - found->second->value);
}

std::optional<std::string> Editable::with(std::span<const Edit> edits) const {
  if (!inner_->editor.outline().good()) return edits.empty() ? std::optional(text()) : std::nullopt;
  const auto holds_others = [](std::string_view value) { return value.starts_with('[') || value.starts_with('{'); };
  // What only puts one value for another does not move any other from its place in the order of the text.
  std::map<std::size_t, std::pair<std::size_t, std::string_view>> replaced;  // by its begin: its end, and what is there instead
  std::size_t n = 0;
  for (; n < edits.size() && !holds_others(edits[n].value); ++n) {
    const auto place = inner_->places.find(edits[n].key);
    if (place == inner_->places.end() || holds_others(at(edits[n].key))) break;
    replaced.insert_or_assign(place->second->value, std::pair(place->second->end, std::string_view(edits[n].value)));
  }
  if (n == 0 && !edits.empty()) {  // the first needs more than that, and finds it here
    const auto first = inner_->editor.set(edits[0].key, edits[0].value);
    return first ? edited(*first, edits.subspan(1)) : std::nullopt;
  }
  std::string out;
  std::size_t from = 0;
  for (const auto& [begin, by] : replaced) {
    out.append(text(), from, begin - from).append(by.second);
    from = by.first;
  }
  out.append(text(), from);
  return edited(out, edits.subspan(n));
}

std::optional<std::string> edited(std::string_view text, std::span<const Edit> edits) {
  std::string out(text);
  for (const Edit& e : edits) {
    auto next = Editor(out).set(e.key, e.value);
    if (!next) return std::nullopt;
    out = std::move(*next);
  }
  return out;
}

std::string_view value_at(std::string_view text, std::string_view key) {
  const Outline outline(text);
  const Entry* e = outline.entry(key);
  return e == nullptr ? std::string_view{} : text.substr(e->value, e->end - e->value);
}

std::vector<Edit> values_of(std::string_view text) {
  const Outline outline(text);
  std::vector<Edit> out;
  std::vector<std::size_t> begins;
  for (const Entry& e : outline.entries()) begins.push_back(e.begin);
  std::sort(begins.begin(), begins.end());
  for (const Entry& e : outline.entries()) {
    const auto inside = std::upper_bound(begins.begin(), begins.end(), e.value);
    const bool holds_others = inside != begins.end() && *inside < e.end;
    if (!holds_others) out.push_back({e.path, std::string(text.substr(e.value, e.end - e.value))});
  }
  return out;
}

std::string toml_string(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + '"';
}

}  // namespace pullproof
