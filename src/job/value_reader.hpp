#pragma once
// Reading single values of a case. Private to read.cpp, the one file of this folder that sees toml++.
#include <fmt/format.h>
#include <toml++/toml.h>

#include <cmath>

#include "core/diagnostic.hpp"
#include "job/measure.hpp"
#include "job/vocabulary.hpp"

namespace pullproof {

inline constexpr double no_low = -1e300, no_high = 1e300;

/// Lines of a text, for the caret.
inline std::vector<std::string_view> lines_of(std::string_view text) {
  std::vector<std::string_view> lines;
  while (true) {
    const auto end = text.find('\n');
    std::string_view line = text.substr(0, end);
    if (line.ends_with('\r')) line.remove_suffix(1);
    lines.push_back(line);
    if (end == std::string_view::npos) return lines;
    text.remove_prefix(end + 1);
  }
}

inline std::size_t code_points(std::string_view s) {
  std::size_t n = 0;
  for (const char c : s) n += (static_cast<unsigned char>(c) & 0xc0u) != 0x80u ? 1u : 0u;
  return n;
}

/// The byte offset of the code point column (from 1) in a line.
inline std::size_t byte_of_column(std::string_view line, std::uint32_t column) {
  std::size_t at = 0;
  for (std::uint32_t n = 1; n < column && at < line.size(); ++n) {
    ++at;
    while (at < line.size() && (static_cast<unsigned char>(line[at]) & 0xc0u) == 0x80u) ++at;
  }
  return at;
}

/// Turns nodes into values of the case's types, and complains of what is none.
class ValueReader {
 public:
  ValueReader(Case& c, Diagnostics& diagnostics)
      : case_(c), diagnostics_(diagnostics), lines_(lines_of(c.text)), file_(c.texts.keep(c.file)) {}

  void complain(const Where& w, std::string message, std::string note = {}) {
    if (diagnostics_.full()) return diagnostics_.add({});  // counted alone
    std::string line = w.line >= 1 && w.line <= lines_.size() ? std::string(lines_[w.line - 1]) : std::string{};
    diagnostics_.add({case_.file, w.line, w.column, std::max<std::uint32_t>(1, w.length), std::move(message),
                      std::move(note), std::move(line)});
  }

  Where where(const toml::source_region& region) const {
    const bool one_line = region.begin.line == region.end.line && region.end.column > region.begin.column;
    return {file_, region.begin.line, region.begin.column, one_line ? region.end.column - region.begin.column : 1};
  }

 protected:
  /// The complaint's span inside a quoted text: bytes `at`..`at + size` of its value.
  Where inside(const Where& w, std::string_view text, std::size_t at, std::size_t size) const {
    if (w.line == 0 || w.line > lines_.size()) return w;
    const std::string_view line = lines_[w.line - 1];
    const std::size_t begin = byte_of_column(line, w.column) + 1;
    if (begin > line.size() || !line.substr(begin).starts_with(text)) return w;  // escapes or several lines
    return {w.file, w.line, w.column + 1 + static_cast<std::uint32_t>(code_points(text.substr(0, at))),
            static_cast<std::uint32_t>(std::max<std::size_t>(1, code_points(text.substr(at, size))))};
  }

  /// The text of a node, kept for good. Complains of other types and of what could drive a terminal.
  std::optional<std::string_view> text_of(const toml::node& node, std::string_view key, std::string_view wanted,
                                          std::string_view example = {}) {
    const auto* s = node.as_string();
    if (s == nullptr) {
      complain(where(node.source()), fmt::format("'{}' is {}, not {}", key, wanted, type_name(node)),
               example.empty() ? std::string{} : fmt::format("write {}", example));
      return std::nullopt;
    }
    if (s->get().find('\t') != std::string::npos || printable(s->get()) != s->get()) {
      complain(where(node.source()), fmt::format("'{}' has a control character in it", key));
      return std::nullopt;
    }
    if (s->get().empty()) {
      complain(where(node.source()), fmt::format("'{}' is empty", key), "leave the key out when it is not known");
      return std::nullopt;
    }
    return case_.texts.keep(s->get());
  }

  static std::string_view type_name(const toml::node& node) {
    switch (node.type()) {
      case toml::node_type::table: return "a table";
      case toml::node_type::array: return "a list";
      case toml::node_type::string: return "a text";
      case toml::node_type::integer:
      case toml::node_type::floating_point: return "a number";
      case toml::node_type::boolean: return "true or false";
      case toml::node_type::date: return "a date";
      case toml::node_type::time: return "a time";
      case toml::node_type::date_time: return "a date with a time";
      default: return "something else";
    }
  }

