// What the program reads, as JSON, for a second reader to compare: `dump toml FILE...` prints each file as toml++ read
// it, `dump rules` prints every edition as it is resolved. Texts as they are, numbers to the last bit, dates as text.
#include <fmt/format.h>
#include <toml++/toml.h>

#include <cmath>
#include <cstdio>
#include <string>
#include <string_view>

#include "code/edition.hpp"

namespace {

using namespace pullproof;

std::string json(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += {'\\', c};
    else if (static_cast<unsigned char>(c) < 0x20) out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    else out += c;
  }
  return out + '"';
}

/// A number that is no integer has a point or an exponent, so that its kind is kept too.
std::string json(double v) {
  if (!std::isfinite(v)) return json(v != v ? "nan" : v > 0 ? "inf" : "-inf");
  std::string s = fmt::format("{}", v);
  return s.find_first_of(".e") == std::string::npos ? s + ".0" : s;
}

template <class Items, class Text>
std::string list(std::string_view open, const Items& items, std::string_view close, Text text) {
  std::string out(open), comma;
  for (auto&& item : items) {
    out += comma + text(item);
    comma = ",";
  }
  return out.append(close);
}

std::string json(const toml::node& n) {
  if (const auto* t = n.as_table())
    return list("{", *t, "}", [](const auto& pair) { return json(pair.first.str()) + ":" + json(pair.second); });
  if (const auto* a = n.as_array()) return list("[", *a, "]", [](const toml::node& item) { return json(item); });
  if (const auto* s = n.as_string()) return json(std::string_view(s->get()));
  if (const auto* i = n.as_integer()) return fmt::format("{}", i->get());
  if (const auto* f = n.as_floating_point()) return json(f->get());
  if (const auto* b = n.as_boolean()) return b->get() ? "true" : "false";
  if (const auto* d = n.as_date()) return fmt::format("{{\"date\":\"{:04}-{:02}-{:02}\"}}", d->get().year, d->get().month, d->get().day);
  return json("a time, which no file of ours has");
}

std::string json(const code::CellRef& c) {
  if (c.blank()) return "null";
  if (const auto n = c.number()) return json(*n);
  return json(c.text());
}

std::string json_entry(std::string_view title, std::string_view clause, std::string_view source, Basis basis, bool seen) {
  return fmt::format("\"title\":{},\"clause\":{},\"source\":{},\"basis\":{},\"seen\":{}", json(title), json(clause), json(source),
                     json(name(basis)), seen);
}

std::string json(const code::TableRef& t) {
  std::string columns, rows;
  for (std::size_t c = 0; c < t.columns(); ++c) columns += (c == 0 ? "" : ",") + json(t.column_name(c));
  for (std::size_t r = 0; r < t.rows(); ++r) {
    rows += r == 0 ? "[" : ",[";
    for (std::size_t c = 0; c < t.columns(); ++c) {
      const code::CellRef cell = t.cell(r, c);
      rows += fmt::format("{}[{},{}]", c == 0 ? "" : ",", json(cell), json(name(cell.basis())));
    }
    rows += "]";
  }
  return fmt::format("{{{},\"columns\":[{}],\"rows\":[{}]}}", json_entry(t.title(), t.clause(), t.source(), t.basis(), t.seen()), columns, rows);
}

std::string json(const code::RuleRef& r) {
  std::string parameters;
  for (std::size_t i = 0; i < r.parameters(); ++i) {
    const std::string_view key = r.parameter_name(i);
    parameters += (i == 0 ? "" : ",") + json(key) + ":";
    parameters += r.is_list(i) ? list("[", r.list(key), "]", [](const code::CellRef& c) { return json(c); }) : json(r[key]);
  }
  return fmt::format("{{{},\"parameters\":{{{}}}}}", json_entry(r.title(), r.clause(), r.source(), r.basis(), r.seen()), parameters);
}

std::string json(const code::Edition& e) {
  std::string tables, rules;
  for (std::size_t i = 0; i < e.table_count(); ++i)
    tables += (i == 0 ? "" : ",") + json(e.table_at(i).name()) + ":" + json(e.table_at(i));
  for (std::size_t i = 0; i < e.rule_count(); ++i) rules += (i == 0 ? "" : ",") + json(e.rule_at(i).name()) + ":" + json(e.rule_at(i));
  return fmt::format("{{\"base\":{},\"tables\":{{{}}},\"rules\":{{{}}}}}", json(e.base()), tables, rules);
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view what = argc > 1 ? argv[1] : "";
  if (what == "toml") {
    for (int i = 2; i < argc; ++i) {
      try {
        const toml::table root = toml::parse_file(argv[i]);
        fmt::print("{}{}:{}\n", i == 2 ? "{" : ",", json(std::string_view(argv[i])), json(static_cast<const toml::node&>(root)));
      } catch (const toml::parse_error& e) {
        fmt::print(stderr, "{}:{}: {}\n", argv[i], e.source().begin.line, e.description());
        return 1;
      }
    }
    fmt::print("}}\n");
    return 0;
  }
  if (what == "rules") {
    const auto store = code::built_in();
    std::string out;
    for (const code::EditionRecord& r : store->editions) {
      const std::string_view id = store->text(r.id);
      out += (out.empty() ? "{" : ",") + json(id) + ":" + json(*code::Edition::find(store, id));
    }
    fmt::print("{}}}\n", out);
    return 0;
  }
  fmt::print(stderr, "usage: dump toml FILE... | dump rules\n");
  return 2;
}
