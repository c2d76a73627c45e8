#include "report/entry.hpp"

#include "report/json_writer.hpp"

namespace pullproof::report {
namespace {

using code::CellRef;

void origin(JsonWriter& w, const Where& at) {
  if (!at) return w.null("origin");
  w.object("origin", [&] {
    w.field("file", at.file);
    w.integer("line", at.line);
  });
}

void value(JsonWriter& w, const CellRef& cell) {
  if (const auto n = cell.number()) w.number("value", *n);
  else w.optional("value", cell.text());
}

template <class Ref>
void head(JsonWriter& w, const Ref& e) {
  w.field("name", e.name());
  w.field("title", e.title());
  w.field("clause", e.clause());
  w.field("clause_basis", word(e.clause_basis()));
  w.field("basis", word(e.basis()));
  w.field("source", e.source());
  w.yes("covered", e.seen());
  origin(w, e.origin());
}

/// What a value rests on, which may differ from the rest of its table.
void rests_on(JsonWriter& w, const Citation& c) {
  w.field("edition", c.edition);
  w.field("basis", word(c.basis));
  w.field("source", c.source);
  origin(w, c.origin);
}

}  // namespace

std::string entry_json(const code::Edition& edition, const Entry& entry, std::string_view version) {
  JsonWriter w;
  const auto table = [&](const code::TableRef& t) {
    const auto cell = [&](std::size_t row, std::size_t column) {
      w.object([&] {
        w.field("column", t.column_name(column));
        w.optional("unit", t.column_unit(column));
        value(w, t.cell(row, column));
        rests_on(w, edition.cite(t, row, column));
      });
    };
    head(w, t);
    std::vector<std::size_t> keys(t.keys());
    for (std::size_t i = 0; i < keys.size(); ++i) keys[i] = i;
    w.list("rows", entry.rows, [&](std::size_t r) {
      w.object([&] {
        w.list("key", keys, [&](std::size_t c) { cell(r, c); });
        w.list("cells", entry.columns, [&](std::size_t c) { cell(r, c); });
      });
    });
  };
  const auto rule = [&](const code::RuleRef& r) {
    head(w, r);
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < r.parameters(); ++i) names.push_back(r.parameter_name(i));
    w.list("parameters", names, [&](std::string_view name) {
      w.object([&] {
        w.field("name", name);
        w.list("values", r.list(name), [&](const CellRef& c) { w.object([&] { value(w, c); }); });
        rests_on(w, edition.cite(r, r[name]));
      });
    });
  };
  w.object([&] {
    w.field("format", "pullproof-entry-1");
    w.field("version", version);
    w.object("edition", [&] {
      w.field("id", edition.id());
      w.field("title", edition.title());
    });
    if (entry.table) w.object("table", [&] { table(*entry.table); });
    else w.null("table");
    if (entry.rule) w.object("rule", [&] { rule(*entry.rule); });
    else w.null("rule");
  });
  return w.finished();
}

}  // namespace pullproof::report
