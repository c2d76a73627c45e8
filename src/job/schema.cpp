#include "job/schema.hpp"

#include <fmt/format.h>
#include <rapidjson/prettywriter.h>
#include <rapidjson/stringbuffer.h>

#include <memory>

#include "job/measure.hpp"
#include "job/vocabulary.hpp"

namespace pullproof {
namespace {

constexpr double no_limit = 1e300;

/// A text for a regular expression that stands for itself.
std::string literal(std::string_view text) {
  std::string s;
  for (const char c : text) {
    if (std::string_view(".*+?^$()[]{}|\\/").find(c) != std::string_view::npos) s += '\\';
    s += c;
  }
  return s;
}

std::string either(const std::vector<std::string>& words) { return fmt::format("({})", fmt::join(words, "|")); }

/// Numbers with a unit of the dimension behind each: "5 ft 6 in". What the number is worth the reader judges.
std::string pattern_of(Dimension d) {
  std::vector<std::string> units;
  for (const std::string_view u : units_of(d)) units.push_back(literal(u));
  return fmt::format("^\\s*([-+]?[0-9.][0-9./ -]*{}\\s*)+$", either(units));
}

/// Visits the vocabulary and writes a schema for each table inside its parent's.
class SchemaWriter {
 public:
  explicit SchemaWriter(const TableWords& words) : words_(words) { json_.SetIndent(' ', 1); }

  std::string run() {
    json_.StartObject();
    member("$schema", "https://json-schema.org/draft/2020-12/schema");
    member("title", "A case for pullproof");
    member("description", "An appliance circuit and its control wiring, to be checked before the wire is pulled.");
    body("", *std::make_unique<Case>());
    json_.EndObject();
    return std::string(buffer_.GetString(), buffer_.GetSize()) + "\n";
  }

  // --- the visitor's part ---

  template <class T>
  void field(std::string_view key, Given<T>&, std::string_view meaning, double low = -no_limit, double high = no_limit) {
    start(key);
    std::string range;
    if constexpr (requires(T q) { raw(q); })
      if (high < no_limit) range = range_text(dimension_of<T>(), low, high);
    describe_key(meaning, range);
    value<T>(key, low, high);
    json_.EndObject();
  }
  template <class T>
  void table(std::string_view key, T& one, std::string_view meaning) {
    start(key);
    describe_key(meaning);
    body(below(key), one);
    json_.EndObject();
  }
  template <class T>
  void tables(std::string_view key, std::vector<T>&, std::string_view meaning) {
    list(key, meaning, [&] {
      T one{};
      body(below(key), one);
    });
  }
  template <class T>
  void names(std::string_view key, std::vector<T>&, std::string_view meaning) {
    list(key, meaning, [&] {
      T one{};
      json_.Key("anyOf");
      json_.StartArray();
      json_.StartObject();
      any_text();
      json_.EndObject();
      json_.StartObject();
      body(below(key), one);
      json_.EndObject();
      json_.EndArray();
    });
  }
  void path(std::string_view key, std::vector<Stretch>& members, std::string_view meaning) { names(key, members, meaning); }
  void entries(std::string_view key, std::vector<BoxEntry>& members, std::string_view meaning) { names(key, members, meaning); }
  void texts(std::string_view key, std::vector<Given<std::string_view>>&, std::string_view meaning) {
    list(key, meaning, [&] { any_text(); });
  }

 private:
  void key(std::string_view k) { json_.Key(k.data(), static_cast<rapidjson::SizeType>(k.size())); }
  void text(std::string_view s) { json_.String(s.data(), static_cast<rapidjson::SizeType>(s.size())); }
  void member(std::string_view k, std::string_view s) {
    key(k);
    text(s);
  }
  void start(std::string_view k) {
    key(k);
    json_.StartObject();
  }
  std::string below(std::string_view k) const { return path_.empty() ? std::string(k) : fmt::format("{}.{}", path_, k); }

  void describe_key(std::string_view meaning, std::string_view range = {}) {
    member("description", range.empty() ? std::string(meaning) : fmt::format("{} ({})", meaning, range));
  }

  /// The keys of a table, and none beside them.
  template <class T>
  void body(std::string path, T& one) {
    const std::string outer = std::exchange(path_, std::move(path));
    member("type", "object");
    json_.Key("additionalProperties");
    json_.Bool(false);
    start("properties");
    describe(*this, one);
    json_.EndObject();
    path_ = outer;
  }

