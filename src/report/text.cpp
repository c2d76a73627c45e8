#include "report/text.hpp"

#include <fmt/format.h>

#include "report/page.hpp"
#include "report/steps.hpp"
#include "report/summary.hpp"

namespace pullproof::report {
namespace {

class TextWriter {
 public:
  TextWriter(const Report& report, const TextOptions& options)
      : report_(report), options_(options), page_(options.width, options.color) {}

  std::string run() {
    head();
    assumptions();
    each_whole("Fails", Verdict::fail, Ink::bad);
    if (verified_) {
      page_.gap();
      page_.paragraph(2, "What is verified was tried by changing the case and running every check again; `pullproof check --apply` writes it into the case.", 0);
    }
    waiting_lines();
    each_whole("Advice", Verdict::advice, Ink::warn);
    each_whole("Open: the case does not say enough", Verdict::needs_input, Ink::warn);
    each_whole("Open: not covered here", Verdict::not_covered, Ink::warn);
    passes();
    not_applicable();
    list("What this program cannot see", report_.notes);
    legend();
    list("Before you touch anything", report_.cautions);
    return page_.take();
  }

 private:
  void head() {
    page_.paragraph(0, {{std::string(outcome_words(report_)), outcome_ink()}, {fmt::format(": {}", counts_text(report_))}});
    page_.gap();
    if (!report_.title.empty()) page_.paragraph(0, {{std::string(report_.title), Ink::strong}});
    if (!report_.site.empty()) page_.paragraph(0, report_.site);
    if (!report_.permit.empty()) page_.paragraph(0, fmt::format("permit {}", report_.permit));
    page_.paragraph(0, fmt::format("{}, checked to {}", report_.case_file, edition_text(report_)));
  }

  Ink outcome_ink() const {
    switch (report_.outcome()) {
      case Outcome::pass: return Ink::good;
      case Outcome::fail: return Ink::bad;
      case Outcome::open: return Ink::warn;
    }
    return Ink::plain;
  }

  void heading(std::string_view text, Ink ink = Ink::plain) {
    page_.gap();
    page_.paragraph(0, {{std::string(text), ink == Ink::plain ? Ink::strong : ink}});
  }

  void list(std::string_view title, const std::vector<std::string_view>& items) {
    if (items.empty()) return;
    heading(title);
    for (const std::string_view item : items) page_.paragraph(2, fmt::format("- {}", item));
  }

  void assumptions() {
    if (report_.assumptions.empty()) return;
    heading("Assumed, because the case does not say");
    for (const auto& [subjects, text] : shared_assumptions(report_)) page_.paragraph(2, fmt::format("- {}: {}", subjects, text));
  }

  void each_whole(std::string_view title, Verdict v, Ink ink) {
    const auto found = with_verdict(report_, v);
    if (found.empty()) return;
    heading(title, ink);
    for (std::size_t i = 0; i < found.size(); ++i) {
      const Finding* f = found[i];
      page_.paragraph(2, {{fmt::format("{}: {}", f->subject, f->title), Ink::strong}});
      page_.paragraph(4, f->message);
      while (!options_.full && i + 1 < found.size() && alike(*f, *found[i + 1])) page_.paragraph(4, found[++i]->message);
      if (!f->missing.empty()) page_.paragraph(4, fmt::format("Give: {}", f->missing));
      if (!f->change.empty()) page_.paragraph(4, fmt::format("Change: {}", f->change));
      remedy(*f);
      std::string from(f->check);
      if (const std::string c = citing_.cited(*f); !c.empty()) from += fmt::format(", {}", c);
      if (f->where) from += fmt::format(", line {}", f->where.line);
      page_.paragraph(4, {{from, Ink::faint}});
      if (options_.full) working(*f);
    }
  }

  /// What was tried and mends it.
  void remedy(const Finding& f) {
    const RemedyText r = remedy_text(report_, f);
    if (r.text.empty()) return;
    verified_ = verified_ || r.verified;
    page_.paragraph(4, {{r.verified ? "Verified: " : "Partly: ", r.verified ? Ink::good : Ink::warn}, {r.text}});
  }

  /// What could not be answered because of a fail: one line for each subject and fail.
  void waiting_lines() {
    const auto lines = waiting(report_);
    if (lines.empty()) return;
    heading("Not answered yet", Ink::bad);
    for (const auto& [why, checks] : lines) page_.paragraph(2, fmt::format("{}: {}", why, checks));
  }

  void passes() {
    const auto found = with_verdict(report_, Verdict::pass);
    if (found.empty()) return;
    heading("Passes, with the share of the limit that is used", Ink::good);
    for (const std::string_view subject : subjects_of(found)) {
      page_.paragraph(2, {{std::string(subject), Ink::strong}});
      for (const Finding* f : found) {
        if (f->subject != subject) continue;
        std::string used = used_text(*f);
        if (!used.empty()) used = fmt::format(" ({})", used);
        const std::string c = citing_.cited(*f, true);
        page_.paragraph(4, {{fmt::format("{}: {}{}", f->check, f->message, used)},
                            {c.empty() ? std::string{} : fmt::format(" [{}]", c), Ink::faint}});
        if (options_.full) working(*f);
      }
    }
  }

  void not_applicable() {
    const auto found = with_verdict(report_, Verdict::not_applicable);
    if (found.empty()) return;
    heading(options_.full ? "Does not apply" : "Does not apply (--full says why)");
    for (const std::string_view subject : subjects_of(found)) {
      if (options_.full) {
        page_.paragraph(2, {{std::string(subject), Ink::strong}});
        for (const Finding* f : found)
          if (f->subject == subject) page_.paragraph(4, fmt::format("{}: {}", f->check, f->message));
        continue;
      }
      std::string checks;
      for (const Finding* f : found)
        if (f->subject == subject) checks += fmt::format("{}{}", checks.empty() ? "" : ", ", f->check);
      page_.paragraph(2, fmt::format("{}: {}", subject, checks));
    }
  }

  void legend() {
    const auto lines = citing_.legend();
    if (!lines.empty()) page_.gap();
    for (const std::string_view line : lines) page_.paragraph(0, line);
  }

  void working(const Finding& f) {
    const Working& w = report_.sheets[f.sheet].working;
    for (const StepId id : steps_behind(w, f)) page_.paragraph(6, {{step_text(w, w.steps()[id], report_.book)}});
  }

  const Report& report_;
  const TextOptions& options_;
  Page page_;
  Citing citing_{report_};
  bool verified_ = false;
};

}  // namespace

std::string as_text(const Report& report, const TextOptions& options) { return TextWriter(report, options).run(); }

}  // namespace pullproof::report
