// check: reads cases, checks them and reports, as many at once as there are processors.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <memory>
#include <thread>

#include "answers/remedies.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/in-order.hpp"
#include "cli/open_case.hpp"
#include "cli/shelf.hpp"
#include "cli/sources.hpp"
#include "cli/stopping.hpp"
#include "cli/tally.hpp"
#include "cli/terminal.hpp"
#include "engine/run.hpp"
#include "job/read.hpp"
#include "report/json.hpp"
#include "report/summary.hpp"
#include "report/text.hpp"

namespace pullproof::cli {
namespace {

/// A case on its way through.
struct Piece {
  Sources::Source source;
  std::string name;
  FileText file;
  std::optional<Report> report;  ///< of a case that could be read
  std::vector<Diagnostic> complaints;
  std::string note, text;  ///< what is said before the report, and the report, for people
  int status = status_bad;
};

/// "fail        jobs/a.toml: circuit heater ampacity, gfci; supply panel-room"
std::string brief_line(const Piece& p) {
  constexpr const char* outcomes[] = {"pass", "fail", "unreadable", "open"};
  std::string s = fmt::format("{:<10}  {}", outcomes[p.status], printable(p.name));
  if (!p.report) return s + '\n';
  const auto fails = report::with_verdict(*p.report, Verdict::fail);
  const char* before_subject = ": ";
  for (const std::string_view subject : report::subjects_of(fails)) {
    s += fmt::format("{}{}", before_subject, printable(subject));
    const char* before_check = " ";
    std::string_view said;
    for (const Finding* f : fails) {
      if (f->subject != subject || f->check == said) continue;
      s += fmt::format("{}{}", before_check, f->check);
      said = f->check;
      before_check = ", ";
    }
    before_subject = "; ";
  }
  return s + '\n';
}

/// Where reports go, in the form that was asked for.
class Output {
 public:
  explicit Output(const Options& o)
      : text_{o.color == Color::never ? false : wants_color(o.color), o.full, page_width()}, brief_(o.brief) {
    if (o.format == Format::json) json_ = std::make_unique<report::JsonReports>(PULLPROOF_VERSION);
  }

  /// Lays out a report; may be called beside itself.
  void prepare(Piece& p) const {
    if (json_) return;
    p.text = brief_ ? brief_line(p) : report::as_text(*p.report, text_);
    p.report.reset();
  }

  void add(Piece& p) {
    if (p.report && json_) {
      json_->add(*p.report);
      put(json_->take());
    } else if (!p.complaints.empty()) {
      add_unreadable(p);
    } else {
      if (!brief_) put(first_ ? "" : rule());
      put(p.note);
      put(p.text);
      first_ = false;
    }
    if (!json_) flush();  // whoever waits for a case gets it
  }

  void finish(int status) {
    if (json_) {
      json_->finish(status);
      put(json_->take());
    }
    flush();
  }

 private:
  void add_unreadable(const Piece& p) {
    if (brief_ && !json_) put(brief_line(p));
    flush();
    for (const Diagnostic& d : p.complaints) fmt::print(stderr, "{}", render(d));
    if (!json_) return;
    json_->add_unreadable(p.name, p.complaints);
    put(json_->take());
  }

