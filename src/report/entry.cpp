#include "report/entry.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "code/cells.hpp"
#include "core/diagnostic.hpp"
#include "core/text.hpp"
#include "report/page.hpp"

namespace pullproof::report {
namespace {

using code::cell_text;
using code::CellRef;
using code::Edition;
using code::parameter_text;
using code::row_called;
using code::row_key;
using code::row_key_text;
using code::RuleRef;
using code::TableRef;

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
void head(Page& page, const Edition& edition, std::string_view kind, const Ref& e, bool with_source = true) {
  page.paragraph(0, {{fmt::format("{} {}: {}", kind, e.name(), e.title()), Ink::strong}});
  page.paragraph(0, fmt::format("{}, {}{}", edition.title(), e.clause(),
                                e.clause_basis() != Basis::published ? fmt::format(" (clause number: {})", name(e.clause_basis())) : ""));
  if (!e.seen()) page.paragraph(0, {{"Nobody has seen this in this edition: it is not covered. What follows is what it inherits.", Ink::warn}});
  if (with_source) {
    page.paragraph(0, fmt::format("{}: {}", name(e.basis()), e.source()));
    page.paragraph(0, fmt::format("{}:{}", e.origin().file, e.origin().line));
  }
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

  /// Some rows of it, and beside the columns that name a row some columns.
  void run(const std::vector<std::size_t>& rows, const std::vector<std::size_t>& columns) {
    rows_ = rows;
    keys_ = std::max<std::size_t>(1, table_.keys());
    for (std::size_t c = 0; c < keys_; ++c) columns_.push_back(c);
    for (const std::size_t c : columns)
      if (c >= keys_) columns_.push_back(c);
    for (const std::size_t c : columns_) measure(c);
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
    for (std::size_t from = keys_; from < columns_.size() || from == keys_;) {
      std::size_t to = from, cells = key_cells;
      while (to < columns_.size() && cells + widths_[to] <= page_.width()) cells += widths_[to++] + gap;
      if (from > keys_) page_.gap();
      line([&](std::size_t c) { return std::string(table_.column_name(c)); }, from, to);
      bool units = false;
      for (std::size_t i = 0; i < to; ++i) units = units || ((i < keys_ || i >= from) && !table_.column_unit(columns_[i]).empty());
      if (units) line([&](std::size_t c) { return std::string(table_.column_unit(c)); }, from, to);
      for (const std::size_t r : rows_)
        line([&](std::size_t c) { return printable(cell_text(table_.cell(r, c))) + mark(table_, table_.cell(r, c)); }, from, to);
      if (to == columns_.size()) return;
      from = to;
    }
  }

  /// The columns that name a row, and those from the `from`th before the `to`th.
  template <class Text>
  void line(Text text, std::size_t from, std::size_t to) {
    std::string s;
    for (std::size_t i = 0; i < to; ++i)
      if (i < keys_ || i >= from) s += padded(text(columns_[i]), widths_[i], right_[i]) + std::string(gap, ' ');
    page_.line(s);
  }

  void by_row() {
    for (const std::size_t r : rows_) {
      page_.paragraph(0, {{row_key_text(table_, r), Ink::strong}});
      for (const std::size_t c : columns_)
        if (c >= table_.keys()) page_.paragraph(2, fmt::format("{}: {}{}{}", table_.column_name(c), cell_text(table_.cell(r, c)), unit(c), mark(table_, table_.cell(r, c))));
    }
  }

  std::string unit(std::size_t c) const { return table_.column_unit(c).empty() ? std::string{} : fmt::format(" {}", table_.column_unit(c)); }

  Page& page_;
  const Edition& edition_;
  const TableRef& table_;
  std::vector<std::size_t> rows_, columns_, widths_;  ///< a width for each of the columns
  std::vector<bool> right_;
  std::size_t keys_ = 1;
  Remarks remarks_;
};

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

std::string unit_of(const TableRef& t, std::size_t c) { return t.column_unit(c).empty() ? std::string{} : fmt::format(" {}", t.column_unit(c)); }

/// "NFPA 70-2023, Table 310.16; published: 2021 IRC ...; rules/us-2017/conductors.toml:40"
std::string rests_on(const Citation& c) {
  return fmt::format("{}, {}{}; {}: {}{}", c.edition, c.clause, c.clause_basis != Basis::published ? fmt::format(" (its number: {})", name(c.clause_basis)) : "", name(c.basis), c.source,
                     c.origin ? fmt::format("; {}:{}", c.origin.file, c.origin.line) : "");
}

/// Whether a column names its row: by a key, or by the band that it is searched by.
bool names_row(const TableRef& t, std::size_t c) {
  if (t.keys() > 0) return c < t.keys();
  bool bands = false;
  for (std::size_t i = 0; i < t.columns(); ++i) bands = bands || t.column_name(i).starts_with("through");
  return bands ? t.column_name(c).starts_with("through") : c == 0;
}

/// A row that was looked up: each value, and below them what they rest on; where cells rest on different things, below
/// each group of them.
void show_row(Page& page, const Edition& edition, const TableRef& t, std::size_t row, const std::vector<std::size_t>& columns) {
  std::string key;
  std::vector<std::size_t> cells;
  std::size_t widest = 0;
  for (std::size_t c = 0; c < t.columns(); ++c)
    if (names_row(t, c)) key += fmt::format("{}{} {}{}", key.empty() ? "" : ", ", t.column_name(c), cell_text(t.cell(row, c)), unit_of(t, c));
  for (const std::size_t c : columns)
    if (!names_row(t, c)) {
      cells.push_back(c);
      widest = std::max(widest, display_width(t.column_name(c)));
    }
  page.paragraph(0, {{key, Ink::strong}});
  if (cells.empty()) page.paragraph(4, {{rests_on(edition.cite(t, row, 0)), Ink::faint}});
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const std::size_t c = cells[i];
    page.item(2, {std::string(t.column_name(c))}, widest, {{cell_text(t.cell(row, c)) + unit_of(t, c), Ink::strong}});
    const std::string rests = rests_on(edition.cite(t, row, c));
    if (i + 1 == cells.size() || rests_on(edition.cite(t, row, cells[i + 1])) != rests) page.paragraph(4, {{rests, Ink::faint}});
  }
}

}  // namespace

std::string entry_text(const Edition& edition, const Entry& entry, std::size_t width, bool color) {
  Page page(width, color);
  constexpr std::size_t most_in_full = 4;
  if (entry.table) {
    const bool in_full = entry.looked_up && entry.rows.size() <= most_in_full;
    head(page, edition, "table", *entry.table, !in_full);
    if (in_full) {
      for (const std::size_t r : entry.rows) {
        page.gap();
        show_row(page, edition, *entry.table, r, entry.columns);
      }
    } else {
      TablePrinter(page, edition, *entry.table).run(entry.rows, entry.columns);
    }
  }
  if (entry.rule) {
    page.gap();
    head(page, edition, "rule", *entry.rule);
    show_rule(page, edition, *entry.rule);
  }
  return page.take();
}

}  // namespace pullproof::report
