#include "job/key-list.hpp"

#include <fmt/format.h>

#include "job/measure.hpp"
#include "job/vocabulary.hpp"

namespace pullproof {
namespace {

constexpr double no_limit = 1e300;

template <class T>
std::string value_text(double low, double high) {
  if constexpr (std::is_same_v<T, std::string_view>) return "a text";
  else if constexpr (std::is_same_v<T, bool>) return "true or false";
  else if constexpr (std::is_same_v<T, double>) return is_count(low, high) ? "a whole number" : std::string("a number, or a percentage such as \"85 %\"");
  else if constexpr (std::is_same_v<T, ConductorSize>) return "\"12 AWG\", \"4/0 AWG\", \"250 kcmil\" or \"2.5 mm²\"";
  else if constexpr (std::is_same_v<T, TradeSize>) return "\"1/2\", \"1-1/4\" or \"metric 35\"";
  else if constexpr (std::is_same_v<T, System>) return "\"120/240 V 1-phase 3-wire\", \"208Y/120 V 3-phase 4-wire\" ...";
  else if constexpr (std::is_same_v<T, SourceVoltage>) return "\"24 V ac\" or \"12 V dc\"";
  else if constexpr (std::is_same_v<T, Date>) return "a date without quotes: 2026-11-25";
  else if constexpr (std::is_same_v<T, Place> || std::is_enum_v<T>) {
    using E = std::conditional_t<std::is_same_v<T, Place>, Place::Word, T>;
    std::string s;
    for (const auto& [text, e] : Words<E>::all) s += fmt::format("{}{}", s.empty() ? "" : ", ", text);
    return (std::is_same_v<T, Place> ? "words separated by commas: " : "one of: ") + s;
  } else return std::string(example(dimension_of<T>()));
}

/// Visits the vocabulary and writes it down.
class Lister {
 public:
  std::vector<KeyTable> run() {
    enter("", "at the top of the file", "", *std::make_unique<Case>());
    return std::move(tables_);
  }

  template <class T>
  void field(std::string_view key, Given<T>&, std::string_view meaning, double low = -no_limit, double high = no_limit) {
    std::string range;
    if constexpr (requires(T q) { raw(q); })
      if (high < no_limit) range = range_text(dimension_of<T>(), low, high);
    add(key, value_text<T>(low, high), meaning, std::move(range));
  }
  template <class T>
  void table(std::string_view key, T& member, std::string_view meaning) {
    const bool top = tables_[current_].name.empty();
    below(key, top ? fmt::format("[{}]", key) : fmt::format("{} = {{ ... }} in {}", key, tables_[current_].header), meaning, member);
  }
  template <class T>
  void tables(std::string_view key, std::vector<T>&, std::string_view meaning) {
    T one{};
    const bool top = tables_[current_].name.empty();
    below(key, top ? fmt::format("[[{}]]", key) : fmt::format("{} = [{{ ... }}] in {}", key, tables_[current_].header), meaning, one);
  }
  template <class T>
  void names(std::string_view key, std::vector<T>&, std::string_view meaning) {
    add(key, "a list of names; an item with more to say is a table", meaning, {});
    T one{};
    below(key, fmt::format("{} = [{{ ... }}] in {}", key, tables_[current_].header), "an item that has more to say than its name", one);
  }
  void path(std::string_view key, std::vector<Stretch>& members, std::string_view meaning) { names(key, members, meaning); }
  template <class T>
  void entries(std::string_view key, std::vector<T>& members, std::string_view meaning) { names(key, members, meaning); }
  void texts(std::string_view key, std::vector<Given<std::string_view>>&, std::string_view meaning) {
    add(key, "a list of texts", meaning, {});
  }

 private:
  void add(std::string_view key, std::string value, std::string_view meaning, std::string range) {
    KeyTable& t = tables_[current_];
    t.keys.push_back({t.name, std::string(key), std::move(value), std::string(meaning), std::move(range)});
  }
  template <class T>
  void below(std::string_view key, std::string header, std::string_view meaning, T& member) {
    const std::string& name = tables_[current_].name;
    enter(name.empty() ? std::string(key) : fmt::format("{}.{}", name, key), std::move(header), meaning, member);
  }
  template <class T>
  void enter(std::string name, std::string header, std::string_view meaning, T& member) {
    const std::size_t outer = current_;
    tables_.push_back({std::move(name), std::move(header), std::string(meaning), {}});
    current_ = tables_.size() - 1;
    describe(*this, member);
    current_ = outer;
  }
  std::vector<KeyTable> tables_;
  std::size_t current_ = 0;
};

}  // namespace

std::vector<KeyTable> key_tables() { return Lister().run(); }

}  // namespace pullproof
