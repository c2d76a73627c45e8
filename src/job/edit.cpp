#include "job/edit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <unordered_map>
#include <utility>
#include <vector>

#include "job/outline.hpp"

namespace pullproof {
namespace {

using Entry = Outline::Entry;
using Section = Outline::Section;

constexpr std::string_view blanks = " \t";

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
  explicit Inner(std::string all) : text(std::move(all)), editor(text) {}

  std::string text;
  Editor editor;
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
