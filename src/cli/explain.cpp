// explain: what a check is about, and what it rests on.
#include <fmt/format.h>

#include <sstream>

#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "engine/check.hpp"
#include "report/page.hpp"

namespace pullproof::cli {
namespace {

using report::Ink;
using report::Page;

std::vector<std::string> split(std::string_view list) {
  std::vector<std::string> out;
  std::istringstream in{std::string(list)};
  for (std::string s; std::getline(in, s, ',');) {
    s.erase(0, std::min(s.find_first_not_of(' '), s.size()));
    if (!s.empty()) out.push_back(s);
  }
  return out;
}

/// One table or rule that a check asks, as the edition has it.
template <class Ref>
void entry(Page& page, std::string_view kind, const Ref& e) {
  page.paragraph(2, {{fmt::format("{} {}", kind, e.name()), Ink::strong}, {fmt::format(", {}", e.clause())}});
  page.paragraph(4, e.title());
  if (!e.seen()) return page.paragraph(4, "not seen in this edition: not covered");
  page.paragraph(4, fmt::format("{}{}: {}", name(e.basis()),
                                e.clause_basis() != e.basis() ? fmt::format(" (clause number: {})", name(e.clause_basis())) : "", e.source()));
}

void list_checks(Page& page) {
  std::size_t widest = 0;
  for (const Check* c : all_checks()) widest = std::max(widest, c->id.size());
  for (const Check* c : all_checks()) page.item(0, {std::string(c->id), Ink::strong}, widest, {{std::string(c->title)}});
}

}  // namespace

int explain(const Options& options) {
  Page page(page_width(), wants_color(options.color));
  if (options.words.empty()) {
    list_checks(page);
    put(page.take());
    return status_pass;
  }
  const Check* check = find_check(options.words[0]);
  if (check == nullptr) {
    std::vector<std::string_view> ids;
    for (const Check* c : all_checks()) ids.push_back(c->id);
    throw CommandError(fmt::format("there is no check '{}'", options.words[0]), suggestion(options.words[0], ids));
  }
  const auto edition = need_edition(open_shelf(options), options.edition.empty() ? usual_edition : options.edition);
  page.paragraph(0, {{fmt::format("{}: {}", check->id, check->title), Ink::strong}});
  page.gap();
  page.paragraph(0, check->about, 0);
  if (!check->formula.empty()) {
    page.gap();
    page.paragraph(0, {{"Sum: ", Ink::strong}, {std::string(check->formula)}});
  }
  page.gap();
  page.paragraph(0, {{"Reads: ", Ink::strong}, {std::string(check->reads)}});
  page.gap();
  page.paragraph(0, {{fmt::format("Asks, in {}:", edition.title()), Ink::strong}});
  for (const std::string& name : split(check->rules)) {
    const auto table = edition.table(name);
    const auto rule = edition.rule(name);
    if (table) entry(page, "table", *table);
    if (rule) entry(page, "rule", *rule);
    if (!table && !rule) page.paragraph(2, fmt::format("{}: not in this edition", name));
  }
  put(page.take());
  return status_pass;
}

}  // namespace pullproof::cli