  bool in_range(const Where& w, std::string_view key, double v, double low, double high) {
    if (v >= low && v <= high) return true;
    complain(w, fmt::format("'{}' is out of range", key));
    return false;
  }

  // One overload for each kind of value. Each complains on its own and says whether the value is good.

  bool value(const toml::node& node, std::string_view key, Given<std::string_view>& into, double, double) {
    const auto s = text_of(node, key, "a text");
    if (!s) return false;
    constexpr std::size_t most = 500;
    if (code_points(*s) > most) {
      complain(into.where, fmt::format("'{}' is longer than {} characters", key, most));
      return false;
    }
    into.value = into.text = *s;
    return true;
  }

  bool value(const toml::node& node, std::string_view key, Given<bool>& into, double, double) {
    const auto* b = node.as_boolean();
    if (b == nullptr) {
      complain(into.where, fmt::format("'{}' is true or false, not {}", key, type_name(node)));
      return false;
    }
    into.value = b->get();
    into.text = into.value ? "true" : "false";
    return true;
  }

  /// A count or a ratio.
  bool value(const toml::node& node, std::string_view key, Given<double>& into, double low, double high) {
    const bool count = is_count(low, high);
    if (const auto* i = node.as_integer()) into.value = static_cast<double>(i->get());
    else if (const auto* f = node.as_floating_point()) into.value = f->get();
    else if (!count && node.is_string()) {
      const auto s = text_of(node, key, "a ratio");
      if (!s) return false;
      const Measured m = read_quantity(*s, Dimension::ratio);
      if (!m.ok) {
        complain(inside(into.where, *s, m.at, m.size), m.error, m.note);
        return false;
      }
      into.value = m.si;
      into.text = *s;
    } else {
      complain(into.where, fmt::format("'{}' is a number, not {}", key, type_name(node)));
      return false;
    }
    if (!std::isfinite(into.value)) {
      complain(into.where, fmt::format("'{}' is not a finite number", key));
      return false;
    }
    if (count && into.value != std::floor(into.value)) {
      complain(into.where, fmt::format("'{}' is a whole number", key));
      return false;
    }
    if (into.value < low || into.value > high) {
      complain(into.where, fmt::format("'{}' is out of range", key), range_text(Dimension::ratio, low, high));
      return false;
    }
    if (into.text.empty()) into.text = case_.texts.keep(number_text(into.value, 6));
    return true;
  }

  template <class Q>
    requires requires(Q q) { raw(q); }
  bool value(const toml::node& node, std::string_view key, Given<Q>& into, double low, double high) {
    constexpr Dimension d = dimension_of<Q>();
    const auto s = text_of(node, key, name(d), example(d));
    if (!s) return false;
    const Measured m = read_quantity(*s, d);
    if (!m.ok) {
      complain(inside(into.where, *s, m.at, m.size), m.error, m.note);
      return false;
    }
    if (m.si < low * (low < 0 ? 1 + slack : 1 - slack) || m.si > high * (1 + slack)) {
      complain(into.where, fmt::format("'{}' is out of range", key), range_text(d, low, high));
      return false;
    }
    into.value = from_raw<Q>(m.si);
    into.text = *s;
    return true;
  }

  bool value(const toml::node& node, std::string_view key, Given<ConductorSize>& into, double, double) {
    const auto s = text_of(node, key, "a conductor size", "\"12 AWG\"");
    if (!s) return false;
    const auto size = ConductorSize::parse(*s);
    if (!size) {
      complain(into.where, fmt::format("{} is no conductor size", quoted(*s)),
               "write \"12 AWG\", \"4/0 AWG\", \"250 kcmil\" or \"2.5 mm²\"");
      return false;
    }
    into.value = *size;
    into.text = *s;
    return true;
  }

  bool value(const toml::node& node, std::string_view key, Given<TradeSize>& into, double, double) {
    const auto s = text_of(node, key, "a trade size", "\"1/2\"");
    if (!s) return false;
    const auto size = TradeSize::parse(*s);
    if (!size) {
      complain(into.where, fmt::format("{} is no trade size", quoted(*s)), "write \"1/2\", \"1-1/4\" or \"metric 35\"");
      return false;
    }
    into.value = *size;
    into.text = *s;
    return true;
  }

