// rules diff: what two editions say differently.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "code/difference.hpp"
#include "report/page.hpp"

namespace pullproof::cli {

int rules_diff(const Options& options) {
  using report::Ink;
  const Shelf shelf = open_shelf(options);
  const code::Edition a = need_edition(shelf, options.words[0]), b = need_edition(shelf, options.words[1]);
  report::Page page(page_width(), wants_color(options.color));
  page.paragraph(0, {{fmt::format("{} ({}) against {} ({})", a.id(), a.title(), b.id(), b.title()), Ink::strong}});
  std::size_t count = 0;
  const auto all = code::differences(a, b);
  for (const code::EntryDifference& e : all) {
    page.gap();
    const std::string called = fmt::format("{} {}", e.table ? "table" : "rule", e.name);
    if (!e.only_in.empty()) {
      page.paragraph(0, {{called, Ink::strong}, {fmt::format(" is only in {}: {} [{}]", e.only_in, e.title, e.clause)}});
      ++count;
      continue;
    }
    page.paragraph(0, {{called, Ink::strong}});
    for (const code::Difference& d : e.inside)
      page.paragraph(2, {{d.what + ": "}, {fmt::format("{} -> {}", d.was, d.now), Ink::strong}, {d.origin ? fmt::format(" ({}:{})", d.origin.file, d.origin.line) : "", Ink::faint}});
    count += e.inside.size();
  }
  page.gap();
  const auto many = [](std::size_t n) { return n == 1 ? "" : "s"; };
  page.paragraph(0, all.empty() ? "They say the same." : fmt::format("{} difference{} in {} table{} or rule{}.", count, many(count), all.size(), many(all.size()), many(all.size())));
  put(page.take());
  return status_pass;
}

}  // namespace pullproof::cli
