// explain: what a check is about, and what it rests on.
#include "report/explain.hpp"

#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "core/text.hpp"

namespace pullproof::cli {

int explain(const Options& options) {
  const bool color = wants_color(options.color);
  if (options.words.empty()) {
    put(report::checks_text(page_width(), color));
    return status_pass;
  }
  const Check* check = find_check(options.words[0]);
  if (check == nullptr) {
    const std::string& word = options.words[0];
    std::vector<std::string_view> ids, about;
    for (const Check* c : all_checks()) {
      ids.push_back(c->id);
      if (c->id.find(word) != std::string_view::npos || c->title.find(word) != std::string_view::npos) about.push_back(c->id);
    }
    throw CommandError(fmt::format("there is no check '{}'", word), about.size() > 1             ? fmt::format("of that there are: {}", fmt::join(about, ", "))
                                                                    : nearest(word, ids).empty() ? "`pullproof explain` lists them"
                                                                                                 : suggestion(word, ids));
  }
  put(report::check_text(*check, need_edition(open_shelf(options), options), page_width(), color));
  return status_pass;
}

}  // namespace pullproof::cli
