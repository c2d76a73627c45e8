#include "job/read.hpp"

#include <set>

#include "job/link.hpp"
#include "job/value_reader.hpp"

namespace pullproof {
namespace {

/// Walks the vocabulary over a parsed file. One per file; collects complaints and goes on.
class CaseReader : public ValueReader {
 public:
  using ValueReader::ValueReader;

  void read(const toml::table& root) { read_table(root, case_); }

  // --- the visitor's part ---

  template <class T>
  void field(std::string_view key, Given<T>& into, std::string_view /*meaning*/, double low = no_low, double high = no_high) {
    known_.push_back(key);
    const toml::node* node = table_->get(key);
    if (node == nullptr) return;
    into.where = where(node->source());
    into.present = value(*node, key, into, low, high);
  }

  template <class T>
  void table(std::string_view key, T& into, std::string_view /*meaning*/) {
    known_.push_back(key);
    const toml::node* node = table_->get(key);
    if (node == nullptr) return;
    if (const toml::table* t = node->as_table()) read_table(*t, into);
    else complain(where(node->source()), fmt::format("'{}' is a table", key), fmt::format("write [{}] or {} = {{ ... }}", key, key));
  }

  template <class T>
  void tables(std::string_view key, std::vector<T>& into, std::string_view /*meaning*/) {
    each(key, [&](const toml::node& n) {
      if (const toml::table* t = n.as_table()) read_table(*t, into.emplace_back());
      else complain(where(n.source()), fmt::format("each '{}' is a table", key), fmt::format("write [[{}]]", key));
    });
  }

  void path(std::string_view key, std::vector<Stretch>& into, std::string_view meaning) { names(key, into, meaning); }
  void entries(std::string_view key, std::vector<BoxEntry>& into, std::string_view meaning) { names(key, into, meaning); }

  /// Items that are a name, or a table with the name under `in` and more.
  template <class T>
  void names(std::string_view key, std::vector<T>& into, std::string_view /*meaning*/) {
    each(key, [&](const toml::node& n) {
      if (const toml::table* t = n.as_table()) {
        read_table(*t, into.emplace_back());
      } else {
        T& s = into.emplace_back();
        s.where = s.in.where = where(n.source());
        s.in.present = value(n, key, s.in, no_low, no_high);
      }
    });
  }

  void texts(std::string_view key, std::vector<Given<std::string_view>>& into, std::string_view /*meaning*/) {
    each(key, [&](const toml::node& n) {
      Given<std::string_view>& g = into.emplace_back();
      g.where = where(n.source());
      g.present = value(n, key, g, no_low, no_high);
    });
  }

 private:
  template <class Fn>
  void each(std::string_view key, Fn fn) {
    known_.push_back(key);
    const toml::node* node = table_->get(key);
    if (node == nullptr) return;
    const toml::array* a = node->as_array();
    if (a == nullptr) return complain(where(node->source()), fmt::format("'{}' is a list", key));
    constexpr std::size_t most = 2000;
    if (a->size() > most) return complain(where(node->source()), fmt::format("'{}' has more than {} items", key, most));
    for (const toml::node& n : *a) fn(n);
  }

  template <class T>
  void read_table(const toml::table& t, T& into) {
    const toml::table* outer = std::exchange(table_, &t);
    std::vector<std::string_view> outer_known = std::exchange(known_, {});
    if constexpr (requires { into.where; }) into.where = where(t.source());
    describe(*this, into);
    for (const auto& [key, node] : t)
      if (std::find(known_.begin(), known_.end(), key.str()) == known_.end()) unknown(key, node);
    table_ = outer;
    known_ = std::move(outer_known);
  }

  void unknown(const toml::key& key, const toml::node& node) {
    Where w = where(key.source());
    if (!w) w = where(node.source());
    const std::string_view near = diagnostics_.full() ? std::string_view{} : nearest(key.str(), known_);
    std::string note = near.empty() ? fmt::format("known here: {}", fmt::join(known_, ", ")) : fmt::format("did you mean '{}'?", near);
    complain(w, fmt::format("unknown key {}", quoted(key.str())), std::move(note));
  }

