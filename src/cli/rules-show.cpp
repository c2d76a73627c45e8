// rules show: a table or rule as an edition has it, with the origin of what is not plain in it.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "cli/cells.hpp"
#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "core/diagnostic.hpp"
#include "core/text.hpp"
#include "report/page.hpp"

namespace pullproof::cli {
namespace {

using code::CellRef;
using code::Edition;
using code::RuleRef;
using code::TableRef;
using report::Ink;
using report::padded;
using report::Page;

constexpr std::string_view changed_mark = "*", weaker_mark = "~";

/// What is said below a table about cells that are not plain: changed by a later edition, or weaker than the table.
struct Remarks {
  std::map<std::string, std::string> changed, weaker;  ///< what is said, and of which cells
  std::vector<std::string> changed_order, weaker_order;
};

void remark(std::map<std::string, std::string>& all, std::vector<std::string>& order, const std::string& text, const std::string& cell) {
  const auto [at, fresh] = all.try_emplace(text, cell);
  if (fresh) order.push_back(text);
  else at->second += "; " + cell;
}

template <class Ref>
std::string weaker_text(const Ref& entry, const CellRef& cell) {
  return fmt::format("{}: {}", name(cell.basis()), cell.source().empty() ? entry.source() : cell.source());
}

template <class Ref>
bool changed(const Ref& entry, const CellRef& cell) { return cell.origin() && cell.origin().file != entry.origin().file; }
template <class Ref>
bool weaker(const Ref& entry, const CellRef& cell) { return cell.basis() > entry.basis(); }

template <class Ref>
std::string mark(const Ref& entry, const CellRef& cell) {
  return std::string(changed(entry, cell) ? changed_mark : "") + std::string(weaker(entry, cell) ? weaker_mark : "");
}

/// A note on a cell that is not plain. `was` is what an earlier edition says there.
template <class Ref>
void note(Remarks& remarks, const Ref& entry, const CellRef& cell, const std::string& label, const std::string& was) {
  if (changed(entry, cell)) {
    const Where at = cell.origin();
    remark(remarks.changed, remarks.changed_order,
           fmt::format("{}:{}; {}; {}", at.file, at.line, entry.clause(), weaker_text(entry, cell)),
           fmt::format("{} {}{}", label, cell_text(cell), was.empty() ? "" : fmt::format(" (was {})", was)));
  } else if (weaker(entry, cell)) {
    remark(remarks.weaker, remarks.weaker_order, weaker_text(entry, cell), label);
  }
}

void print(Page& page, const Remarks& remarks) {
  const auto part = [&](std::string_view title, const auto& all, const auto& order) {
    if (all.empty()) return;
    page.gap();
    page.paragraph(0, title);
    for (const std::string& text : order) page.paragraph(2, {{all.at(text), Ink::strong}, {": " + text}});
  };
  part(fmt::format("{} set by a later edition or an amendment:", changed_mark), remarks.changed, remarks.changed_order);
  part(fmt::format("{} rests on something weaker than the rest:", weaker_mark), remarks.weaker, remarks.weaker_order);
}

template <class Ref>
void head(Page& page, const Edition& edition, std::string_view kind, const Ref& e) {
  page.paragraph(0, {{fmt::format("{} {}: {}", kind, e.name(), e.title()), Ink::strong}});
  page.paragraph(0, fmt::format("{}, {}{}", edition.title(), e.clause(),
                                e.clause_basis() != Basis::published ? fmt::format(" (clause number: {})", name(e.clause_basis())) : ""));
  if (!e.seen()) page.paragraph(0, {{"Nobody has seen this in this edition: it is not covered. What follows is what it inherits.", Ink::warn}});
  page.paragraph(0, fmt::format("{}: {}", name(e.basis()), e.source()));
  page.paragraph(0, fmt::format("{}:{}", e.origin().file, e.origin().line));
  page.gap();
}

/// The last edition before this one that says something else in a cell; empty when none does.
std::string before(const Edition& edition, const TableRef& table, std::size_t row, std::size_t column) {
  const std::string now = cell_text(table.cell(row, column));
  for (auto e = Edition::find(edition.store(), edition.base()); e; e = Edition::find(edition.store(), e->base())) {
    const auto t = e->table(table.name());
    if (!t) return {};
    const auto r = row_called(*t, row_key(table, row));
    if (!r || !t->has_column(table.column_name(column))) return {};
    const std::string then = cell_text(t->cell(*r, table.column_name(column)));
    if (then != now) return then;
  }
  return {};
}

/// Lays the rows out in columns, in as many blocks as it takes to stay within the page; a table with long texts is
/// printed row by row.
class TablePrinter {
 public:
  TablePrinter(Page& page, const Edition& edition, const TableRef& table) : page_(page), edition_(edition), table_(table) {}

