#include "job/read.hpp"

#include "job/link.hpp"
#include "job/syntax.hpp"
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
    else complain(where(node->source()), fmt::format("'{}' is a table, not {}", key, type_name(*node)), fmt::format("write [{}] or {} = {{ ... }}", key, key));
  }

  template <class T>
  void tables(std::string_view key, std::vector<T>& into, std::string_view /*meaning*/) {
    each(key, fmt::format("write [[{}]]", key), [&](const toml::node& n) {
      if (const toml::table* t = n.as_table()) return read_table(*t, into.emplace_back());
      complain(where(n.source()), fmt::format("each '{}' is a table, not {}", key, type_name(n)), fmt::format("write [[{}]]", key));
      case_.whole = false;
    });
  }

  void path(std::string_view key, std::vector<Stretch>& into, std::string_view meaning) { names(key, into, meaning); }
  void entries(std::string_view key, std::vector<BoxEntry>& into, std::string_view meaning) { names(key, into, meaning); }

  /// Items that are a name, or a table with the name under `in` and more.
  template <class T>
  void names(std::string_view key, std::vector<T>& into, std::string_view /*meaning*/) {
    each(key, fmt::format("write {} = [\"...\"]", key), [&](const toml::node& n) {
      T& item = into.emplace_back();
      if (const toml::table* t = n.as_table()) return read_table(*t, item);
      item.where = item.in.where = where(n.source());
      if (n.is_string()) item.in.present = value(n, key, item.in, no_low, no_high);
      else complain(item.where, fmt::format("an item of '{}' is a name or a table, not {}", key, type_name(n)));
    });
  }

  void texts(std::string_view key, std::vector<Given<std::string_view>>& into, std::string_view /*meaning*/) {
    each(key, fmt::format("write {} = [\"...\"]", key), [&](const toml::node& n) {
      Given<std::string_view>& g = into.emplace_back();
      g.where = where(n.source());
      if (n.is_string()) g.present = value(n, key, g, no_low, no_high);
      else complain(g.where, fmt::format("an item of '{}' is a text, not {}", key, type_name(n)));
    });
  }

 private:
  template <class Fn>
  void each(std::string_view key, std::string note, Fn fn) {
    known_.push_back(key);
    const toml::node* node = table_->get(key);
    if (node == nullptr) return;
    const toml::array* a = node->as_array();
    constexpr std::size_t most = 2000;
    if (a != nullptr && a->size() <= most) {
      for (const toml::node& n : *a) fn(n);
      return;
    }
    case_.whole = false;
    if (a == nullptr) complain(where(node->source()), fmt::format("'{}' is a list, not {}", key, type_name(*node)), std::move(note));
    else complain(where(node->source()), fmt::format("'{}' has more than {} items", key, most));
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
  const toml::table root = parse_leniently(c->text, c->file, [&](const toml::source_region& at, std::string message, std::string note) {
    reader.complain(reader.where(at), std::move(message), std::move(note));
  });
  c->whole = diagnostics.size() == before;
  reader.read(root);  // and no longer whole when a list turns out to be none
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
