#include "answers/remedies.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <tuple>

#include "answers/choices.hpp"

namespace pullproof::answers {
namespace {

/// A check and its subject.
using Matter = std::pair<std::string, std::string>;
Matter matter_of(const Finding& f) { return {std::string(f.check), std::string(f.subject)}; }

/// The draft with some edits, and what all checks say of it.
struct State {
  std::vector<Edit> edits;
  std::shared_ptr<const Case> job;
  Report report;
  std::map<Matter, std::size_t> bad;  ///< how many findings of each matter fail or are open
  std::size_t fails = 0, unheeded = 0;

  std::size_t bad_of(const Matter& m) const {
    const auto found = bad.find(m);
    return found == bad.end() ? 0 : found->second;
  }
};

/// The draft with some edits, before any check.
struct Trial {
  std::vector<Edit> edits;
  std::shared_ptr<const Case> job;
};

/// Whether a piece of a text begins at a place of it.
bool stands_at(std::string_view text, std::string_view piece, const Where& where) {
  const std::string_view before = text.substr(0, static_cast<std::size_t>(piece.data() - text.data()));
  const std::size_t line = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
  const auto points = [](std::string_view s) { return std::count_if(s.begin(), s.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xc0u) != 0x80u; }); };
  return where.line == 1 + std::count(before.begin(), before.end(), '\n') && where.column == 1 + points(before.substr(line));
}

/// How far an attempt goes, best first.
struct Score {
  std::size_t broken = 0;    ///< matters that were good
  std::size_t left = 0;      ///< findings of this matter
  std::size_t changes = 0;
  bool elsewhere = false;    ///< another part than the subject is changed
  bool beside = false;       ///< another value than the one that the finding points at
  std::size_t fails = 0, unheeded = 0;
  std::size_t rank = 0;
  friend bool operator<(const Score& a, const Score& b) {
    const auto all = [](const Score& s) { return std::tie(s.broken, s.left, s.changes, s.elsewhere, s.beside, s.fails, s.unheeded, s.rank); };
    return all(a) < all(b);
  }
};

struct Attempt {
  Score score;
  std::shared_ptr<const State> state;
};

class Mender {
 public:
  explicit Mender(const Draft& draft) : draft_(draft) {}

  std::shared_ptr<const State> state_of(std::vector<Edit> edits) const {
    auto job = draft_.with(edits);
    return state_after({std::move(edits), std::move(job)});
  }
  std::shared_ptr<const State> state_after(Trial trial) const {
    if (!trial.job) return nullptr;
    auto s = std::make_shared<State>();
    s->job = std::move(trial.job);
    s->edits = std::move(trial.edits);
    s->report = run_checks(s->job, draft_.edition);
    for (const Finding& f : s->report.findings) {
      if (is_bad(f)) ++s->bad[matter_of(f)];
      if (f.verdict == Verdict::fail) ++s->fails;
      if (is_unheeded(f)) ++s->unheeded;
    }
    return s;
  }

  /// The best way on from a state to one where fewer findings of `m` fail; null when there is none.
  std::shared_ptr<const State> mend(const std::shared_ptr<const State>& from, const Matter& m, int depth) const {
    std::vector<Attempt> attempts = attempts_at(*from, m);
    if (attempts.empty()) return nullptr;
    const auto best = [&] { return std::min_element(attempts.begin(), attempts.end(), [](const Attempt& a, const Attempt& b) { return a.score < b.score; }); };
    if (depth == 0 || best()->score.broken == 0) return best()->state;
    std::sort(attempts.begin(), attempts.end(), [](const Attempt& a, const Attempt& b) { return a.score < b.score; });
    constexpr std::size_t most = 3;
    attempts.resize(std::min(attempts.size(), most));
    for (Attempt& a : attempts) follow(*from, m, a, depth - 1);
    return best()->state;
  }

 private:
  /// Mends in turn what an attempt broke.
  void follow(const State& from, const Matter& m, Attempt& a, int depth) const {
    for (int round = 0; round < 4 && a.score.broken > 0; ++round) {
      std::shared_ptr<const State> next;
      for (const auto& [broken, count] : a.state->bad) {
        if (count <= from.bad_of(broken) || broken == m) continue;
        next = mend(a.state, broken, depth);
        if (next && score(from, m, *next).broken >= a.score.broken) next = nullptr;
        if (next && next->bad_of(m) > a.state->bad_of(m)) next = nullptr;
        if (next) break;
      }
      if (!next) return;
      const Score before = a.score;
      a.state = next;
      a.score = score(from, m, *next);
      a.score.elsewhere = before.elsewhere;
      a.score.beside = before.beside;
      a.score.rank = before.rank;
    }
  }

  static Score score(const State& from, const Matter& m, const State& to) {
    Score s;
    for (const auto& [matter, count] : to.bad)
      if (count > from.bad_of(matter)) ++s.broken;
    s.left = to.bad_of(m);
    for (const Edit& e : to.edits)
      if (std::none_of(from.edits.begin(), from.edits.end(), [&](const Edit& o) { return o.key == e.key && o.value == e.value; })) ++s.changes;
    s.fails = to.fails;
    s.unheeded = to.unheeded;
    return s;
  }

