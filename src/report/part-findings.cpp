// What was assumed, what is open, every finding, and the working behind each.
#include <fmt/format.h>

#include <set>

#include "report/parts.hpp"
#include "report/steps.hpp"
#include "report/summary.hpp"

namespace pullproof::report {
namespace {

using doc::Role;
using doc::Spans;

struct Kind {
  Verdict verdict;
  std::string_view heading, label;
  Role tone;
};
constexpr Kind kinds[] = {{Verdict::fail, "Fails", "FAIL", Role::bad},
                          {Verdict::advice, "Advice", "ADVICE", Role::warn},
                          {Verdict::needs_input, "Needs input", "NEEDS INPUT", Role::warn},
                          {Verdict::not_covered, "Not covered here", "NOT COVERED", Role::warn}};

std::string_view verdict_word(Verdict v) {
  for (const Kind& k : kinds)
    if (k.verdict == v) return k.label;
  return v == Verdict::pass ? "PASS" : "";
}

std::size_t index_of(const Report& report, const Finding& f) { return static_cast<std::size_t>(&f - report.findings.data()); }
std::string anchor_of(const Report& report, const Finding& f) { return fmt::format("finding-{}", index_of(report, f) + 1); }

Spans labelled(std::string_view label, std::string_view text, Role role = Role::strong) {
  return {{fmt::format("{}: ", label), role, {}}, {std::string(text), Role::plain, {}}};
}

/// "circuit heater, drop-branch, 210.19(A), line 12; working"
Spans origin(const Report& report, const Finding& f, Citing& citing) {
  std::string from(f.check);
  if (const std::string c = citing.cited(f); !c.empty()) from += fmt::format(", {}", c);
  if (f.where) from += fmt::format(", line {}", f.where.line);
  Spans spans = plain(from, Role::faint);
  if (const std::string to = working_anchor(report, f); !to.empty()) {
    spans.push_back({", ", Role::faint, {}});
    spans.push_back({"working", Role::plain, to});
  }
  return spans;
}

void add_kind(Part& out, const Source& s, const Kind& kind, Citing& citing) {
  const auto found = with_verdict(s.report, kind.verdict);
  if (found.empty()) return;
  out.heading(3, kind.heading);
  for (std::size_t i = 0; i < found.size(); ++i) {
    const Finding& f = *found[i];
    doc::Entry e;
    e.tone = kind.tone;
    e.label = kind.label;
    e.title = plain(fmt::format("{}: {}", f.subject, f.title));
    e.anchor = anchor_of(s.report, f);
    e.lines.push_back(plain(f.message));
    while (i + 1 < found.size() && alike(f, *found[i + 1])) e.lines.push_back(plain(found[++i]->message));
    if (!f.missing.empty()) e.lines.push_back(labelled("Give", f.missing));
    if (!f.change.empty()) e.lines.push_back(labelled("Change", f.change));
    if (const RemedyText r = remedy_text(s.report, f); !r.text.empty())
      e.lines.push_back(labelled(r.verified ? "Verified" : "Partly", r.text, r.verified ? Role::good : Role::warn));
    e.lines.push_back(origin(s.report, f, citing));
    out.add(doc::Block(std::move(e)));
  }
}

void add_passes(Part& out, const Source& s, Citing& citing) {
  const auto found = with_verdict(s.report, Verdict::pass);
  if (found.empty()) return;
  out.heading(3, "Passes");
  for (const std::string_view subject : subjects_of(found)) {
    doc::Table t = table(subject, {{"Check"}, {"Answer"}, {"Of limit", doc::Table::Align::end}, {"Clause"}});
    for (const Finding* f : found) {
      if (f->subject != subject) continue;
      const std::string to = working_anchor(s.report, *f);
      t.rows.push_back({{{std::string(f->check), Role::plain, to}}, plain(f->message), plain(used_text(*f)), plain(citing.cited(*f, true), Role::faint)});
    }
    out.add(std::move(t));
  }
}

/// The findings of one check on one thing, whose working is shown together.
std::vector<std::vector<const Finding*>> by_sheet(const Report& report) {
  std::vector<std::vector<const Finding*>> out;
  for (const Finding& f : report.findings) {
    if (f.sheet >= report.sheets.size() || steps_behind(report.sheets[f.sheet].working, f).empty()) continue;
    bool placed = false;
    for (auto& group : out)
      if (group.front()->sheet == f.sheet) {
        group.push_back(&f);
        placed = true;
      }
    if (!placed) out.push_back({&f});
  }
  return out;
}

doc::Fold working_of(const Report& report, const std::vector<const Finding*>& group) {
  const Finding& first = *group.front();
  const Working& w = report.sheets[first.sheet].working;
  doc::Fold fold;
  fold.anchor = working_anchor(report, first);
  fold.summary = {{fmt::format("{}: {}", first.subject, first.title), Role::plain, {}}};
  for (const Kind& k : kinds)
    if (k.verdict == first.verdict) fold.summary.push_back({fmt::format(" {}", k.label), k.tone, {}});
  std::set<StepId> shown_before;
  for (const Finding* f : group) {
    Spans says;
    if (const std::string_view v = verdict_word(f->verdict); !v.empty()) says.push_back({fmt::format("{} ", v), Role::strong, {}});
    says.push_back({std::string(f->message), Role::plain, {}});
    fold.blocks.emplace_back(doc::Paragraph{std::move(says)});
    std::vector<StepId> steps;
    for (const StepId id : steps_behind(w, *f))
      if (shown_before.insert(id).second) steps.push_back(id);
    if (steps.empty()) continue;
    fold.blocks.emplace_back(working_table(report, w, steps, fmt::format("{}, {}", first.check, first.subject)));
  }
  return fold;
}

}  // namespace

std::string working_anchor(const Report& report, const Finding& f) {
  if (f.sheet >= report.sheets.size() || steps_behind(report.sheets[f.sheet].working, f).empty()) return {};
  return fmt::format("working-{}", f.sheet + 1);
}

void add_assumptions(Part& out, const Source& s) {
  out.heading(2, "What was assumed", "assumed");
  if (s.report.assumptions.empty()) return out.paragraph("Nothing: the case says all that was asked for.");
  out.paragraph("The case does not say these things. Each was taken as written here; correct the case where it is otherwise.");
  doc::List list;
  for (const auto& [subjects, text] : shared_assumptions(s.report)) list.items.push_back(labelled(subjects, text));
  out.add(std::move(list));
}

void add_open(Part& out, const Source& s) {
  out.heading(2, "What is open", "open");
  doc::List list;
  for (const Verdict v : {Verdict::needs_input, Verdict::not_covered})
    for (const Finding* f : with_verdict(s.report, v)) {
      Spans item{{fmt::format("{}: {}", f->subject, f->title), Role::plain, anchor_of(s.report, *f)}};
      if (!f->missing.empty()) item.push_back({fmt::format("; give {}", f->missing), Role::plain, {}});
      // Of several that are said together only the first has a place of its own.
      if (!list.items.empty() && doc::text_of(list.items.back()) == doc::text_of(item)) continue;
      list.items.push_back(std::move(item));
    }
  for (const auto& [why, checks] : waiting(s.report)) list.items.push_back(labelled(why, checks));
  if (list.items.empty()) return out.paragraph("Nothing: every check that applies came to an answer.");
  out.add(std::move(list));
}

void add_findings(Part& out, const Source& s) {
  out.heading(2, "Findings", "findings");
  Citing citing(s.report);
  for (const Kind& kind : kinds) add_kind(out, s, kind, citing);
  add_passes(out, s, citing);
  if (s.report.findings.empty()) out.paragraph("No check looks at what this case describes.");
  for (const std::string_view line : citing.legend()) out.paragraph(line, Role::faint);
}

void add_working(Part& out, const Source& s) {
  const auto groups = by_sheet(s.report);
  out.heading(2, "Working", "working");
  if (groups.empty()) out.paragraph("No finding rests on numbers.");
  for (const auto& group : groups) out.add(doc::Block(working_of(s.report, group)));
  doc::Fold rest;
  rest.summary = plain("What does not apply, and why");
  rest.anchor = "not-applicable";
  const auto found = with_verdict(s.report, Verdict::not_applicable);
  for (const std::string_view subject : subjects_of(found)) {
    doc::List list;
    for (const Finding* f : found)
      if (f->subject == subject) list.items.push_back(labelled(f->check, f->message, Role::plain));
    rest.blocks.emplace_back(doc::Paragraph{plain(subject, Role::strong)});
    rest.blocks.emplace_back(std::move(list));
  }
  if (!rest.blocks.empty()) out.add(doc::Block(std::move(rest)));
}

}  // namespace pullproof::report