  void run(const std::vector<std::size_t>& rows) {
    rows_ = rows;
    keys_ = std::max<std::size_t>(1, table_.keys());
    for (std::size_t c = 0; c < table_.columns(); ++c) measure(c);
    std::size_t key_cells = 0;
    for (std::size_t c = 0; c < keys_; ++c) key_cells += widths_[c] + gap;
    const std::size_t widest = keys_ < widths_.size() ? *std::max_element(widths_.begin() + static_cast<std::ptrdiff_t>(keys_), widths_.end()) : 0;
    if (key_cells + widest > page_.width()) by_row();
    else blocks(key_cells);
    print(page_, remarks_);
  }

 private:
  static constexpr std::size_t gap = 2;

  void measure(std::size_t c) {
    bool numbers = true;
    std::size_t width = std::max(display_width(table_.column_name(c)), display_width(table_.column_unit(c)));
    for (const std::size_t r : rows_) {
      const CellRef cell = table_.cell(r, c);
      width = std::max(width, display_width(cell_text(cell)) + mark(table_, cell).size());
      numbers = numbers && (cell.blank() || cell.number());
      if (changed(table_, cell) || weaker(table_, cell))
        note(remarks_, table_, cell, fmt::format("{}, {}", row_key_text(table_, r), table_.column_name(c)), before(edition_, table_, r, c));
    }
    widths_.push_back(width);
    right_.push_back(numbers);
  }

  void blocks(std::size_t key_cells) {
    for (std::size_t from = keys_; from < table_.columns() || from == keys_;) {
      std::size_t to = from, cells = key_cells;
      while (to < table_.columns() && cells + widths_[to] <= page_.width()) cells += widths_[to++] + gap;
      if (from > keys_) page_.gap();
      row([&](std::size_t c) { return std::string(table_.column_name(c)); }, from, to);
      bool units = false;
      for (std::size_t c = 0; c < to; ++c) units = units || ((c < keys_ || c >= from) && !table_.column_unit(c).empty());
      if (units) row([&](std::size_t c) { return std::string(table_.column_unit(c)); }, from, to);
      for (const std::size_t r : rows_)
        row([&](std::size_t c) { return cell_text(table_.cell(r, c)); }, from, to, [&](std::size_t c) { return mark(table_, table_.cell(r, c)); });
      if (to == table_.columns()) return;
      from = to;
    }
  }

  template <class Text>
  void row(Text text, std::size_t from, std::size_t to) { row(text, from, to, [](std::size_t) { return std::string{}; }); }

  template <class Text, class Mark>
  void row(Text text, std::size_t from, std::size_t to, Mark mark_of) {
    std::string s;
    for (std::size_t c = 0; c < to; ++c)
      if (c < keys_ || c >= from) s += padded(printable(text(c)) + mark_of(c), widths_[c], right_[c]) + std::string(gap, ' ');
    page_.line(s);
  }

