#pragma once
// JSON as all our outputs write it: indented by one, all of it ASCII. Private to the writers of this folder.
#include <rapidjson/encodings.h>
#include <rapidjson/prettywriter.h>
#include <rapidjson/stringbuffer.h>

#include <cmath>
#include <string>
#include <string_view>
#include <vector>

#include "core/diagnostic.hpp"
#include "core/report.hpp"

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

class JsonWriter {
 public:
  JsonWriter() : out_(text_) { out_.SetIndent(' ', 1); }

  void key(std::string_view k) { out_.Key(k.data(), static_cast<rapidjson::SizeType>(k.size())); }
  void string(std::string_view s) {
    const std::string good = well_formed(s);
    out_.String(good.data(), static_cast<rapidjson::SizeType>(good.size()));
  }
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
  void number(std::string_view k, double value) {
    key(k);
    if (std::isfinite(value)) out_.Double(value);
    else out_.Null();
  }
  void integer(std::string_view k, int value) {
    key(k);
    out_.Int(value);
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
  template <class List, class Fn>
  void list(std::string_view k, const List& items, Fn each) {
    key(k);
    out_.StartArray();
    for (const auto& item : items) each(item);
    out_.EndArray();
  }
  std::string take() {
    text_.Put('\n');
    std::string s(text_.GetString(), text_.GetSize());
    text_.Clear();
    return s;
  }

 private:
  rapidjson::StringBuffer text_;
  rapidjson::PrettyWriter<rapidjson::StringBuffer, rapidjson::UTF8<>, rapidjson::ASCII<>> out_;
};

}  // namespace pullproof::report