  std::string rule() const { return "\n" + std::string(text_.width, '=') + "\n\n"; }
  report::TextOptions text_;
  std::unique_ptr<report::JsonReports> json_;
  bool brief_, first_ = true;
};

/// What was written into the case, or why nothing was.
std::string applied_text(const std::string& file, const Report& before, const answers::Repair& repair, bool written) {
  std::string s = written ? fmt::format("Written into {}:\n", file) : std::string{};
  std::vector<std::string> seen;
  for (const Remedy& r : before.remedies)
    for (const Change& c : r.changes) {
      const auto edit = std::find_if(repair.edits.begin(), repair.edits.end(), [&](const Edit& e) { return e.key == c.path; });
      if (!written || edit == repair.edits.end() || std::find(seen.begin(), seen.end(), c.path) != seen.end()) continue;
      seen.push_back(c.path);
      s += fmt::format("  {}: {} = {}{}\n", c.subject, c.key, edit->value, c.was.empty() ? " (new)" : fmt::format(" (was {})", c.was));
    }
  if (written) return s + "\n";
  if (repair.edits.empty()) return fmt::format("Nothing was written into {}: no change was found that mends what fails.\n\n", file);
  return fmt::format("Nothing was written into {}: something fails in spite of every change that was\nfound. --apply-partial writes those that mend the rest.\n\n", file);
}

/// Looks for what mends a case, and writes it into its file if asked to.
void mend(Piece& p, const answers::Draft& draft, const Options& options) {
  const answers::Repair repair = answers::add_remedies(*p.report, draft);
  if (options.apply == Apply::nothing) return;
  const bool write = !repair.edits.empty() && (repair.complete || options.apply == Apply::partial);
  if (options.format == Format::text && !options.brief) p.note = applied_text(p.name, *p.report, repair, write);
  if (!write) return;
  write_file(p.source.name, draft.edited(repair.edits));
  p.report = run_checks(draft.with(repair.edits), draft.edition);
}

void refuse_nonsense(const Options& options) {
  if (options.words.empty() && options.list.empty()) throw CommandError("'check' wants FILE..., or --list", "`pullproof check --help` says more");
  const auto inputs = std::count(options.words.begin(), options.words.end(), "-") + (options.list == "-" ? 1 : 0);
  if (inputs > 1) throw CommandError("standard input can be read once", "name '-' once");
  if (options.apply != Apply::nothing && std::count(options.words.begin(), options.words.end(), "-") > 0)
    throw CommandError("--apply writes into the file of the case, and standard input is none");
  if (options.null && options.list.empty()) throw CommandError("--null says how the names of a list end, and there is no --list");
  if (options.brief && options.format == Format::json) throw CommandError("--brief is a form for people; JSON has its own");
  if (options.brief && options.full) throw CommandError("--brief and --full exclude each other");
}

bool is_folder(const std::string& word) {
  std::error_code ignored;
  return word != "-" && std::filesystem::is_directory(word, ignored);
}

}  // namespace

int check(const Options& options) {
  refuse_nonsense(options);
  const bool one = options.list.empty() && options.words.size() == 1 && !is_folder(options.words[0]);
  const bool remedies = options.remedies == Remedies::always || options.apply != Apply::nothing ||
                        (options.remedies == Remedies::automatic && one && !options.brief);
  const Shelf shelf = open_shelf(options);
  std::optional<code::Edition> instead;
  if (!options.edition.empty()) instead = need_edition(shelf, options.edition);
  Sources sources(options);
  Output output(options);
  Tally tally;
  std::size_t last = options.from - 1;

  const auto next = [&](Piece& p) {
    while (!stop_wanted() && output_wanted() && sources.next(p.source)) {
      if (p.source.number < options.from) continue;
      p.name = p.source.name == "-" ? std::string(stdin_name) : p.source.name;
      if (p.source.name == "-" && p.source.trouble.empty()) p.file = read_file("-", largest_case);
      return true;
    }
    return false;
  };
  const auto work = [&](Piece& p) {
    Diagnostics diagnostics;
    if (p.source.name != "-" && p.source.trouble.empty()) p.file = read_file(p.source.name, largest_case);
    if (p.source.trouble.empty() && !p.file.error.empty()) p.source.trouble = fmt::format("the case cannot be read: {}", p.file.error);
    std::optional<LoadedCase> loaded;
    if (!p.source.trouble.empty()) diagnostics.add({p.name, 0, 0, 1, p.source.trouble, {}, {}});
    else loaded = load_case(shelf, p.name, remedies ? p.file.text : std::move(p.file.text), instead, diagnostics);
    if (!loaded) {
      p.complaints = diagnostics.sorted();
      return;
    }
    p.report = run_checks(loaded->job, loaded->edition);
    try {
      if (remedies && p.report->outcome() == Outcome::fail) mend(p, {p.name, std::move(p.file.text), loaded->edition}, options);
    } catch (const CommandError& error) {  // it could not be written; the other cases are not to suffer
      p.report.reset();
      p.complaints = {{p.name, 0, 0, 1, error.what(), error.note, {}}};
      return;
    }
    p.status = status_of(*p.report);
    output.prepare(p);
  };
  const auto done = [&](Piece& p) {
    output.add(p);
    last = p.source.number;
    tally.add(p.status);
    p = {};  // a report is large, and the pieces are many
  };

  if (!one) stop_when_asked();
  const bool in_turn = one || options.apply != Apply::nothing;  // a file that is named twice must not be written by two
  in_order<Piece>(in_turn ? 1 : options.jobs == 0 ? std::max(1U, std::thread::hardware_concurrency()) : options.jobs, next, work, done);
  tally.clear();
  const bool none = tally.count() == 0 && !stop_wanted() && output_wanted();
  const int status = stop_wanted() ? stopped_status() : none ? status_bad : tally.worst();
  output.finish(status);
  if (stop_wanted()) fmt::print(stderr, "pullproof: stopped after case {}: {}\n  note: go on with --from {}\n", last, tally.summary(), last + 1);
  else if (none) complain("no case was checked", options.from > 1 ? fmt::format("there are fewer than {} cases", options.from) : "the list names none");
  else if (!one) fmt::print(stderr, "pullproof: {}\n", tally.summary());
  return status;
}

}  // namespace pullproof::cli
