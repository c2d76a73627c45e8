#include "report/summary.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>

namespace pullproof::report {
namespace {

bool waits_for_a_fail(const Finding& f) { return !f.waits_for.empty(); }

}  // namespace

std::string_view outcome_words(const Report& report) {
  switch (report.outcome()) {
    case Outcome::pass: return "PASS";
    case Outcome::fail: return "FAIL";
    case Outcome::open: break;
  }
  const std::size_t answers = report.count(Verdict::pass) + report.count(Verdict::advice) + report.count(Verdict::needs_input) +
                              report.count(Verdict::not_covered);
  return answers == 0 ? "NOTHING CHECKED" : "OPEN, nothing fails";
}

std::string counts_text(const Report& report) {
  std::string s;
  const auto add = [&](std::size_t n, std::string_view one, std::string_view many) {
    if (n == 0) return;
    if (!s.empty()) s += ", ";
    s += fmt::format("{} {}", n, n == 1 ? one : many);
  };
  add(report.count(Verdict::fail), "fails", "fail");
  const auto waits = static_cast<std::size_t>(std::count_if(report.findings.begin(), report.findings.end(), waits_for_a_fail));
  add(waits, "waits for that", "wait for that");
  add(report.count(Verdict::needs_input) + report.count(Verdict::not_covered), "is open", "are open");
  add(report.count(Verdict::advice), "with advice", "with advice");
  add(report.count(Verdict::pass), "passes", "pass");
  add(report.count(Verdict::not_applicable) - waits, "does not apply", "do not apply");
  return s.empty() ? "no check looks at what this case describes" : s;
}

std::string edition_text(const Report& report) {
  std::string s(report.book);
  bool amends = false;
  for (const std::string_view title : report.edition_chain) {
    if (amends) s += fmt::format(", amended by {}", title);
    amends = amends || title == report.book;
  }
  return s;
}

std::vector<const Finding*> with_verdict(const Report& report, Verdict verdict) {
  std::vector<const Finding*> out;
  for (const Finding& f : report.findings)
    if (f.verdict == verdict && !waits_for_a_fail(f)) out.push_back(&f);
  return out;
}

std::vector<std::string_view> subjects_of(const std::vector<const Finding*>& findings) {
  std::vector<std::string_view> out;
  for (const Finding* f : findings)
    if (std::find(out.begin(), out.end(), f->subject) == out.end()) out.push_back(f->subject);
  return out;
}

bool alike(const Finding& a, const Finding& b) {
  const auto rest = [](const Finding& f) { return std::tie(f.subject, f.check, f.change, f.missing, f.cite.clause, f.basis, f.where.line); };
  return rest(a) == rest(b);
}

std::vector<std::pair<std::string, std::string_view>> shared_assumptions(const Report& report) {
  std::vector<std::pair<std::string, std::string_view>> out;
  for (const Assumption& a : report.assumptions) {
    const auto same = std::find_if(out.begin(), out.end(), [&](const auto& t) { return t.second == a.text; });
    if (same == out.end()) out.emplace_back(a.subject, a.text);
    else same->first += fmt::format(", {}", a.subject);
  }
  return out;
}

std::vector<std::pair<std::string, std::string>> waiting(const Report& report) {
  std::vector<std::pair<std::string, std::string>> lines;
  for (const Finding& f : report.findings) {
    if (!waits_for_a_fail(f)) continue;
    const std::string why = fmt::format("{}, until {} is mended", f.subject, f.waits_for);
    const auto same = std::find_if(lines.begin(), lines.end(), [&](const auto& l) { return l.first == why; });
    if (same == lines.end()) lines.emplace_back(why, f.check);
    else same->second += fmt::format(", {}", f.check);
  }
  return lines;
}

std::string used_text(const Finding& f) {
  return f.used ? fmt::format("{}%", number_text(*f.used * 100, *f.used < 0.01 ? 1 : 0)) : std::string{};
}

RemedyText remedy_text(const Report& report, const Finding& f) {
  if (!f.remedy) return {};
  const Remedy& r = report.remedies[*f.remedy];
  if (r.grade == Remedy::Grade::hint) return {};
  std::string changes;
  for (const Change& c : r.changes) {
    changes += changes.empty() ? "" : ", and ";
    if (c.subject != f.subject) changes += fmt::format("{}: ", c.subject);
    changes += fmt::format("{} = {}", c.key, c.now);
    changes += c.was.empty() ? " (new)" : fmt::format(" (now {})", c.was);
  }
  if (r.grade == Remedy::Grade::verified)
    return {true, fmt::format("{}; tried{}: nothing fails", changes, r.alone ? "" : " with the other changes")};
  constexpr std::size_t most = 3;
  std::string left;
  for (std::size_t i = 0; i < std::min(most, r.left.size()); ++i) left += fmt::format("{}{}", i == 0 ? "" : ", ", r.left[i]);
  if (r.left.size() > most) left += fmt::format(" and {} more", r.left.size() - most);
  return {false, fmt::format("{}; tried{}: this passes, {}{}", changes, r.alone ? "" : " with the other changes", left,
                             r.alone ? " would fail instead" : " still fails")};
}

std::string Citing::cited(const Finding& f, bool brief) {
  std::string s(f.cite.clause);
  if (!s.empty() && f.cite.edition != report_->book) s = fmt::format("{} {}", f.cite.edition, s);
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

std::vector<std::string_view> Citing::legend() const {
  std::vector<std::string_view> out;
  if (number_from_memory_) out.push_back("* the figure was read in print, the number of the clause in this edition was not");
  if (rests_)
    out.push_back("~ or \"rests on\": something in it rests on memory or common practice, no printed source was seen; read it up "
                  "in the adopted book before you sign");
  return out;
}

}  // namespace pullproof::report