  template <class Item>
  void list(std::string_view k, std::string_view meaning, Item item) {
    start(k);
    describe_key(meaning);
    member("type", "array");
    start("items");
    item();
    json_.EndObject();
    json_.EndObject();
  }

  void any_text() {
    member("type", "string");
    json_.Key("minLength");
    json_.Int(1);
  }

  void examples(const std::vector<std::string>& all) {
    if (all.empty()) return;
    json_.Key("examples");
    json_.StartArray();
    for (const std::string& s : all) text(s);
    json_.EndArray();
  }

  template <class T>
  void value(std::string_view k, double low, double high) {
    if constexpr (std::is_same_v<T, std::string_view>) {
      any_text();
      examples(known_words(k));
    } else if constexpr (std::is_same_v<T, bool>) {
      member("type", "boolean");
    } else if constexpr (std::is_same_v<T, double>) {
      number(low, high);
    } else if constexpr (std::is_same_v<T, ConductorSize>) {
      pattern("^([0-9]+(/0)? AWG|[0-9]+ kcmil|[0-9.]+ mm²)$");
      examples({"14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4/0 AWG", "250 kcmil", "2.5 mm²"});
    } else if constexpr (std::is_same_v<T, TradeSize>) {
      pattern("^([0-9]+(-[0-9]+/[0-9]+)?|[0-9]+/[0-9]+|metric [0-9]+)$");
      examples({"1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "metric 35"});
    } else if constexpr (std::is_same_v<T, System>) {
      pattern("V");
      examples({"120/240 V 1-phase 3-wire", "208Y/120 V 3-phase 4-wire", "480Y/277 V 3-phase 4-wire", "240 V 3-phase 3-wire", "24 V dc"});
    } else if constexpr (std::is_same_v<T, SourceVoltage>) {
      pattern("V.*(ac|dc)");
      examples({"24 V ac", "12 V dc"});
    } else if constexpr (std::is_same_v<T, Date>) {
      member("type", "string");
      member("format", "date");
    } else if constexpr (std::is_same_v<T, Place>) {
      std::vector<std::string> all;
      for (const auto& [s, e] : Words<Place::Word>::all) all.push_back(literal(s));
      pattern(fmt::format("^ *{0}( *, *{0})* *$", either(all)));
    } else if constexpr (std::is_enum_v<T>) {
      json_.Key("enum");
      json_.StartArray();
      for (const auto& [s, e] : Words<T>::all) text(s);
      json_.EndArray();
    } else {
      pattern(pattern_of(dimension_of<T>()));
      const std::string_view e = example(dimension_of<T>());
      examples({std::string(e.substr(1, e.find('"', 1) - 1))});
    }
  }

  void pattern(std::string_view p) {
    member("type", "string");
    member("pattern", p);
  }

  /// A count is a whole number; a ratio a number, or a text with or without a percent sign.
  void number(double low, double high) {
    const bool count = is_count(low, high);
    if (count) {
      member("type", "integer");
    } else {
      json_.Key("type");
      json_.StartArray();
      text("number");
      text("string");
      json_.EndArray();
      member("pattern", "^[0-9.]+ ?%?$");
    }
    if (high >= no_limit) return;
    json_.Key("minimum");
    count ? json_.Int64(static_cast<std::int64_t>(low)) : json_.Double(low);
    json_.Key("maximum");
    count ? json_.Int64(static_cast<std::int64_t>(high)) : json_.Double(high);
  }

  /// What the tables know at a key that takes any text.
  std::vector<std::string> known_words(std::string_view k) const {
    constexpr std::tuple<std::string_view, std::string_view, std::string_view> tables[] = {
        {"raceway", "type", "raceway-types"},      {"cable", "type", "cable-types"},         {"cable", "insulation", "insulation"},
        {"circuit.wire", "type", "insulation"},    {"circuit.load", "appliance", "appliances"}, {"control.cable", "type", "cable-types-control"},
        {"circuit.ground", "type", "insulation"},  {"control.bus", "kind", "buses"},          {"control.load", "device", "control-devices"}};
    for (const auto& [table, field_key, source] : tables)
      if (table == path_ && field_key == k) return words_(source);
    return {};
  }

  const TableWords& words_;
  std::string path_;
  rapidjson::StringBuffer buffer_;
  rapidjson::PrettyWriter<rapidjson::StringBuffer> json_{buffer_};
};

}  // namespace

std::string case_schema(const TableWords& words) { return SchemaWriter(words).run(); }

}  // namespace pullproof