  std::vector<Attempt> attempts_at(const State& from, const Matter& m) const {
    std::vector<Attempt> out;
    const Check* check = find_check(m.first);
    const auto fail = std::find_if(from.report.findings.begin(), from.report.findings.end(), [&](const Finding& f) { return is_bad(f) && matter_of(f) == m; });
    if (check == nullptr || fail == from.report.findings.end()) return out;
    const Editable here(draft_.edited(from.edits));
    const std::vector<Way> ways = ways_at(from, *check, m, here, fail->where);
    for (const Way& way : ways) {
      auto trial = nearest(from, here, *check, m, *way.choice, way.part, values(from, *fail, *way.choice, way.part, way.now));
      if (!trial) continue;
      auto state = state_after(std::move(*trial));
      if (!state || state->bad_of(m) >= from.bad_of(m)) continue;
      Score s = score(from, m, *state);
      s.elsewhere = way.elsewhere;
      s.beside = way.beside;
      s.rank = out.size();
      out.push_back({s, std::move(state)});
      // Nothing that comes later can be better.
      if (s.broken == 0 && s.left == 0 && s.changes == 1 && !s.elsewhere && !s.beside) break;
    }
    return out;
  }

  /// A choice that may mend a fail.
  struct Way {
    const Choice* choice = nullptr;
    Part part;
    std::string_view now;
    bool elsewhere = false, beside = false;
  };

  /// Those that a check reads, the ones nearest to what failed first.
  std::vector<Way> ways_at(const State& from, const Check& check, const Matter& m, const Editable& here, const Where& where) const {
    std::vector<Way> out;
    const std::vector<Part> parts = around(*from.job, m.second);
    for (const Choice& choice : all_choices()) {
      if (!answers::reads(check.reads, choice)) continue;
      for (const Part& part : parts) {
        if (part.kind != choice.kind) continue;
        const std::string_view now = here.at(path_of(choice, part));
        out.push_back({&choice, part, now, !(part == parts.front()), now.empty() || !stands_at(here.text(), now, where)});
      }
    }
    std::stable_sort(out.begin(), out.end(), [](const Way& a, const Way& b) { return std::tie(a.elsewhere, a.beside) < std::tie(b.elsewhere, b.beside); });
    return out;
  }

  /// What a choice may be instead of `now`: larger ones, the nearest first, then smaller ones; what the check names as
  /// enough before them.
  std::vector<std::string> values(const State& from, const Finding& fail, const Choice& choice, const Part& part, std::string_view now) const {
    std::vector<std::string> all = choice.values(*from.job, draft_.edition, part.index);
    for (const StepId id : {fail.limit, fail.demand}) {  // what is judged may be either of the two
      if (!choice.values(*from.job, draft_.edition, part.index).empty() || id == no_step) continue;
      const Step& enough = from.report.sheets[fail.sheet].working.steps()[id];
      all.push_back(enough.unit.empty() ? shown(enough) : toml_string(shown(enough)));
    }
    std::erase_if(all, [&](const std::string& v) { return unquoted(v) == unquoted(now); });
    if (now.empty()) return all;
    const double present = magnitude(now);
    const auto smaller = [&](const std::string& v) { return magnitude(v) < present; };
    const auto first_smaller = std::stable_partition(all.begin(), all.end(), [&](const std::string& v) { return !smaller(v); });
    std::reverse(first_smaller, all.end());
    constexpr std::ptrdiff_t most_larger = 12, most_smaller = 6;
    if (all.end() - first_smaller > most_smaller) all.erase(first_smaller + most_smaller, all.end());
    if (first_smaller - all.begin() > most_larger) all.erase(all.begin() + most_larger, first_smaller);
    return all;
  }

  /// The edits with the first value with which the check has nothing left to say, or less.
  std::optional<Trial> nearest(const State& from, const Editable& here, const Check& check, const Matter& m, const Choice& choice, const Part& part,
                               const std::vector<std::string>& values) const {
    const Check* const one[] = {&check};
    std::optional<Trial> less;
    for (const std::string& value : values) {
      const Edit edit[] = {{path_of(choice, part), value}};
      Trial trial{from.edits, draft_.read(here.with(edit).value_or(std::string{}))};
      if (!trial.job) continue;
      put(trial.edits, edit[0]);
      const Report report = run_checks(trial.job, draft_.edition, one);
      const auto left = static_cast<std::size_t>(std::count_if(report.findings.begin(), report.findings.end(), [&](const Finding& f) { return is_bad(f) && f.subject == m.second; }));
      // A check that no longer applies to a thing since something else has another size is dodged, not mended.
      const bool answers = std::any_of(report.findings.begin(), report.findings.end(), [&](const Finding& f) {
        return f.subject == m.second && (f.verdict == Verdict::pass || f.verdict == Verdict::advice);
      });
      if (choice.size && subject_of(*from.job, part) != m.second && !answers) continue;
      if (left == 0) return trial;
      if (left < from.bad_of(m) && !less) less = std::move(trial);
    }
    return less;
  }

