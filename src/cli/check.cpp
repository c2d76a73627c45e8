// check: reads cases, checks them and reports.
#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <memory>

#include "answers/remedies.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/open_case.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "engine/run.hpp"
#include "job/read.hpp"
#include "report/json.hpp"
#include "report/text.hpp"

namespace pullproof::cli {
namespace {

/// Where reports go, in the form that was asked for.
class Output {
 public:
  explicit Output(const Options& o) : text_{o.color == Color::never ? false : wants_color(o.color), o.full, page_width()} {
    if (o.format == Format::json) json_ = std::make_unique<report::JsonReports>(PULLPROOF_VERSION);
  }

  void add(const Report& report) {
    if (json_) {
      json_->add(report);
      put(json_->take());
    } else {
      put(first_ ? "" : rule());
      put(report::as_text(report, text_));
    }
    first_ = false;
  }

  /// Words before the next report.
  void note(std::string_view text) {
    put(first_ ? "" : rule());
    put(text);
    first_ = true;
  }

  void add_unreadable(std::string_view file, const std::vector<Diagnostic>& complaints) {
    flush();
    for (const Diagnostic& d : complaints) fmt::print(stderr, "{}", render(d));
    if (!json_) return;
    json_->add_unreadable(file, complaints);
    put(json_->take());
  }

  void finish(int status) {
    if (json_) {
      json_->finish(status);
      put(json_->take());
    }
    flush();
  }

 private:
  std::string rule() const { return "\n" + std::string(text_.width, '=') + "\n\n"; }
  report::TextOptions text_;
  std::unique_ptr<report::JsonReports> json_;
  bool first_ = true;
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

}  // namespace

int check(const Options& options) {
  if (std::count(options.words.begin(), options.words.end(), "-") > 1)
    throw CommandError("standard input can be read once", "name '-' once");
  if (options.apply != Apply::nothing && std::count(options.words.begin(), options.words.end(), "-") > 0)
    throw CommandError("--apply writes into the file of the case, and standard input is none");
  const bool remedies = options.remedies == Remedies::always || options.apply != Apply::nothing ||
                        (options.remedies == Remedies::automatic && options.words.size() == 1);
  const Shelf shelf = open_shelf(options);
  std::optional<code::Edition> instead;
  if (!options.edition.empty()) instead = need_edition(shelf, options.edition);
  Output output(options);
  int status = status_pass;
  for (const std::string& word : options.words) {
    const std::string name = word == "-" ? std::string(stdin_name) : word;
    FileText file = read_file(word, largest_case);
    Diagnostics diagnostics;
    std::optional<LoadedCase> loaded;
    std::string text = file.text;
    if (!file.error.empty()) diagnostics.add({name, 0, 0, 1, fmt::format("the case cannot be read: {}", file.error), {}, {}});
    else loaded = load_case(shelf, name, std::move(file.text), instead, diagnostics);
    if (!loaded) {
      output.add_unreadable(name, diagnostics.sorted());
      status = worse(status, status_bad);
      continue;
    }
    Report report = run_checks(loaded->job, loaded->edition);
    if (remedies && report.outcome() == Outcome::fail) {
      const answers::Draft draft{name, std::move(text), loaded->edition};
      const answers::Repair repair = answers::add_remedies(report, draft);
      if (options.apply != Apply::nothing) {
        const bool write = !repair.edits.empty() && (repair.complete || options.apply == Apply::partial);
        if (options.format == Format::text) output.note(applied_text(name, report, repair, write));
        if (write) {
          write_file(word, draft.edited(repair.edits));
          report = run_checks(draft.with(repair.edits), draft.edition);
        }
      }
    }
    output.add(report);
    status = worse(status, status_of(report));
  }
  output.finish(status);
  return status;
}

}  // namespace pullproof::cli
