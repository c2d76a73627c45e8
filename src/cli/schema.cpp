// schema: the JSON Schema of a case.
#include "job/schema.hpp"

#include "cli/commands.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"

namespace pullproof::cli {

int schema(const Options& options) {
  const auto edition = need_edition(open_shelf(options), usual_edition);
  put(case_schema([&](std::string_view table) {
    std::vector<std::string> words;
    if (const auto t = edition.table(table))
      for (std::size_t r = 0; r < t->rows(); ++r) words.emplace_back(t->cell(r, std::size_t{0}).text());
    return words;
  }));
  return status_pass;
}

}  // namespace pullproof::cli
