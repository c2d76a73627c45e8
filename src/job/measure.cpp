#include "job/measure.hpp"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <optional>

#include "core/diagnostic.hpp"

namespace pullproof {
namespace {

struct UnitWord {
  std::string_view word;
  Dimension dimension;
  double in_si;
};
// Definitions: the international inch, foot and yard; everything else is SI. Longer words first.
constexpr UnitWord unit_words[] = {
    {"in-lb", Dimension::torque, 0.1129848290276167}, {"ft-lb", Dimension::torque, 1.3558179483314004},
    {"inches", Dimension::length, 0.0254}, {"inch", Dimension::length, 0.0254}, {"feet", Dimension::length, 0.3048},
    {"foot", Dimension::length, 0.3048},   {"yd", Dimension::length, 0.9144},
    {"in²", Dimension::area, 0.00064516},  {"in2", Dimension::area, 0.00064516},
    {"ft²", Dimension::area, 0.09290304},  {"ft2", Dimension::area, 0.09290304},
    {"m²", Dimension::area, 1},            {"m2", Dimension::area, 1},
    {"mm²", Dimension::area, 1e-6},        {"mm2", Dimension::area, 1e-6},
    {"in³", Dimension::volume, 1.6387064e-5}, {"in3", Dimension::volume, 1.6387064e-5},
    {"gal", Dimension::volume, 0.003785411784}, {"L", Dimension::volume, 1e-3},
    {"cm³", Dimension::volume, 1e-6},      {"cm3", Dimension::volume, 1e-6},
    {"ft", Dimension::length, 0.3048},     {"in", Dimension::length, 0.0254},  {"\"", Dimension::length, 0.0254},
    {"'", Dimension::length, 0.3048},      {"mm", Dimension::length, 1e-3},    {"cm", Dimension::length, 1e-2},
    {"km", Dimension::length, 1e3},        {"m", Dimension::length, 1},
    {"kVA", Dimension::power, 1e3},        {"VA", Dimension::power, 1},        {"kW", Dimension::power, 1e3},
    {"mW", Dimension::power, 1e-3},        {"W", Dimension::power, 1},
    {"kV", Dimension::voltage, 1e3},       {"mV", Dimension::voltage, 1e-3},   {"V", Dimension::voltage, 1},
    {"kA", Dimension::current, 1e3},       {"mA", Dimension::current, 1e-3},   {"A", Dimension::current, 1},
    {"ohm/kft", Dimension::resistance_per_length, 1 / 304.8}, {"ohm/km", Dimension::resistance_per_length, 1e-3},
    // The sign is either the Greek letter or the ohm sign that looks the same.
    {"\u03a9/kft", Dimension::resistance_per_length, 1 / 304.8}, {"\u03a9/km", Dimension::resistance_per_length, 1e-3},
    {"\u2126/kft", Dimension::resistance_per_length, 1 / 304.8}, {"\u2126/km", Dimension::resistance_per_length, 1e-3},
    {"milliohm", Dimension::resistance, 1e-3}, {"ohms", Dimension::resistance, 1}, {"ohm", Dimension::resistance, 1},
    {"m\u03a9", Dimension::resistance, 1e-3}, {"\u03a9", Dimension::resistance, 1},
    {"m\u2126", Dimension::resistance, 1e-3}, {"\u2126", Dimension::resistance, 1},
    {"hp", Dimension::horsepower, 1},
    {"N·m", Dimension::torque, 1},         {"Nm", Dimension::torque, 1},
    {"Gohm", Dimension::resistance, 1e9},  {"Mohm", Dimension::resistance, 1e6}, {"kohm", Dimension::resistance, 1e3},
    {"MΩ", Dimension::resistance, 1e6},    {"kΩ", Dimension::resistance, 1e3},   {"GΩ", Dimension::resistance, 1e9},
    {"°C", Dimension::temperature, 1},     {"°F", Dimension::temperature, 1},
    {"degrees", Dimension::angle, 1},      {"deg", Dimension::angle, 1},       {"°", Dimension::angle, 1},
    {"Mbit/s", Dimension::bit_rate, 1e6},  {"kbit/s", Dimension::bit_rate, 1e3}, {"bit/s", Dimension::bit_rate, 1},
    {"Mbps", Dimension::bit_rate, 1e6},    {"kbps", Dimension::bit_rate, 1e3},   {"bps", Dimension::bit_rate, 1},
    {"kbaud", Dimension::bit_rate, 1e3},   {"baud", Dimension::bit_rate, 1},
    {"%", Dimension::ratio, 0.01},
};

bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

std::size_t spaces(std::string_view s) {
  std::size_t n = 0;
  while (n < s.size() && s[n] == ' ') ++n;
  return n;
}

/// A plain decimal number at the start of `s`; how many bytes it takes.
struct Digits {
  double value = 0;
  std::size_t size = 0;
};
std::optional<Digits> digits(std::string_view s) {
  std::size_t n = 0;
  if (n < s.size() && (s[n] == '-' || s[n] == '+')) ++n;
  const std::size_t first = n;
  std::size_t count = 0;
  while (n < s.size() && (is_digit(s[n]) || s[n] == '.')) count += s[n++] != '.' ? 1u : 0u;
  if (count == 0 || count > 30) return std::nullopt;
  Digits d{0, n};
  const auto [end, error] = std::from_chars(s.data() + (s[0] == '+' ? 1 : 0), s.data() + n, d.value);
  if (error != std::errc{} || end != s.data() + n || first == n) return std::nullopt;
  return d;
}

/// A number of digits alone: what stands in a fraction.
std::optional<Digits> whole_number(std::string_view s) {
  const std::size_t n = std::min(s.find_first_not_of("0123456789"), s.size());
  return n > 0 ? digits(s.substr(0, n)) : std::nullopt;
}

/// "7/8" or "1-1/4" as inches are written; falls back to digits.
std::optional<Digits> mixed_number(std::string_view s) {
  const auto fraction = [&](std::size_t at) -> std::optional<Digits> {
    const auto top = whole_number(s.substr(at));
    if (!top || at + top->size >= s.size() || s[at + top->size] != '/') return std::nullopt;
    const auto bottom = whole_number(s.substr(at + top->size + 1));
    if (!bottom || bottom->value <= 0) return std::nullopt;
    return Digits{top->value / bottom->value, top->size + 1 + bottom->size};
  };
  if (const auto f = fraction(0)) return f;
  const auto whole = whole_number(s);
  if (whole && whole->size < s.size() && (s[whole->size] == '-' || s[whole->size] == ' '))
    if (const auto f = fraction(whole->size + 1)) return Digits{whole->value + f->value, whole->size + 1 + f->size};
  return digits(s);
}

Measured wrong(std::string error, std::size_t at, std::size_t size, std::string note = {}) {
  Measured m;
  m.error = std::move(error);
  m.note = std::move(note);
  m.at = at;
  m.size = std::max<std::size_t>(size, 1);
  return m;
}

const UnitWord* unit_at(std::string_view s) {
  for (const UnitWord& u : unit_words) {
    if (!s.starts_with(u.word)) continue;
    const char next = s.size() > u.word.size() ? s[u.word.size()] : ' ';
    const bool letter = is_letter(next) || static_cast<unsigned char>(next) >= 0x80;  // "mΩ" is no "m"
    if (!letter || u.word == "\"" || u.word == "'") return &u;
  }
  return nullptr;
}

/// A unit of this dimension that `s` begins with but for capitals; not one that capitals make another ("MW", "mW").
std::string_view unit_but_for_capitals(std::string_view s, Dimension want) {
  const auto same = [](char a, char b) { return (a | 0x20) == (b | 0x20) && is_letter(a) && is_letter(b); };
  for (const UnitWord& u : unit_words) {
    if (u.dimension != want || s.size() < u.word.size() || s.starts_with('M')) continue;
    bool fits = s.size() == u.word.size() || !is_letter(s[u.word.size()]);
    for (std::size_t i = 0; i < u.word.size(); ++i) fits = fits && (s[i] == u.word[i] || same(s[i], u.word[i]));
    if (fits) return u.word;
  }
  return {};
}

/// What is wrong with a text that should be a unit.
Measured no_unit(std::string_view text, std::size_t at, Dimension want) {
  const std::string_view rest = text.substr(at);
  if (rest.size() > 1 && (rest[0] == ',' || rest[0] == '_') && is_digit(rest[1]))
    return wrong("digits are written without separators, the decimal sign is a point", at, 1, fmt::format("write {}", example(want)));
  if (rest.size() > 1 && (rest[0] == 'e' || rest[0] == 'E') && (is_digit(rest[1]) || rest[1] == '-' || rest[1] == '+'))
    return wrong("numbers are written out, without an exponent", at, rest.size(), fmt::format("write {}", example(want)));
  const std::string_view near = unit_but_for_capitals(rest, want);
  return wrong(fmt::format("{} is no unit known here", quoted(rest)), at, rest.size(),
               near.empty() ? fmt::format("{} is wanted, such as {}", name(want), example(want)) : fmt::format("did you mean '{}'?", near));
}

}  // namespace

std::vector<std::string_view> units_of(Dimension d) {
  std::vector<std::string_view> out;
  for (const UnitWord& u : unit_words)
    if (u.dimension == d) out.push_back(u.word);
  return out;
}

std::string_view name(Dimension d) {
  switch (d) {
    case Dimension::length: return "a length";
    case Dimension::area: return "an area";
    case Dimension::volume: return "a volume";
    case Dimension::current: return "a current";
    case Dimension::voltage: return "a voltage";
    case Dimension::power: return "a power";
    case Dimension::resistance: return "a resistance";
    case Dimension::resistance_per_length: return "a resistance for a length";
    case Dimension::temperature: return "a temperature";
    case Dimension::angle: return "an angle";
    case Dimension::horsepower: return "a horsepower rating";
    case Dimension::torque: return "a torque";
    case Dimension::bit_rate: return "a bit rate";
    case Dimension::ratio: return "a ratio";
  }
  return "";
}

std::string_view example(Dimension d) {
  switch (d) {
    case Dimension::length: return "\"62 ft\" or \"19 m\"";
    case Dimension::area: return "\"0.12 in²\"";
    case Dimension::volume: return "\"21 in³\"";
    case Dimension::current: return "\"15 A\"";
    case Dimension::voltage: return "\"240 V\"";
    case Dimension::power: return "\"4500 W\" or \"40 VA\"";
    case Dimension::resistance: return "\"2.5 ohm\"";
    case Dimension::resistance_per_length: return "\"6.4 ohm/kft\" or \"21 ohm/km\"";
    case Dimension::temperature: return "\"104 °F\" or \"40 °C\"";
    case Dimension::angle: return "\"270°\"";
    case Dimension::horsepower: return "\"1/2 hp\"";
    case Dimension::torque: return "\"35 in-lb\"";
    case Dimension::bit_rate: return "\"9600 bit/s\" or \"500 kbit/s\"";
    case Dimension::ratio: return "0.85 or \"85 %\"";
  }
  return "";
}

std::string range_text(Dimension d, double low, double high) {
  const auto as = [&](double v) -> std::string {
    switch (d) {
      case Dimension::length: return fmt::format("{} ft", number_text(v / 0.3048, 3));
      case Dimension::current: return fmt::format("{} A", number_text(v, 6));
      case Dimension::voltage: return fmt::format("{} V", number_text(v, 3));
      case Dimension::power: return fmt::format("{} W", number_text(v, 4));
      case Dimension::resistance: return fmt::format("{} ohm", number_text(v, 4));
      case Dimension::resistance_per_length: return fmt::format("{} ohm/km", number_text(v * 1e3, 4));
      case Dimension::volume: return fmt::format("{} in³", number_text(v / (0.0254 * 0.0254 * 0.0254), 2));
      case Dimension::temperature: return fmt::format("{} °C", number_text(v, 1));
      case Dimension::angle: return fmt::format("{}°", number_text(v, 1));
      case Dimension::bit_rate: return fmt::format("{} bit/s", number_text(v, 0));
      default: return number_text(v, 4);
    }
  };
  return fmt::format("from {} through {}", as(low), as(high));
}

Measured read_quantity(std::string_view text, Dimension want) {
  std::size_t at = spaces(text);
  if (at == text.size()) return wrong("a quantity is wanted here, not an empty text", 0, text.size(), fmt::format("write {}", example(want)));
  Measured m;
  bool any = false;
  double last_unit = 0;
  while (at < text.size()) {
    const auto n = want == Dimension::length || want == Dimension::horsepower ? mixed_number(text.substr(at)) : digits(text.substr(at));
    if (!n)
      return wrong(any ? "this is left over after the quantity" : "a quantity begins with a number", at, text.size() - at,
                   fmt::format("write {}", example(want)));
    const std::size_t number_at = at;
    at += n->size;
    at += spaces(text.substr(at));
    if (at == text.size()) {
      if (want == Dimension::ratio && !any) {
        m.si = n->value;
        m.ok = true;
        return m;
      }
      return wrong(fmt::format("this number has no unit; {} is wanted", name(want)), number_at, n->size,
                   fmt::format("write {}", example(want)));
    }
    const UnitWord* u = unit_at(text.substr(at));
    // "104 F" and "40 C": a bare letter is a temperature where one is wanted.
    static constexpr UnitWord bare_celsius{"C", Dimension::temperature, 1}, bare_fahrenheit{"F", Dimension::temperature, 1};
    if (want == Dimension::temperature && text.substr(at) == "C") u = &bare_celsius;
    if (want == Dimension::temperature && text.substr(at) == "F") u = &bare_fahrenheit;
    if (u == nullptr) return no_unit(text, at, want);
    if (u->dimension != want)
      return wrong(fmt::format("'{}' is the unit of {}, but {} is wanted", u->word, name(u->dimension), name(want)), at,
                   u->word.size(), fmt::format("write {}", example(want)));
    if (any && !(want == Dimension::length && last_unit == 0.3048 && u->in_si == 0.0254))
      return wrong("only feet and inches go together", number_at, text.size() - number_at);
    if (any && !is_digit(text[number_at]) && text[number_at] != '.')
      return wrong("inches are added to feet and have no sign", number_at, 1);
    if (want == Dimension::temperature) {
      m.fahrenheit = u->word.ends_with("F");
      m.si = m.fahrenheit ? (n->value - 32) * 5 / 9 : n->value;
    } else {
      m.si += n->value * u->in_si;
    }
    m.volt_amperes = u->word.ends_with("VA");
    any = true;
    last_unit = u->in_si;
    at += u->word.size();
    at += spaces(text.substr(at));
    if (at < text.size() && want != Dimension::length)
      return wrong("this is left over after the quantity", at, text.size() - at);
  }
  m.ok = true;
  return m;
}

MeasuredSystem read_system(std::string_view text) {
  MeasuredSystem out;
  System& s = out.system;
  std::size_t at = spaces(text);
  const auto take_number = [&]() -> std::optional<double> {
    const auto n = digits(text.substr(at));
    if (!n) return std::nullopt;
    at += n->size;
    return n->value;
  };
  const auto take = [&](std::string_view word) {
    at += spaces(text.substr(at));
    if (!text.substr(at).starts_with(word)) return false;
    at += word.size();
    return true;
  };
  const auto first = take_number();
  if (!first || !(*first > 0)) return out;
  std::optional<double> second;
  if (take("Y/")) {
    s.wye = true;
    second = take_number();
    if (!second) return out;
  } else if (take("/")) {
    second = take_number();
    if (!second) return out;
  }
  if (!take("V") || (second && !(*second > 0))) return out;
  const double high = second ? std::max(*first, *second) : *first;
  const double low = second ? std::min(*first, *second) : 0;
  if (high > 100000) return out;
  // A second voltage is that to the neutral: half of the first where it taps a winding, a √3-th in a wye.
  const auto ratio = [&](double of) { return second && std::abs(high / low - of) < 0.05; };
  if (second && !ratio(2) && !ratio(std::sqrt(3.0))) return out;
  s.line_to_line = Voltage::from_value(high);
  s.line_to_neutral = Voltage::from_value(low);
  if (take("dc")) {
    s.dc = true;
    s.phases = 1;
    s.wires = second ? 3 : 2;
    if (take("2-wire")) s.wires = 2;
    else if (take("3-wire")) s.wires = 3;
  } else {
    take("ac");
    if (take("1-phase")) s.phases = 1;
    else if (take("3-phase")) s.phases = 3;
    else return out;
    take(",");
    if (take("2-wire")) s.wires = 2;
    else if (take("3-wire")) s.wires = 3;
    else if (take("4-wire")) s.wires = 4;
    else return out;
  }
  at += spaces(text.substr(at));
  if (at != text.size()) return out;
  if (!s.dc) {
    if (s.phases == 1 && s.wires == 4) return out;
    if (s.phases == 3 && s.wires == 2) return out;
    if (s.wires == 4 && !second) return out;
    if (s.phases == 1 && s.wires == 3 && !second) return out;
    if (s.phases == 3 && s.wires == 3 && second) return out;
    // "120/208 V" is a wye as much as "208Y/120 V": what tells is the ratio, √3 against the 2 of a mid-tap.
    if (s.wye && !ratio(std::sqrt(3.0))) return out;
    s.wye = ratio(std::sqrt(3.0));
  }
  out.ok = true;
  return out;
}

MeasuredVoltage read_source_voltage(std::string_view text) {
  MeasuredVoltage out;
  std::string_view rest = text;
  while (!rest.empty() && rest.back() == ' ') rest.remove_suffix(1);
  if (rest.ends_with("dc")) {
    out.voltage.dc = true;
    out.kind_given = true;
    rest.remove_suffix(2);
  } else if (rest.ends_with("ac")) {
    out.kind_given = true;
    rest.remove_suffix(2);
  }
  out.measured = read_quantity(rest, Dimension::voltage);
  out.voltage.volts = Voltage::from_value(out.measured.si);
  return out;
}

}  // namespace pullproof
