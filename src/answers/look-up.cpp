#include "answers/look-up.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <iterator>
#include <optional>

#include "code/cells.hpp"
#include "core/size.hpp"
#include "core/text.hpp"
#include "job/measure.hpp"

namespace pullproof::answers {
namespace {

using code::CellRef;
using code::TableRef;
using Words = std::vector<std::string>;

template <class T, class U>
bool has(const T& all, const U& one) { return std::find(std::begin(all), std::end(all), one) != std::end(all); }

std::string lower(std::string_view s) {
  std::string out(s);
  for (char& c : out) c = c == '_' ? '-' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return out;
}

/// The pieces of a column's name: "z-cu-pvc" is "z", "cu", "pvc".
std::vector<std::string_view> pieces(std::string_view name) {
  std::vector<std::string_view> out;
  while (!name.empty()) {
    const std::size_t end = std::min(name.find('-'), name.size());
    out.push_back(name.substr(0, end));
    name.remove_prefix(std::min(end + 1, name.size()));
  }
  return out;
}

std::optional<double> number_in(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  return error == std::errc{} && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

/// A conductor size as people write it: "6", "#6", "4/0", "250".
std::optional<ConductorSize> conductor(std::string_view text) {
  while (text.starts_with('#') || text.starts_with(' ')) text.remove_prefix(1);
  if (const auto size = ConductorSize::parse(text)) return size;
  for (const char* unit : {" AWG", " kcmil"})
    if (const auto size = ConductorSize::parse(std::string(text) + unit)) return size;
  return std::nullopt;
}

// ---- Columns that are alike but for one thing, which stands in their names. ----

/// A thing that tells columns apart: how it is asked for, and what stands for it in names.
struct Kind {
  std::string_view name;
  /// The value that a column is for, as people say it; empty when it is for none in particular.
  std::string (*of)(const TableRef& table, std::string_view column);
};

bool has_piece(const TableRef& t, std::initializer_list<std::string_view> wanted) {
  for (std::size_t c = t.keys(); c < t.columns(); ++c)
    for (const std::string_view p : pieces(t.column_name(c)))
      if (has(wanted, p)) return true;
  return false;
}

std::string material_of(const TableRef& t, std::string_view column) {
  const bool short_names = has_piece(t, {"cu", "al"});
  for (const std::string_view p : pieces(column)) {
    if (p == (short_names ? "cu" : "copper")) return "copper";
    if (p == (short_names ? "al" : "aluminum")) return "aluminum";
  }
  return {};
}

std::string after(std::string_view column, std::initializer_list<std::string_view> heads) {
  const auto all = pieces(column);
  for (std::size_t i = 0; i + 1 < all.size(); ++i)
    if (has(heads, all[i]) && number_in(all[i + 1])) return std::string(all[i + 1]);
  return {};
}
std::string temperature_of(const TableRef&, std::string_view column) { return after(column, {"cu", "al", "f", "d", "e", "amps"}); }
std::string voltage_of(const TableRef&, std::string_view column) { return after(column, {"v", "synchronous"}); }
std::string fill_of(const TableRef&, std::string_view column) { return after(column, {"fill"}); }

/// What conductors run in, where columns differ by it as well as by the conductor's metal.
std::string raceway_of(const TableRef& t, std::string_view column) {
  constexpr std::string_view words[] = {"pvc", "aluminum", "steel", "nonmagnetic"};
  const auto all = pieces(column);
  return has_piece(t, {"cu"}) && all.size() > 1 && has(words, all.back()) ? std::string(all.back()) : std::string{};
}

constexpr Kind temperature_kind{"temperature", temperature_of};
constexpr Kind kinds[] = {{"material", material_of}, temperature_kind, {"voltage", voltage_of}, {"raceway", raceway_of}, {"fill", fill_of}};

Words values_of(const Kind& kind, const TableRef& t) {
  Words out;
  for (std::size_t c = t.keys(); c < t.columns(); ++c)
    if (std::string v = kind.of(t, t.column_name(c)); !v.empty() && !has(out, v)) out.push_back(std::move(v));
  return out;
}

/// "75 °C" and "75" are the same, and so are "AL" and "aluminum".
bool same_value(std::string_view value, std::string_view asked) {
  const std::string a = lower(asked);
  if (a == value) return true;
  if (number_in(value)) return a.starts_with(value) && (a.size() == value.size() || !std::isdigit(static_cast<unsigned char>(a[value.size()])));
  return (value == "copper" && a == "cu") || (value == "aluminum" && (a == "al" || a == "aluminium"));
}

// ---- Bands: "over ... through ...", "from ... to ...". ----

/// Columns between which a value is looked for; without a lower one, the first row whose upper one reaches it.
struct Band {
  std::optional<std::size_t> low;
  std::size_t high = 0;
};

std::vector<Band> bands_of(const TableRef& t) {
  std::vector<Band> out;
  constexpr std::pair<std::string_view, std::string_view> ends[] = {{"lowest", "highest"}, {"from", "through"}, {"over", "through"}, {"from", "to"}};
  for (const auto& [low, high] : ends)
    if (t.has_column(low) && t.has_column(high)) out.push_back({t.column(low), t.column(high)});
  if (!out.empty()) return out;
  for (std::size_t c = 0; c < t.columns(); ++c)
    if (t.column_name(c).starts_with("through") && t.keys() == 0) out.push_back({std::nullopt, c});
  return out;
}

/// What a band is asked by: by its unit, and by what its name says beside "through".
Words words_for(const TableRef& t, const Band& band) {
  const std::string_view unit = t.column_unit(band.high);
  if (unit == "°C" || unit == "°F") return values_of(temperature_kind, t).empty() ? Words{"temperature", "ambient"} : Words{"ambient"};
  if (unit == "A") return {"rating", "current", "amperes"};
  if (unit == "V") return {"voltage"};
  if (unit == "VA" || unit == "kVA") return {"load", "power"};
  if (unit == "cmil") return {"size"};
  return {"count", "number"};
}

/// A value as the band's column has it, or what is wrong with it.
struct Value {
  std::optional<double> number;
  std::string error;
};

Value value_for(const TableRef& t, const Band& band, const std::string& text) {
  const std::string_view unit = t.column_unit(band.high);
  const auto read = [&](Dimension d, double to_unit) -> Value {
    const Measured m = read_quantity(text, d);
    if (m.ok) return {m.si * to_unit, {}};
    return {std::nullopt, m.error + (m.note.empty() ? "" : ": " + m.note)};
  };
  if (unit == "°C") return read(Dimension::temperature, 1);
  if (unit == "°F") {
    Value v = read(Dimension::temperature, 1);
    if (v.number) *v.number = *v.number * 9 / 5 + 32;
    return v;
  }
  if (unit == "cmil") {
    if (const auto size = conductor(text)) return {size->circular_mils(), {}};
    return {std::nullopt, fmt::format("'{}' is no conductor size", text)};
  }
  if (const auto plain = number_in(text)) return {plain, {}};
  if (unit == "A") return read(Dimension::current, 1);
  if (unit == "V") return read(Dimension::voltage, 1);
  if (unit == "VA") return read(Dimension::power, 1);
  if (unit == "kVA") return read(Dimension::power, 1e-3);
  return {std::nullopt, fmt::format("'{}' is no number", text)};
}

// ---- Cells. ----

bool matches(const TableRef& t, std::size_t row, std::size_t column, const std::string& asked) {
  const CellRef cell = t.cell(row, column);
  const std::string text = code::cell_text(cell);
  if (lower(text) == lower(asked)) return true;
  if (const auto n = cell.number()) {
    const std::string a = lower(asked), unit = lower(t.column_unit(column));
    std::string_view bare = a;
    if (!unit.empty() && bare.ends_with(unit)) bare.remove_suffix(unit.size());
    while (bare.ends_with(' ')) bare.remove_suffix(1);
    const auto wanted = number_in(bare);
    return wanted && std::abs(*wanted - *n) <= 1e-9 * std::abs(*n);
  }
  if (const auto own = ConductorSize::parse(text)) {
    const auto wanted = conductor(asked);
    return wanted && *wanted == *own;
  }
  const auto own = TradeSize::parse(text), wanted = TradeSize::parse(asked);
  return own && wanted && *own == *wanted;
}

/// Conductors' dimensions stand by groups of insulation types.
std::string group_of(const code::Edition& edition, const std::string& type) {
  const auto t = edition.table("insulation");
  if (!t) return {};
  for (std::size_t r = 0; r < t->rows(); ++r)
    if (lower(t->cell(r, std::size_t{0}).text()) == lower(type)) return std::string(t->cell(r, "dimensions").text());
  return {};
}

class Search {
 public:
  Search(const code::Edition& edition, const TableRef& table) : edition_(edition), table_(table) {
    for (std::size_t r = 0; r < table.rows(); ++r) out_.rows.push_back(r);
    for (std::size_t c = table.keys(); c < table.columns(); ++c) out_.columns.push_back(c);
  }

  LookedUp run(std::span<const Asked> asked) {
    all_ = asked;
    for (const Asked& a : asked) {
      if (!answer(a)) {
        out_.rows.clear();
        return std::move(out_);
      }
    }
    return std::move(out_);
  }

 private:
  bool answer(const Asked& a) {
    const std::string name = lower(a.name);
    for (std::size_t c = 0; c < table_.columns(); ++c)
      if (table_.column_name(c) == name) return table_.keys() == 0 && name.starts_with("through") ? in_band({std::nullopt, c}, a) : in_column(c, a);
    const auto bands = bands_of(table_);
    std::vector<Band> meant;
    for (const Band& b : bands)
      if (has(words_for(table_, b), name)) meant.push_back(b);
    if (!meant.empty()) return in_band(chosen(meant, a), a);
    for (const Kind& kind : kinds)
      if (kind.name == name && !values_of(kind, table_).empty()) return columns_for(kind, a);
    if (name == "type" && table_.has_column("group")) {
      const std::string group = group_of(edition_, a.value);
      return in_column(table_.column("group"), {a.name, group.empty() ? a.value : group});
    }
    const Words known = asked_by(table_);
    std::vector<std::string_view> views(known.begin(), known.end());
    for (std::size_t c = 0; c < table_.columns(); ++c) views.push_back(table_.column_name(c));
    const std::string_view near = nearest(name, views);
    return fail(fmt::format("the table '{}' has no '{}' to look up", table_.name(), a.name),
                fmt::format("{}it is asked by --{}", near.empty() ? std::string{} : fmt::format("did you mean '--{}'? ", near), fmt::join(known, ", --")));
  }

  /// Of several bands: temperatures by the unit that is written, conductors by their metal, copper when it is not said.
  const Band& chosen(const std::vector<Band>& bands, const Asked& a) const {
    const bool fahrenheit = read_quantity(a.value, Dimension::temperature).fahrenheit;
    for (const Band& b : bands) {
      if (table_.column_unit(b.high) == "°F" && fahrenheit) return b;
      if (table_.column_name(b.high) == "through-aluminum" && lower(a.name) == "size")
        for (const Asked& other : all_)
          if (lower(other.name) == "material" && same_value("aluminum", other.value)) return b;
    }
    return bands.front();
  }

  bool in_band(const Band& band, const Asked& a) {
    const Value value = value_for(table_, band, a.value);
    if (!value.number) return fail(fmt::format("--{}: {}", a.name, value.error), {});
    const double v = *value.number, slack = 1e-9 * std::max(1.0, std::abs(v));
    std::erase_if(out_.rows, [&](std::size_t r) {
      const auto high = table_.cell(r, band.high).number();
      const auto low = band.low ? table_.cell(r, *band.low).number() : std::nullopt;
      return !high || *high < v - slack || (low && (table_.column_name(*band.low) == "over" ? *low >= v - slack : *low > v + slack));
    });
    if (!band.low && out_.rows.size() > 1) out_.rows.resize(1);
    if (!out_.rows.empty()) return true;
    double most = 0;
    for (std::size_t r = 0; r < table_.rows(); ++r) most = std::max(most, table_.cell(r, band.high).number().value_or(0));
    return fail(fmt::format("the table '{}' has no band for {}", table_.name(), a.value),
                fmt::format("it ends at {}{}{}", number_text(most, 6), table_.column_unit(band.high).empty() ? "" : " ", table_.column_unit(band.high)));
  }

  bool in_column(std::size_t column, const Asked& a) {
    Words there;
    for (const std::size_t r : out_.rows)
      if (std::string s = code::cell_text(table_.cell(r, column)); !has(there, s)) there.push_back(std::move(s));
    std::erase_if(out_.rows, [&](std::size_t r) { return !matches(table_, r, column, a.value); });
    if (!out_.rows.empty()) return true;
    constexpr std::size_t long_enough = 3;  // of a number of a digit or two every other one is near
    const std::string_view near = a.value.size() < long_enough ? std::string_view{} : nearest(a.value, {there.begin(), there.end()});
    Words akin;  // "charger" is in "vehicle charger"
    if (a.value.size() >= long_enough) std::copy_if(there.begin(), there.end(), std::back_inserter(akin), [&](const std::string& s) { return lower(s).find(lower(a.value)) != std::string::npos; });
    constexpr std::size_t most = 40;
    return fail(fmt::format("the table '{}' has no {} '{}'", table_.name(), table_.column_name(column), a.value),
                !near.empty()          ? fmt::format("did you mean '{}'?", near)
                : !akin.empty()        ? fmt::format("of that kind there are: {}", fmt::join(akin, "; "))
                : there.size() <= most ? fmt::format("there are: {}", fmt::join(there, ", "))
                                       : fmt::format("there are {} to {}; `pullproof rules show {}` lists them", there.front(), there.back(), table_.name()));
  }

  /// Keeps the columns that are for what is asked, and those that are for nothing in particular.
  bool columns_for(const Kind& kind, const Asked& a) {
    const Words there = values_of(kind, table_);
    if (std::none_of(there.begin(), there.end(), [&](const std::string& v) { return same_value(v, a.value); }))
      return fail(fmt::format("the table '{}' has no {} '{}'", table_.name(), kind.name, a.value), fmt::format("there are: {}", fmt::join(there, ", ")));
    std::erase_if(out_.columns, [&](std::size_t c) {
      const std::string own = kind.of(table_, table_.column_name(c));
      return !own.empty() && !same_value(own, a.value);
    });
    return true;
  }

  bool fail(std::string error, std::string note) {
    out_.error = std::move(error);
    out_.note = std::move(note);
    return false;
  }

  const code::Edition& edition_;
  const TableRef& table_;
  std::span<const Asked> all_;
  LookedUp out_;
};

}  // namespace

std::vector<std::string> asked_by(const TableRef& table) {
  Words out;
  const auto add = [&](std::string word) {
    if (!has(out, word)) out.push_back(std::move(word));
  };
  for (std::size_t c = 0; c < table.keys(); ++c) add(std::string(table.column_name(c)));
  if (table.has_column("group")) add("type");
  for (const Band& b : bands_of(table)) add(words_for(table, b).front());
  for (const Kind& kind : kinds)
    if (!values_of(kind, table).empty()) add(std::string(kind.name));
  return out;
}

LookedUp look_up(const code::Edition& edition, const TableRef& table, std::span<const Asked> asked) { return Search(edition, table).run(asked); }

}  // namespace pullproof::answers