  void by_row() {
    for (const std::size_t r : rows_) {
      page_.paragraph(0, {{row_key_text(table_, r), Ink::strong}});
      for (std::size_t c = table_.keys(); c < table_.columns(); ++c)
        page_.paragraph(2, fmt::format("{}: {}{}{}", table_.column_name(c), cell_text(table_.cell(r, c)), unit(c), mark(table_, table_.cell(r, c))));
    }
  }

  std::string unit(std::size_t c) const { return table_.column_unit(c).empty() ? std::string{} : fmt::format(" {}", table_.column_unit(c)); }

  Page& page_;
  const Edition& edition_;
  const TableRef& table_;
  std::vector<std::size_t> rows_, widths_;
  std::vector<bool> right_;
  std::size_t keys_ = 1;
  Remarks remarks_;
};

/// The rows to print: all, or those with one of the keys asked for.
std::vector<std::size_t> chosen_rows(const TableRef& t, const std::vector<std::string>& keys) {
  std::vector<std::size_t> rows;
  std::vector<std::string> names;
  std::vector<bool> met(keys.size(), false);
  for (std::size_t r = 0; r < t.rows(); ++r) {
    bool wanted = keys.empty();
    for (const std::string& name : row_key(t, r)) {
      names.push_back(name);
      for (std::size_t k = 0; k < keys.size(); ++k)
        if (keys[k] == name) wanted = met[k] = true;
    }
    if (wanted) rows.push_back(r);
  }
  for (std::size_t k = 0; k < keys.size(); ++k)
    if (!met[k])
      throw CommandError(fmt::format("the table '{}' has no row '{}'", t.name(), keys[k]),
                         suggestion(keys[k], {names.begin(), names.end()}));
  return rows;
}

void show_rule(Page& page, const Edition& edition, const RuleRef& rule) {
  Remarks remarks;
  for (std::size_t i = 0; i < rule.parameters(); ++i) {
    const std::string_view key = rule.parameter_name(i);
    std::string text, marks;
    for (const CellRef& cell : rule.list(key)) {
      text += fmt::format("{}{}", text.empty() ? "" : ", ", cell_text(cell));
      marks = mark(rule, cell);
    }
    const CellRef first = rule[key];
    std::string was;
    for (auto e = Edition::find(edition.store(), edition.base()); e && was.empty(); e = Edition::find(edition.store(), e->base()))
      if (const auto r = e->rule(rule.name()); r && parameter_text(*r, key) != parameter_text(rule, key)) was = parameter_text(*r, key);
    note(remarks, rule, first, std::string(key), was);
    page.paragraph(2, {{std::string(key), Ink::strong}, {fmt::format(" = {}{}", text, marks)}});
  }
  if (rule.parameters() == 0) page.paragraph(2, "it has no parameters");
  print(page, remarks);
}

}  // namespace

int rules_show(const Options& options) {
  const Edition edition = need_edition(open_shelf(options), options.edition.empty() ? usual_edition : options.edition);
  const std::string& name = options.words[0];
  const auto table = edition.table(name);
  const auto rule = edition.rule(name);
  if (!table && !rule) {
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < edition.table_count(); ++i) names.push_back(edition.table_at(i).name());
    for (std::size_t i = 0; i < edition.rule_count(); ++i) names.push_back(edition.rule_at(i).name());
    throw CommandError(fmt::format("{} has no table or rule '{}'", edition.title(), name),
                       nearest(name, names).empty() ? fmt::format("`pullproof rules list {}` lists them", edition.id()) : suggestion(name, names));
  }
  Page page(page_width(), wants_color(options.color));
  if (table) {
    const auto rows = chosen_rows(*table, options.rows);
    head(page, edition, "table", *table);
    TablePrinter(page, edition, *table).run(rows);
  } else if (!options.rows.empty()) {
    throw CommandError(fmt::format("'{}' is a rule and has no rows", name));
  }
  if (rule) {
    page.gap();
    head(page, edition, "rule", *rule);
    show_rule(page, edition, *rule);
  }
  put(page.take());
  return status_pass;
}

}  // namespace pullproof::cli