  const toml::table* table_ = nullptr;
  std::vector<std::string_view> known_;
};

/// Blanks line `line` of `text`, and when it is a table header, all up to the next header: what stands there
/// cannot be judged. True when anything was left to blank.
bool blank_line(std::string& text, std::uint32_t line) {
  std::size_t at = 0;
  for (std::uint32_t n = 1; n < line && at != std::string::npos; ++n) {
    at = text.find('\n', at);
    if (at != std::string::npos) ++at;
  }
  if (at == std::string::npos || at >= text.size()) return false;
  bool any = false;
  const auto blank = [&](std::size_t from) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    for (std::size_t i = from; i < end; ++i) {
      any = any || text[i] != ' ';
      text[i] = ' ';
    }
    return end;
  };
  const bool header = text.find_first_not_of(" \t", at) != std::string::npos && text[text.find_first_not_of(" \t", at)] == '[';
  std::size_t end = blank(at);
  while (header && end < text.size()) {
    const std::size_t next = text.find_first_not_of(" \t\n\r", end);
    if (next == std::string::npos || text[next] == '[') break;
    end = blank(text.rfind('\n', next) + 1);
  }
  return any;
}

/// Parses, and after a syntax error goes on without the line it is on, so that one look shows them all.
toml::table parse(const Case& c, CaseReader& reader) {
  std::string text = c.text;
  constexpr int most = 25;
  std::set<std::uint32_t> seen;
  for (int i = 0; i < most; ++i) {
    try {
      return toml::parse(std::string_view(text), c.file);
    } catch (const toml::parse_error& e) {
      std::uint32_t line = e.source().begin.line;
      if (!seen.insert(line).second) break;
      reader.complain(reader.where(e.source()), shortened(e.description(), 200));
      if (!blank_line(text, line)) break;
    }
  }
  return {};
}

/// The offset of a dotted key with more parts than any key has; the parser would follow it as deep as it goes.
std::optional<std::size_t> overlong_key(std::string_view text) {
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

/// The place of a byte of the text, for a complaint.
Where place_of(const Case& c, std::size_t offset) {
  const std::string_view before = std::string_view(c.text).substr(0, offset);
  const auto line = static_cast<std::uint32_t>(1 + std::count(before.begin(), before.end(), '\n'));
  const std::size_t line_at = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  return {c.file, line, 1 + static_cast<std::uint32_t>(code_points(before.substr(line_at))), 1};
}

bool nothing_in(const Case& c) {
  return c.raceways.empty() && c.cables.empty() && c.boxes.empty() && c.circuits.empty() && c.controls.empty() && !c.supply.where;
}

}  // namespace

std::shared_ptr<const Case> read_case_partly(std::string file, std::string text, Diagnostics& diagnostics) {
  auto c = std::make_shared<Case>();
  c->file = std::move(file);
  const std::size_t before = diagnostics.size();
  if (text.size() > largest_case) {
    diagnostics.add({c->file, 0, 0, 1, fmt::format("the file is larger than {} bytes", largest_case), {}, {}});
    return nullptr;
  }
  if (text.starts_with("\xef\xbb\xbf")) text.erase(0, 3);  // a byte order mark is no column
  c->text = std::move(text);
  CaseReader reader(*c, diagnostics);
  if (const std::size_t zero = c->text.find('\0'); zero != std::string::npos) {
    reader.complain(place_of(*c, zero), "the file has a zero byte in it; it is no text");
    return nullptr;
  }
  if (const auto at = overlong_key(c->text)) {
    reader.complain(place_of(*c, *at), "this key has too many parts");
    return nullptr;
  }
  const toml::table root = parse(*c, reader);
  c->whole = diagnostics.size() == before;
  reader.read(root);
  if (c->whole) link_names(*c, diagnostics);  // with lines left out, names would dangle that do not
  if (diagnostics.size() == before && nothing_in(*c))
    reader.complain({c->file, 1, 1, 1}, "there is nothing in this case to check", "describe a [[circuit]] or a [[control]]");
  return c;
}

std::shared_ptr<const Case> read_case(std::string file, std::string text, Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.size();
  auto c = read_case_partly(std::move(file), std::move(text), diagnostics);
  return diagnostics.size() == before ? c : nullptr;
}

}  // namespace pullproof