  const Draft& draft_;
};

std::vector<Edit> added(const State& before, const State& after) {
  std::vector<Edit> out;
  for (const Edit& e : after.edits)
    if (std::none_of(before.edits.begin(), before.edits.end(), [&](const Edit& o) { return o.key == e.key && o.value == e.value; })) out.push_back(e);
  return out;
}

/// What is bad after a change and was not before.
std::vector<std::string_view> broken_by(const State& before, const State& after, const Report& report) {
  std::vector<std::string_view> out;
  for (const auto& [matter, count] : after.bad)
    if (count > before.bad_of(matter)) out.push_back(report.texts->format("{}: {}", matter.second, matter.first));
  return out;
}

Change change_of(const Edit& e, const Case& job, const Draft& draft, Texts& texts) {
  Change c{e.key, {}, {}, std::string(value_at(draft.text, e.key)), e.value};
  for (const Part& part : parts_of(job))
    for (const Choice& choice : all_choices())
      if (part.kind == choice.kind && path_of(choice, part) == e.key) {
        c.subject = texts.keep(subject_of(job, part));
        c.key = choice.key;
      }
  return c;
}

}  // namespace

Repair add_remedies(Report& report, const Draft& whole) {
  Draft draft = whole;
  draft.effort = std::make_shared<Effort>(effort_aside);
  draft.editable = std::make_shared<Editable>(draft.text);
  const Mender mender(draft);
  bool gave_up = false;
  const auto tried = [&](auto search) -> std::shared_ptr<const State> {
    try {
      if (!gave_up) return search();
    } catch (const TooMuch&) {
      gave_up = true;
      report.notes.push_back("Not every change that might mend this was tried: the case is too large for that.");
    }
    return nullptr;
  };
  const std::shared_ptr<const State> base = tried([&] { return mender.state_of({}); });
  if (!base) return {};
  auto state = base;
  std::map<Matter, std::uint32_t> mended_by;
  std::vector<std::vector<Edit>> edits;  // of each remedy
  constexpr int depth = 2;
  for (Finding& f : report.findings) {
    if (f.verdict != Verdict::fail) continue;
    const Matter m = matter_of(f);
    if (const auto by = mended_by.find(m); by != mended_by.end()) {
      f.remedy = by->second;
      continue;
    }
    f.remedy = static_cast<std::uint32_t>(report.remedies.size());
    report.remedies.emplace_back();
    edits.emplace_back();
    const auto next = tried([&] { return mender.mend(state, m, depth); });
    if (!next) continue;
    edits.back() = added(*state, *next);
    const std::vector<std::string_view> broken = broken_by(*state, *next, report);
    if (!broken.empty()) {  // it mends this and breaks that: worth telling, and no part of the repair
      Remedy& r = report.remedies.back();
      // It was found on top of what mends the fails before it, which it may need: then those changes are part of it.
      const auto own = tried([&] { return mender.state_of(edits.back()); });
      const bool holds = own && own->bad_of(m) == 0;
      if (!holds) edits.back() = added(*base, *next);
      for (const Edit& e : edits.back()) r.changes.push_back(change_of(e, *base->job, draft, *report.texts));
      r.grade = Remedy::Grade::partial;
      r.alone = true;
      r.left = holds ? broken_by(*base, *own, report) : broken;
      if (r.left.empty()) r.left = broken;
      mended_by[m] = *f.remedy;
      continue;
    }
    for (const auto& [matter, count] : state->bad)
      if (next->bad_of(matter) == 0) mended_by[matter] = *f.remedy;
    state = next;
  }
  Repair repair{state->edits, state->fails == 0};
  for (const auto& [matter, count] : state->bad) repair.complete = repair.complete && count <= base->bad_of(matter);
  std::vector<std::string_view> left;
  for (const Finding& f : state->report.findings) {
    if (!is_bad(f) || (f.verdict != Verdict::fail && state->bad_of(matter_of(f)) <= base->bad_of(matter_of(f)))) continue;
    const std::string_view text = report.texts->format("{}: {}", f.subject, f.check);
    if (std::find(left.begin(), left.end(), text) == left.end()) left.push_back(text);
  }
  for (Finding& f : report.findings) {
    if (!f.remedy || !report.remedies[*f.remedy].changes.empty()) continue;
    Remedy& r = report.remedies[*f.remedy];
    if (edits[*f.remedy].empty() || state->bad_of(matter_of(f)) > 0) continue;
    for (const Edit& e : edits[*f.remedy]) r.changes.push_back(change_of(e, *base->job, draft, *report.texts));
    r.grade = repair.complete ? Remedy::Grade::verified : Remedy::Grade::partial;
    if (repair.complete) {
      const auto alone = tried([&] { return mender.state_of(edits[*f.remedy]); });
      r.alone = alone && alone->fails == 0;
    } else {
      r.left = left;
    }
  }
  return repair;
}

}  // namespace pullproof::answers
