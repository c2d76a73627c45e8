#pragma once
// JSON as all our outputs write it: all of it ASCII. Private to the writers of this folder.
#include <rapidjson/encodings.h>
#include <rapidjson/prettywriter.h>
#include <rapidjson/stringbuffer.h>
#include <rapidjson/writer.h>

#include <algorithm>
#include <cmath>
#include <concepts>
#include <cstdint>
#include <cstring>
#include <string>
#include <string_view>
#include <vector>

#include "core/diagnostic.hpp"
#include "core/report.hpp"
#include "core/working.hpp"

namespace pullproof::report {

/// A verdict as a word without spaces.
inline std::string_view word(Verdict v) {
  switch (v) {
    case Verdict::pass: return "pass";
    case Verdict::fail: return "fail";
    case Verdict::advice: return "advice";
    case Verdict::needs_input: return "needs_input";
    case Verdict::not_covered: return "not_covered";
    case Verdict::not_applicable: return "not_applicable";
  }
  return "";
}

inline std::string_view word(Basis b) { return b == Basis::common_practice ? std::string_view("common_practice") : name(b); }

/// Whether a text goes into JSON as it is: ASCII without control characters, quotes and backslashes. Eight bytes at a
/// time; a byte of `x - ones * n` borrows where one of `x` is below n, a byte of `x ^ ones * c` is zero where it is c.
inline bool is_plain(std::string_view s) {
  constexpr std::uint64_t ones = 0x0101010101010101, high = ones * 0x80;
  const auto below = [](std::uint64_t x, std::uint64_t n) { return (x - ones * n) & ~x; };
  std::uint64_t odd = 0;
  const auto look_at = [&](std::uint64_t x) {
    odd |= below(x, ' ') | (x + ones) | x | below(x ^ ones * '"', 1) | below(x ^ ones * '\\', 1);
  };
  const auto look_from = [&](const char* p) {
    std::uint64_t x;
    std::memcpy(&x, p, sizeof x);
    look_at(x);
  };
  if (s.size() < sizeof odd) {
    std::uint64_t x = ones * ' ';
    for (const char c : s) x = x << 8 | static_cast<unsigned char>(c);
    look_at(x);
  } else {
    std::size_t at = 0;
    for (; at + sizeof odd < s.size(); at += sizeof odd) look_from(s.data() + at);
    look_from(s.data() + s.size() - sizeof odd);  // the last eight, some of them for a second time
  }
  return (odd & high) == 0;
}

/// Writes a text that is known to be plain.
template <class Out>
void put_plain(Out& out, rapidjson::StringBuffer& buffer, std::string_view s) {
  out.RawValue("", 0, rapidjson::kStringType);  // what stands before a text
  char* at = buffer.Push(s.size() + 2);
  *at++ = '"';
  at = std::copy(s.begin(), s.end(), at);
  *at = '"';
}

/// Writes a text. Most are plain, and go as they are: going through every character for its encoding and escapes took
/// most of the time of a report.
template <class Out>
void put_text(Out& out, rapidjson::StringBuffer& buffer, std::string_view s) {
  if (is_plain(s)) return put_plain(out, buffer, s);
  const std::string good = well_formed(s);
  out.String(good.data(), static_cast<rapidjson::SizeType>(good.size()));
}

/// Writes with either of RapidJSON's writers, all of it in ASCII: what is not is escaped.
template <class Out>
class BasicJsonWriter {
 public:
  BasicJsonWriter() : out_(text_) {
    if constexpr (requires { out_.SetIndent(' ', 1); }) out_.SetIndent(' ', 1);
  }

  void key(std::string_view k) { put_text(out_, text_, k); }
  void string(std::string_view s) { put_text(out_, text_, s); }
  void field(std::string_view k, std::string_view value) {
    key(k);
    string(value);
  }
  /// Null where there is nothing to say.
  void optional(std::string_view k, std::string_view value) {
    key(k);
    if (value.empty()) out_.Null();
    else string(value);
  }
  /// Null where it is not finite.
  void number(std::string_view k, double value) {
    key(k);
    if (std::isfinite(value)) out_.Double(value);
    else out_.Null();
  }
  template <std::integral N>
  void integer(std::string_view k, N value) {
    key(k);
    if constexpr (std::is_signed_v<N>) out_.Int64(value);
    else out_.Uint64(value);
  }
  void yes(std::string_view k, bool value) {
    key(k);
    out_.Bool(value);
  }
  void null(std::string_view k) {
    key(k);
    out_.Null();
  }
  template <class Fn>
  void object(Fn members) {
    out_.StartObject();
    members();
    out_.EndObject();
  }
  template <class Fn>
  void object(std::string_view k, Fn members) {
    key(k);
    object(members);
  }
  template <class List, class Fn>
  void list(std::string_view k, const List& items, Fn each) {
    begin_list(k);
    for (const auto& item : items) each(item);
    end_list();
  }
  void list(std::string_view k, const std::vector<std::string_view>& items) {
    list(k, items, [&](std::string_view s) { string(s); });
  }

  /// For what is written piece by piece.
  void begin_object() { out_.StartObject(); }
  void end_object() { out_.EndObject(); }
  void begin_list(std::string_view k) {
    key(k);
    out_.StartArray();
  }
  void end_list() { out_.EndArray(); }
  void line_break() { text_.Put('\n'); }
  /// What was written since the last call.
  std::string take() {
    std::string s(text_.GetString(), text_.GetSize());
    text_.Clear();
    return s;
  }
  /// The whole of an object with a line break at its end.
  std::string finished() {
    line_break();
    return take();
  }

 private:
  rapidjson::StringBuffer text_;
  Out out_;
};

/// Indented by one.
using JsonWriter = BasicJsonWriter<rapidjson::PrettyWriter<rapidjson::StringBuffer, rapidjson::UTF8<>, rapidjson::ASCII<>>>;
/// In one line.
using CompactJsonWriter = BasicJsonWriter<rapidjson::Writer<rapidjson::StringBuffer, rapidjson::UTF8<>, rapidjson::ASCII<>>>;

}  // namespace pullproof::report
