// keys: what a case may say.
#include "job/key-list.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "cli/terminal.hpp"
#include "report/explain.hpp"
#include "report/page.hpp"

namespace pullproof::cli {

int keys(const Options& options) {
  using report::Ink;
  const auto tables = key_tables();
  std::string wanted = options.words.empty() ? std::string{} : options.words[0], only;
  const bool known = wanted.empty() || std::any_of(tables.begin(), tables.end(), [&](const KeyTable& t) { return t.name == wanted; });
  if (const auto found = known ? std::nullopt : report::key_read(tables, wanted)) {  // "breaker" is "circuit.breaker"
    wanted = found->table->name;
    if (found->key != nullptr) only = found->key->key;
  }
  report::Page page(page_width(), wants_color(options.color));
  bool any = false;
  for (const KeyTable& t : tables) {
    if (!only.empty() ? t.name != wanted : !wanted.empty() && t.name != wanted && !t.name.starts_with(wanted + ".")) continue;
    any = true;
    page.gap();
    page.paragraph(0, {{t.header, Ink::strong}, {t.meaning.empty() ? "" : ": " + t.meaning}});
    for (const Key& k : t.keys) {
      if (!only.empty() && k.key != only) continue;
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
