#include "report/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

#include "report/page.hpp"
#include "report/steps.hpp"

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
    waiting();
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
    const auto [words, ink] = outcome();
    page_.paragraph(0, {{std::string(words), ink}, {fmt::format(": {}", counts())}});
    page_.gap();
    if (!report_.title.empty()) page_.paragraph(0, {{std::string(report_.title), Ink::strong}});
    if (!report_.site.empty()) page_.paragraph(0, report_.site);
    if (!report_.permit.empty()) page_.paragraph(0, fmt::format("permit {}", report_.permit));
    page_.paragraph(0, fmt::format("{}, checked to {}", report_.case_file, edition()));
  }

  std::pair<std::string_view, Ink> outcome() const {
    switch (report_.outcome()) {
      case Outcome::pass: return {"PASS", Ink::good};
      case Outcome::fail: return {"FAIL", Ink::bad};
      case Outcome::open:
        return {report_.count(Verdict::pass) + report_.count(Verdict::advice) + report_.count(Verdict::needs_input) +
                            report_.count(Verdict::not_covered) == 0
                    ? "NOTHING CHECKED" : "OPEN, nothing fails", Ink::warn};
    }
    return {};
  }

  std::string counts() const {
    std::string s;
    const auto add = [&](std::size_t n, std::string_view one, std::string_view many) {
      if (n == 0) return;
      if (!s.empty()) s += ", ";
      s += fmt::format("{} {}", n, n == 1 ? one : many);
    };
    add(report_.count(Verdict::fail), "fails", "fail");
    const auto waits = static_cast<std::size_t>(std::count_if(report_.findings.begin(), report_.findings.end(), waits_for_a_fail));
    add(waits, "waits for that", "wait for that");
    add(report_.count(Verdict::needs_input) + report_.count(Verdict::not_covered), "is open", "are open");
    add(report_.count(Verdict::advice), "with advice", "with advice");
    add(report_.count(Verdict::pass), "passes", "pass");
    add(report_.count(Verdict::not_applicable) - waits, "does not apply", "do not apply");
    return s.empty() ? "no check looks at what this case describes" : s;
  }

  /// The code book, and what amends it.
  std::string edition() const {
    std::string s(report_.book);
    bool amends = false;
    for (const std::string_view title : report_.edition_chain) {
      if (amends) s += fmt::format(", amended by {}", title);
      amends = amends || title == report_.book;
    }
    return s;
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
    std::vector<std::pair<std::string_view, std::string>> by_text;  // what several subjects share is said once
    for (const Assumption& a : report_.assumptions) {
      const auto same = std::find_if(by_text.begin(), by_text.end(), [&](const auto& t) { return t.first == a.text; });
      if (same == by_text.end()) by_text.emplace_back(a.text, a.subject);
      else same->second += fmt::format(", {}", a.subject);
    }
    for (const auto& [text, subjects] : by_text) page_.paragraph(2, fmt::format("- {}: {}", subjects, text));
  }

  std::vector<const Finding*> of(Verdict v) const {
    std::vector<const Finding*> out;
    for (const Finding& f : report_.findings)
      if (f.verdict == v) out.push_back(&f);
    return out;
  }

  void each_whole(std::string_view title, Verdict v, Ink ink) {
    const auto found = of(v);
    if (found.empty()) return;
    heading(title, ink);
    for (std::size_t i = 0; i < found.size(); ++i) {
      const Finding* f = found[i];
      page_.paragraph(2, {{fmt::format("{}: {}", f->subject, f->title), Ink::strong}});
      page_.paragraph(4, f->message);
      while (!options_.full && i + 1 < found.size() && alike(*f, *found[i + 1])) page_.paragraph(4, found[++i]->message);
      if (!f->missing.empty()) page_.paragraph(4, fmt::format("Give: {}", f->missing));
      if (!f->change.empty()) page_.paragraph(4, fmt::format("Change: {}", f->change));
      if (f->remedy) remedy(*f, report_.remedies[*f->remedy]);
      std::string from(f->check);
      if (const std::string c = cited(*f); !c.empty()) from += fmt::format(", {}", c);
      if (f->where) from += fmt::format(", line {}", f->where.line);
      page_.paragraph(4, {{from, Ink::faint}});
      if (options_.full) working(*f);
    }
  }

  /// What was tried and mends it.
  void remedy(const Finding& f, const Remedy& r) {
    if (r.grade == Remedy::Grade::hint) return;
    std::string changes;
    for (const Change& c : r.changes) {
      changes += changes.empty() ? "" : ", and ";
      if (c.subject != f.subject) changes += fmt::format("{}: ", c.subject);
      changes += fmt::format("{} = {}", c.key, c.now);
      changes += c.was.empty() ? " (new)" : fmt::format(" (now {})", c.was);
    }
    if (r.grade == Remedy::Grade::verified) {
      verified_ = true;
      page_.paragraph(4, {{"Verified: ", Ink::good}, {fmt::format("{}; tried{}: nothing fails", changes, r.alone ? "" : " with the other changes")}});
      return;
    }
    constexpr std::size_t most = 3;
    std::string left;
    for (std::size_t i = 0; i < std::min(most, r.left.size()); ++i) left += fmt::format("{}{}", i == 0 ? "" : ", ", r.left[i]);
    if (r.left.size() > most) left += fmt::format(" and {} more", r.left.size() - most);
    page_.paragraph(4, {{"Partly: ", Ink::warn}, {fmt::format("{}; tried{}: this passes, {}{}", changes, r.alone ? "" : " with the other changes", left,
                                                              r.alone ? " would fail instead" : " still fails")}});
  }

  static bool waits_for_a_fail(const Finding& f) { return !f.waits_for.empty(); }

  /// What could not be answered because of a fail: one line for each subject and fail.
  void waiting() {
    std::vector<std::pair<std::string, std::string>> lines;
    for (const Finding& f : report_.findings) {
      if (!waits_for_a_fail(f)) continue;
      const std::string why = fmt::format("{}, until {} is mended", f.subject, f.waits_for);
      const auto same = std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.first == why; });
      if (same == lines.end()) lines.emplace_back(why, f.check);
      else same->second += fmt::format(", {}", f.check);
    }
    if (lines.empty()) return;
    heading("Not answered yet", Ink::bad);
    for (const auto& [why, checks] : lines) page_.paragraph(2, fmt::format("{}: {}", why, checks));
  }

  /// Whether two findings differ in what they say alone, and the rest need not be said twice.
  static bool alike(const Finding& a, const Finding& b) {
    const auto rest = [](const Finding& f) { return std::tie(f.subject, f.check, f.change, f.missing, f.cite.clause, f.basis, f.where.line); };
    return rest(a) == rest(b);
  }

  void passes() {
    const auto found = of(Verdict::pass);
    if (found.empty()) return;
    heading("Passes, with the share of the limit that is used", Ink::good);
    for (const std::string_view subject : subjects(found)) {
      page_.paragraph(2, {{std::string(subject), Ink::strong}});
      for (const Finding* f : found) {
        if (f->subject != subject) continue;
        std::string used;
        if (f->used) used = fmt::format(" ({}%)", number_text(*f->used * 100, *f->used < 0.01 ? 1 : 0));
        const std::string c = cited(*f, true);
        page_.paragraph(4, {{fmt::format("{}: {}{}", f->check, f->message, used)},
                            {c.empty() ? std::string{} : fmt::format(" [{}]", c), Ink::faint}});
        if (options_.full) working(*f);
      }
    }
  }

  void not_applicable() {
    auto found = of(Verdict::not_applicable);
    std::erase_if(found, [](const Finding* f) { return waits_for_a_fail(*f); });
    if (found.empty()) return;
    heading(options_.full ? "Does not apply" : "Does not apply (--full says why)");
    for (const std::string_view subject : subjects(found)) {
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

  static std::vector<std::string_view> subjects(const std::vector<const Finding*>& found) {
    std::vector<std::string_view> out;
    for (const Finding* f : found)
      if (std::find(out.begin(), out.end(), f->subject) == out.end()) out.push_back(f->subject);
    return out;
  }

  /// The clause, with the edition only when it is another than the report's, and what is weak about it.
  std::string cited(const Finding& f, bool brief = false) {
    std::string s(f.cite.clause);
    if (!s.empty() && f.cite.edition != report_.book) s = fmt::format("{} {}", f.cite.edition, s);
    if (!s.empty() && f.cite.clause_basis >= Basis::memory && f.basis < Basis::memory) {
      s += " *";
      number_from_memory_ = true;
    } else if (f.basis >= Basis::memory) {
      if (brief) s += s.empty() ? "~" : " ~";
      else s += fmt::format("{}rests on {}", s.empty() ? "" : "; ", name(f.basis));
      rests_ = true;
    }
    return s;
  }

  void legend() {
    if (!number_from_memory_ && !rests_) return;
    page_.gap();
    if (number_from_memory_) page_.paragraph(0, "* the figure was read in print, the number of the clause in this edition was not");
    if (rests_)
      page_.paragraph(0, "~ or \"rests on\": something in it rests on memory or common practice, no printed source was seen; read it up "
                         "in the adopted book before you sign");
  }

  void working(const Finding& f) {
    const Working& w = report_.sheets[f.sheet].working;
    for (const StepId id : steps_behind(w, f)) page_.paragraph(6, {{step_text(w, w.steps()[id], report_.book)}});
  }

  const Report& report_;
  const TextOptions& options_;
  Page page_;
  bool number_from_memory_ = false, rests_ = false, verified_ = false;
};

}  // namespace

std::string as_text(const Report& report, const TextOptions& options) { return TextWriter(report, options).run(); }

}  // namespace pullproof::report
