// rules list: the editions there are, and what is in one.
#include <fmt/format.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "report/page.hpp"

namespace pullproof::cli {
namespace {

using report::Ink;
using report::Page;

void list_editions(Page& page, const Shelf& shelf) {
  const auto ids = edition_ids(*shelf.store);
  std::size_t widest = 0;
  for (const std::string_view id : ids) widest = std::max(widest, id.size());
  for (const std::string_view id : ids) {
    const auto e = code::Edition::find(shelf.store, id);
    std::string s(e->title());
    if (!e->base().empty()) s += fmt::format(", on {}", e->base());
    if (!e->ordinance().empty()) s += fmt::format(", {}", e->ordinance());
    if (!e->adopted().empty()) s += fmt::format(", adopted {}", e->adopted());
    std::size_t unseen = 0;
    for (std::size_t i = 0; i < e->table_count(); ++i) unseen += e->table_at(i).seen() ? 0u : 1u;
    for (std::size_t i = 0; i < e->rule_count(); ++i) unseen += e->rule_at(i).seen() ? 0u : 1u;
    if (unseen > 0) s += fmt::format("; {} of its {} tables and rules were not seen and are not covered", unseen, e->table_count() + e->rule_count());
    page.item(0, {std::string(id), Ink::strong}, widest, {{s}});
  }
}

template <class Ref>
void line(Page& page, const Ref& e) {
  std::string s = fmt::format(" [{}", e.clause());
  if (!e.seen()) s += "; not seen: not covered";
  else if (e.basis() != Basis::published) s += fmt::format("; {}", name(e.basis()));
  page.paragraph(2, {{std::string(e.name()), Ink::strong}, {s + "]", Ink::faint}, {fmt::format(" {}", e.title())}});
}

void list_entries(Page& page, const code::Edition& e) {
  page.paragraph(0, {{fmt::format("{}: {}", e.id(), e.title()), Ink::strong}});
  page.gap();
  page.paragraph(0, fmt::format("{} tables:", e.table_count()));
  for (std::size_t i = 0; i < e.table_count(); ++i) line(page, e.table_at(i));
  page.gap();
  page.paragraph(0, fmt::format("{} rules:", e.rule_count()));
  for (std::size_t i = 0; i < e.rule_count(); ++i) line(page, e.rule_at(i));
}

}  // namespace

int rules_list(const Options& options) {
  Page page(page_width(), wants_color(options.color));
  const Shelf shelf = open_shelf(options);
  if (options.words.empty()) list_editions(page, shelf);
  else list_entries(page, need_edition(shelf, options.words[0]));
  put(page.take());
  return status_pass;
}

}  // namespace pullproof::cli
