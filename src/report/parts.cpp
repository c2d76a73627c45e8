#include "report/parts.hpp"

#include <fmt/format.h>

#include "report/steps.hpp"

namespace pullproof::report {

void Part::heading(int level, std::string_view text, std::string_view anchor) {
  blocks_.emplace_back(doc::Heading{level, std::string(text), std::string(anchor)});
}
void Part::paragraph(std::string_view text, doc::Role role) { blocks_.emplace_back(doc::Paragraph{plain(text, role)}); }
void Part::add(doc::Table table) {
  if (!table.rows.empty()) blocks_.emplace_back(std::move(table));
}
void Part::add(doc::List list) {
  if (!list.items.empty()) blocks_.emplace_back(std::move(list));
}

doc::Spans plain(std::string_view text, doc::Role role) {
  if (text.empty()) return {};
  return {{std::string(text), role, {}}};
}

doc::Table table(std::string_view caption, std::initializer_list<doc::Table::Column> columns) {
  return {std::string(caption), {columns}, {}};
}

doc::Table working_table(const Report& report, const Working& w, const std::vector<StepId>& steps, std::string_view caption) {
  doc::Table t = table(caption, {{"What"}, {"Working"}, {"From"}});
  for (const StepId id : steps) {
    const Step& s = w.steps()[id];
    std::string what(s.name), sum;
    if (s.kind == Step::Kind::formula) {
      sum = fmt::format("{}{} = {} = {}", s.symbol.empty() ? "" : fmt::format("{} = ", s.symbol), s.expression, with_values(w, s), shown(s));
    } else if (s.numeric) {
      sum = s.symbol.empty() ? shown(s) : fmt::format("{} = {}", s.symbol, shown(s));
      const bool worded = s.kind == Step::Kind::choice || s.kind == Step::Kind::assumption ||
                          (s.kind == Step::Kind::given && s.text != shown(s));
      if (worded && !s.text.empty()) sum += fmt::format(" ({})", s.text);
    } else {
      sum = s.text;
    }
    t.rows.push_back({plain(what), plain(sum, s.kind == Step::Kind::formula ? doc::Role::code : doc::Role::plain),
                      plain(origin_text(s, report.book), doc::Role::faint)});
  }
  return t;
}

std::string name_of(const Circuit& circuit) { return fmt::format("circuit {}", *circuit.name); }
std::string name_of(const Control& control) { return fmt::format("control {}", *control.name); }

}  // namespace pullproof::report
