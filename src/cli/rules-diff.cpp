// rules diff: what two editions say differently.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "cli/cells.hpp"
#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "report/page.hpp"

namespace pullproof::cli {
namespace {

using code::Edition;
using code::RuleRef;
using code::TableRef;
using report::Ink;
using report::Page;

class Comparison {
 public:
  Comparison(Page& page, const Edition& a, const Edition& b) : page_(page), a_(a), b_(b) {}

  void run() {
    page_.paragraph(0, {{fmt::format("{} ({}) against {} ({})", a_.id(), a_.title(), b_.id(), b_.title()), Ink::strong}});
    entries<TableRef>("table", a_.table_count(), b_.table_count(), [](const Edition& e, std::size_t i) { return e.table_at(i); },
                      [this](const TableRef& a, const TableRef& b) { cells(a, b); });
    entries<RuleRef>("rule", a_.rule_count(), b_.rule_count(), [](const Edition& e, std::size_t i) { return e.rule_at(i); },
                     [this](const RuleRef& a, const RuleRef& b) { parameters(a, b); });
    page_.gap();
    page_.paragraph(0, differences_ == 0 ? "They say the same." : fmt::format("{} difference{} in {} table{} or rule{}.", differences_, differences_ == 1 ? "" : "s", entries_,
                                                                                  entries_ == 1 ? "" : "s", entries_ == 1 ? "" : "s"));
  }

 private:
  /// Walks two lists that are sorted by name side by side.
  template <class Ref, class At, class Inside>
  void entries(std::string_view kind, std::size_t count_a, std::size_t count_b, At at, Inside inside) {
    for (std::size_t i = 0, j = 0; i < count_a || j < count_b;) {
      const bool left = j == count_b || (i < count_a && at(a_, i).name() < at(b_, j).name());
      const bool right = !left && (i == count_a || at(b_, j).name() < at(a_, i).name());
      if (left) only(kind, at(a_, i++), a_);
      else if (right) only(kind, at(b_, j++), b_);
      else {
        const Ref a = at(a_, i++), b = at(b_, j++);
        open_ = fmt::format("{} {}", kind, a.name());
        fields(a, b);
        inside(a, b);
        open_.clear();
      }
    }
  }

  template <class Ref>
  void only(std::string_view kind, const Ref& e, const Edition& where) {
    page_.gap();
    page_.paragraph(0, {{fmt::format("{} {}", kind, e.name()), Ink::strong}, {fmt::format(" is only in {}: {} [{}]", where.id(), e.title(), e.clause())}});
    ++differences_;
    ++entries_;
  }

  void say(const std::string& what, std::string_view was, std::string_view now, const std::string& origin = {}) {
    if (was == now) return;
    if (!open_.empty()) {
      page_.gap();
      page_.paragraph(0, {{open_, Ink::strong}});
      open_.clear();
      ++entries_;
    }
    ++differences_;
    page_.paragraph(2, {{what + ": "}, {fmt::format("{} -> {}", was, now), Ink::strong}, {origin.empty() ? "" : fmt::format(" ({})", origin), Ink::faint}});
  }

  template <class Ref>
  void fields(const Ref& a, const Ref& b) {
    say("title", a.title(), b.title());
    say("clause", a.clause(), b.clause());
    say("basis", name(a.basis()), name(b.basis()));
    say("source", a.source(), b.source());
    say("seen", a.seen() ? "yes" : "no: not covered", b.seen() ? "yes" : "no: not covered");
  }

  static std::string origin(const code::CellRef& cell) {
    const Where at = cell.origin();
    return at ? fmt::format("{}:{}", at.file, at.line) : std::string{};
  }

  void cells(const TableRef& a, const TableRef& b) {
    std::set<std::size_t> met;
    for (std::size_t r = 0; r < a.rows(); ++r) {
      const auto other = row_called(b, row_key(a, r));
      if (!other) {
        say(fmt::format("row {}", row_key_text(a, r)), whole(a, r), "no such row");
        continue;
      }
      met.insert(*other);
      for (std::size_t c = 0; c < a.columns(); ++c) {
        const std::string_view column = a.column_name(c);
        if (!b.has_column(column)) continue;
        const auto cell = b.cell(*other, column);
        say(fmt::format("{}, {}", row_key_text(a, r), column), cell_text(a.cell(r, c)), cell_text(cell), origin(cell));
      }
    }
    for (std::size_t r = 0; r < b.rows(); ++r)
      if (!met.contains(r)) say(fmt::format("row {}", row_key_text(b, r)), "no such row", whole(b, r), origin(b.cell(r, std::size_t{0})));
    columns(a, b);
  }

  void columns(const TableRef& a, const TableRef& b) {
    for (std::size_t c = 0; c < a.columns(); ++c)
      if (!b.has_column(a.column_name(c))) say(fmt::format("column {}", a.column_name(c)), "there", "not there");
    for (std::size_t c = 0; c < b.columns(); ++c)
      if (!a.has_column(b.column_name(c))) say(fmt::format("column {}", b.column_name(c)), "not there", "there");
  }

  static std::string whole(const TableRef& t, std::size_t row) {
    std::string s;
    for (std::size_t c = 0; c < t.columns(); ++c) s += fmt::format("{}{}", c == 0 ? "" : ", ", cell_text(t.cell(row, c)));
    return s;
  }

  void parameters(const RuleRef& a, const RuleRef& b) {
    std::set<std::string_view> names;
    for (std::size_t i = 0; i < a.parameters(); ++i) names.insert(a.parameter_name(i));
    for (std::size_t i = 0; i < b.parameters(); ++i) names.insert(b.parameter_name(i));
    const auto text = [](const RuleRef& r, std::string_view n) {
      const std::string s = parameter_text(r, n);
      return s.empty() ? "nothing" : s;
    };
    for (const std::string_view n : names) say(std::string(n), text(a, n), text(b, n), origin(b[n]));
  }

  Page& page_;
  const Edition &a_, &b_;
  std::string open_;  ///< the entry being compared, until its heading is printed
  std::size_t differences_ = 0, entries_ = 0;
};

}  // namespace

int rules_diff(const Options& options) {
  const Shelf shelf = open_shelf(options);
  const Edition a = need_edition(shelf, options.words[0]), b = need_edition(shelf, options.words[1]);
  Page page(page_width(), wants_color(options.color));
  Comparison(page, a, b).run();
  put(page.take());
  return status_pass;
}

}  // namespace pullproof::cli
