// reach: how far each run may go.
#include "answers/reach.hpp"

#include "cli/commands.hpp"
#include "cli/open_case.hpp"
#include "cli/terminal.hpp"
#include "engine/run.hpp"
#include "report/reach.hpp"

namespace pullproof::cli {

int reach(const Options& options) {
  const Shelf shelf = open_shelf(options);
  const OpenedCase opened = open_case(shelf, options.words.front(), options.edition);
  const Report now = run_checks(opened.job, opened.draft.edition);
  const answers::Reach found = answers::reach_of(opened.draft, !options.ignore_advice);
  const int status = status_of(now);
  if (options.format == Format::json) put(report::as_json(found, now, PULLPROOF_VERSION, status));
  else put(report::as_text(found, now, {wants_color(options.color), false, page_width()}));
  return status;
}

}  // namespace pullproof::cli
