// keys: what a case may say.
#include "job/key-list.hpp"

#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/terminal.hpp"
#include "report/page.hpp"

namespace pullproof::cli {

int keys(const Options& options) {
  using report::Ink;
  const auto tables = key_tables();
  const std::string wanted = options.words.empty() ? std::string{} : options.words[0];
  report::Page page(page_width(), wants_color(options.color));
  bool any = false;
  for (const KeyTable& t : tables) {
    if (!wanted.empty() && t.name != wanted && !t.name.starts_with(wanted + ".")) continue;
    any = true;
    page.gap();
    page.paragraph(0, {{t.header, Ink::strong}, {t.meaning.empty() ? "" : ": " + t.meaning}});
    for (const Key& k : t.keys) {
      page.paragraph(2, {{k.key, Ink::strong}, {fmt::format(": {}", k.meaning)}}, 4);
      page.paragraph(6, {{k.range.empty() ? k.value : fmt::format("{}, {}", k.value, k.range), Ink::faint}});
    }
  }
  if (!any) {
    std::vector<std::string_view> names;
    for (const KeyTable& t : tables)
      if (!t.name.empty()) names.push_back(t.name);
    throw CommandError(fmt::format("a case has no table '{}'", wanted), suggestion(wanted, names));
  }
  put(page.take());
  return status_pass;
}

}  // namespace pullproof::cli
