// rules show: a table or rule as an edition has it, or what was looked up in it.
#include <fmt/format.h>

#include <algorithm>

#include "answers/look-up.hpp"
#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "code/cells.hpp"
#include "core/text.hpp"
#include "report/entry.hpp"

namespace pullproof::cli {
namespace {

using code::row_key;
using code::TableRef;

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

void choose(report::Entry& entry, const code::Edition& edition, const Options& options) {
  const TableRef& t = *entry.table;
  for (std::size_t c = 0; c < t.columns(); ++c)
    if (c >= t.keys()) entry.columns.push_back(c);
  entry.rows = chosen_rows(t, options.rows);
  if (options.filters.empty()) return;
  std::vector<answers::Asked> asked;
  for (const Filter& f : options.filters) asked.push_back({f.name, f.value});
  answers::LookedUp found = answers::look_up(edition, t, asked);
  if (!found.error.empty()) throw CommandError(found.error, found.note);
  if (!options.rows.empty()) std::erase_if(found.rows, [&](std::size_t r) { return std::find(entry.rows.begin(), entry.rows.end(), r) == entry.rows.end(); });
  if (found.rows.empty()) throw CommandError(fmt::format("the table '{}' has no row that is all of this", t.name()));
  entry.rows = std::move(found.rows);
  entry.columns = std::move(found.columns);
  entry.looked_up = true;
}

}  // namespace

int rules_show(const Options& options) {
  const code::Edition edition = need_edition(open_shelf(options), options);
  const std::string& name = options.words[0];
  report::Entry entry;
  entry.table = edition.table(name);
  entry.rule = edition.rule(name);
  if (!entry.table && !entry.rule) {
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < edition.table_count(); ++i) names.push_back(edition.table_at(i).name());
    for (std::size_t i = 0; i < edition.rule_count(); ++i) names.push_back(edition.rule_at(i).name());
    throw CommandError(fmt::format("{} has no table or rule '{}'", edition.title(), name),
                       nearest(name, names).empty() ? fmt::format("`pullproof rules list {}` lists them", edition.id()) : suggestion(name, names));
  }
  if (entry.table) choose(entry, edition, options);
  else if (!options.rows.empty() || !options.filters.empty()) throw CommandError(fmt::format("'{}' is a rule and has no rows", name), fmt::format("`pullproof rules show {}` prints all of it", name));
  if (entry.looked_up) entry.rule.reset();
  put(options.format == Format::json ? report::entry_json(edition, entry, PULLPROOF_VERSION) : report::entry_text(edition, entry, page_width(), wants_color(options.color)));
  return status_pass;
}

}  // namespace pullproof::cli