  template <class E>
    requires std::is_enum_v<E>
  bool value(const toml::node& node, std::string_view key, Given<E>& into, double, double) {
    const auto s = text_of(node, key, "a word");
    if (!s) return false;
    std::vector<std::string_view> words;
    for (const auto& [text, e] : Words<E>::all) {
      words.push_back(text);
      if (text == *s) {
        into.value = e;
        into.text = *s;
        return true;
      }
    }
    complain(into.where, fmt::format("{} is not known as '{}'", quoted(*s), key), fmt::format("one of: {}", fmt::join(words, ", ")));
    return false;
  }

  bool value(const toml::node& node, std::string_view key, Given<Place>& into, double, double) {
    const auto s = text_of(node, key, "a place");
    if (!s) return false;
    into.text = *s;
    std::size_t at = 0;
    bool good = true;
    while (at <= s->size()) {
      const std::size_t end = std::min(s->find(',', at), s->size());
      std::string_view w = s->substr(at, end - at);
      const std::size_t lead = std::min(w.find_first_not_of(' '), w.size());
      w.remove_prefix(lead);
      while (w.ends_with(' ')) w.remove_suffix(1);
      good = add_place_word(into, key, *s, at + lead, w) && good;
      at = end + 1;
    }
    const auto several = [&](std::uint64_t mask) { return (into.value.words & mask & ((into.value.words & mask) - 1)) != 0; };
    if (good && several(Place::dry | Place::damp | Place::wet)) {
      complain(into.where, "a place is one of dry, damp and wet");
      return false;
    }
    if (good && several(Place::indoors | Place::outdoors | Place::underground)) {
      complain(into.where, "a place is one of indoors, outdoors and underground");
      return false;
    }
    return good;
  }

  bool add_place_word(Given<Place>& into, std::string_view key, std::string_view all, std::size_t at, std::string_view w) {
    std::vector<std::string_view> words;
    for (const auto& [text, bit] : Words<Place::Word>::all) {
      words.push_back(text);
      if (text != w) continue;
      into.value.words |= bit;
      return true;
    }
    const std::string_view near = nearest(w, words);
    complain(inside(into.where, all, at, w.size()), fmt::format("{} is not known as a '{}'", quoted(w), key),
             near.empty() ? fmt::format("words for it: {}", fmt::join(words, ", ")) : fmt::format("did you mean '{}'?", near));
    return false;
  }

  bool value(const toml::node& node, std::string_view key, Given<System>& into, double, double) {
    const auto s = text_of(node, key, "a supply system", "\"120/240 V 1-phase 3-wire\"");
    if (!s) return false;
    const MeasuredSystem m = read_system(*s);
    if (!m.ok) {
      complain(into.where, fmt::format("{} is no supply system", quoted(*s)),
               "write \"120/240 V 1-phase 3-wire\", \"208Y/120 V 3-phase 4-wire\", \"480 V 3-phase 3-wire\" or \"24 V dc\"");
      return false;
    }
    if (raw(m.system.line_to_line) > 1000) {
      complain(into.where, "over 1000 V is outside of what this program covers");
      return false;
    }
    into.value = m.system;
    into.text = *s;
    return true;
  }

  bool value(const toml::node& node, std::string_view key, Given<SourceVoltage>& into, double, double) {
    const auto s = text_of(node, key, "a voltage", "\"24 V ac\" or \"12 V dc\"");
    if (!s) return false;
    const MeasuredVoltage m = read_source_voltage(*s);
    if (!m.measured.ok) {
      complain(inside(into.where, *s, m.measured.at, m.measured.size), m.measured.error, "write \"24 V ac\" or \"12 V dc\"");
      return false;
    }
    if (!m.kind_given) {
      complain(into.where, fmt::format("'{}' does not say whether it is ac or dc", key), "write \"24 V ac\" or \"12 V dc\"");
      return false;
    }
    if (!(m.measured.si >= 0.1 && m.measured.si <= 1000)) {
      complain(into.where, fmt::format("'{}' is out of range", key), "from 0.1 V through 1000 V");
      return false;
    }
    into.value = m.voltage;
    into.text = *s;
    return true;
  }

  bool value(const toml::node& node, std::string_view key, Given<Date>& into, double, double) {
    const auto* d = node.as_date();
    if (d == nullptr) {
      complain(into.where, fmt::format("'{}' is a date, not {}", key, type_name(node)), "write it without quotes: 2026-11-25");
      return false;
    }
    into.value = {d->get().year, d->get().month, d->get().day};
    into.text = case_.texts.format("{:04}-{:02}-{:02}", into.value.year, into.value.month, into.value.day);
    return true;
  }

  Case& case_;
  Diagnostics& diagnostics_;
  std::vector<std::string_view> lines_;
  std::string_view file_;
};

}  // namespace pullproof
