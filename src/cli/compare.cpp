// compare: two cases, or one case under two editions.
#include "answers/compare.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/open_case.hpp"
#include "cli/terminal.hpp"
#include "engine/run.hpp"
#include "job/edit.hpp"
#include "job/read.hpp"
#include "report/compare.hpp"

namespace pullproof::cli {
namespace {

/// Whether a word names an edition or an amendment file, and no case. In an amendment `edition` is a table.
bool names_edition(const Shelf& shelf, const std::string& word) {
  const auto ids = edition_ids(*shelf.store);
  if (std::find(ids.begin(), ids.end(), word) != ids.end()) return true;
  if (word == "-") return false;
  const FileText file = read_file(word, largest_case);
  return file.error.empty() && !value_at(file.text, "edition.base").empty();
}

answers::Side side_of(const Shelf& shelf, const std::string& file, const std::string& edition) {
  OpenedCase opened = open_case(shelf, file, edition);
  Report report = run_checks(opened.job, opened.draft.edition);
  return {std::move(opened.draft), std::move(report)};
}

}  // namespace

int compare(const Options& options) {
  const Shelf shelf = open_shelf(options);
  const std::vector<std::string>& words = options.words;
  if (std::count(words.begin(), words.end(), "-") > 1) throw CommandError("standard input can be read once", "name '-' once");
  if (names_edition(shelf, words[0])) throw CommandError(fmt::format("'{}' is an edition; the case comes first", words[0]), "pullproof compare case.toml us-2020 us-2023");
  const bool editions = names_edition(shelf, words[1]);
  if (words.size() == 3 && (!editions || !names_edition(shelf, words[2])))
    throw CommandError(fmt::format("'{}' is no edition", editions ? words[2] : words[1]), "two cases; or one case and one or two editions or amendment files");
  if (editions && !options.edition.empty()) throw CommandError("--edition is for two cases", "name the editions after the case");
  if (editions && words[0] == "-") throw CommandError("a case that is read twice is a file", "write standard input into a file first");
  const answers::Side a = side_of(shelf, words[0], words.size() == 3 ? words[1] : options.edition);
  const answers::Side b = editions ? side_of(shelf, words[0], words.back()) : side_of(shelf, words[1], options.edition);
  const answers::Comparison found = answers::compare(a, b);
  const int status = worse(status_of(a.report), status_of(b.report));
  if (options.format == Format::json) put(report::as_json(found, a, b, PULLPROOF_VERSION, status));
  else put(report::as_text(found, a, b, {wants_color(options.color), false, page_width()}));
  return status;
}

}  // namespace pullproof::cli
