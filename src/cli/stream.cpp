// stream: one case a line in, one report a line out, in order.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <thread>

#include "cli/commands.hpp"
#include "cli/in-order.hpp"
#include "cli/lines.hpp"
#include "cli/open_case.hpp"
#include "cli/shelf.hpp"
#include "cli/stopping.hpp"
#include "cli/tally.hpp"
#include "cli/terminal.hpp"
#include "engine/run.hpp"
#include "job/read.hpp"
#include "job/record.hpp"
#include "report/json.hpp"

namespace pullproof::cli {
namespace {

/// A line of a stream on its way through.
struct Piece {
  std::size_t number = 0;
  bool too_long = false;
  std::string line, out;
  int status = status_bad;
};

/// JSON writes some characters of a case as six.
constexpr std::size_t longest_line = 6 * largest_case + 1024;

}  // namespace

int stream(const Options& options) {
  const std::string source = options.words.empty() ? "-" : options.words[0];
  const std::string source_name = source == "-" ? std::string("(standard input)") : source;
  const Shelf shelf = open_shelf(options);
  std::optional<code::Edition> instead;
  if (!options.edition.empty()) instead = need_edition(shelf, options.edition);
  Lines lines(source);
  Tally tally;
  std::size_t number = 0, written = 0;

  const auto next = [&](Piece& p) {
    for (;;) {
      const Lines::Got got = lines.next(p.line, longest_line);
      if (got == Lines::Got::end || !output_wanted()) return false;
      p.number = ++number;
      p.too_long = got == Lines::Got::too_long;
      if (p.number >= options.from) return true;
    }
  };
  const auto work = [&](Piece& p) {
    Diagnostics diagnostics;
    CaseRecord record{fmt::format("line {}", p.number), {}};
    if (p.too_long) diagnostics.add({source_name, static_cast<std::uint32_t>(p.number), 1, 1, "the line is too long for a case", {}, {}});
    else record = read_record(p.line, p.number, source_name, diagnostics);
    std::optional<LoadedCase> loaded;
    if (diagnostics.empty()) loaded = load_case(shelf, record.name, std::move(record.text), instead, diagnostics);
    if (loaded) {
      const Report report = run_checks(loaded->job, loaded->edition);
      p.out = report::json_record(p.number, report, options.full);
      p.status = status_of(report);
    } else {
      p.out = report::json_record(p.number, record.name, diagnostics.sorted());
    }
  };
  const auto done = [&](const Piece& p) {
    put(p.out);
    flush();  // whoever sends a line and waits for its report gets it
    written = p.number;
    tally.add(p.status);
  };

  stop_when_asked();
  in_order<Piece>(options.jobs == 0 ? std::max(1U, std::thread::hardware_concurrency()) : options.jobs, next, work, done);
  tally.clear();
  if (stop_wanted()) {
    fmt::print(stderr, "pullproof: stopped after line {}: {}\n  note: go on with --from {}\n", written, tally.summary(), written + 1);
    return stopped_status();
  }
  fmt::print(stderr, "pullproof: {}\n", tally.summary());
  return tally.worst();
}

}  // namespace pullproof::cli
