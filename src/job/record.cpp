#include "job/record.hpp"

#include <fmt/format.h>
#include <rapidjson/document.h>
#include <rapidjson/error/en.h>

#include <limits>

namespace pullproof {
namespace {

// Deep nesting must not use up the stack, and every text must be valid UTF-8.
constexpr unsigned careful = rapidjson::kParseIterativeFlag | rapidjson::kParseValidateEncodingFlag;

std::string_view kind(const rapidjson::Value& v) {
  switch (v.GetType()) {
    case rapidjson::kNullType: return "null";
    case rapidjson::kFalseType:
    case rapidjson::kTrueType: return "true or false";
    case rapidjson::kObjectType: return "an object";
    case rapidjson::kArrayType: return "an array";
    case rapidjson::kStringType: return "a text";
    case rapidjson::kNumberType: return "a number";
  }
  return "something else";
}

std::string text_of(const rapidjson::Value& v) { return {v.GetString(), v.GetStringLength()}; }

}  // namespace

CaseRecord read_record(std::string_view line, std::size_t number, std::string_view stream, Diagnostics& diagnostics) {
  CaseRecord record;
  record.name = fmt::format("line {}", number);
  constexpr std::size_t most = std::numeric_limits<std::uint32_t>::max();
  const auto complain = [&](std::size_t column, std::string message, std::string note = {}) {
    diagnostics.add({std::string(stream), static_cast<std::uint32_t>(std::min(number, most)), static_cast<std::uint32_t>(column), 1,
                     std::move(message), std::move(note), {}});
  };
  constexpr std::string_view wanted = "write {\"case\": \"...\"}, with the TOML of the case as a JSON text";
  if (line.find_first_not_of(" \t\r") == line.npos) {
    complain(1, "the line is empty", std::string(wanted));
    return record;
  }
  rapidjson::Document d;
  d.Parse<careful>(line.data(), line.size());
  if (d.HasParseError()) {
    complain(d.GetErrorOffset() + 1, fmt::format("this is no JSON: {}", rapidjson::GetParseError_En(d.GetParseError())), std::string(wanted));
  } else if (d.IsString()) {
    record.text = text_of(d);
  } else if (!d.IsObject()) {
    complain(1, fmt::format("a case is a text or an object, not {}", kind(d)), std::string(wanted));
  } else {
    bool has_case = false;
    // By index: the iterators compare ambiguously in C++20, which clang refuses.
    for (std::size_t i = 0; i < d.MemberCount(); ++i) {
      const auto& member = *(d.MemberBegin() + static_cast<std::ptrdiff_t>(i));
      const rapidjson::Value& value = member.value;
      const std::string name = text_of(member.name);
      if (name != "case" && name != "name") complain(1, fmt::format("'{}' is not known here", name), "a line has \"case\" and may have \"name\"");
      else if (!value.IsString()) complain(1, fmt::format("'{}' is a text, not {}", name, kind(value)));
      else if (name == "name") record.name = text_of(value);
      else record.text = text_of(value);
      has_case = has_case || name == "case";
    }
    if (!has_case) complain(1, "\"case\" is missing", std::string(wanted));
  }
  return record;
}

}  // namespace pullproof
