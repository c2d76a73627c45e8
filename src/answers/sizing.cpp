#include "answers/sizing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "answers/search.hpp"

namespace pullproof::answers {
namespace {

/// Searches, and says why each size is what it is or why there is none.
class Sizer {
 public:
  Sizer(const Draft& draft, const SizingOptions& options) : draft_(draft), options_(options), search_(draft, options) {}

  Sizing run() {
    Sizing out;
    if (!search_.readable()) return out;
    Report now = run_checks(draft_.with({}), draft_.edition);
    search_.begin(now);
    bool more = !search_.open().empty();
    Strict strict = options_.heed_advice ? Strict::advice_too : Strict::fails_alone;
    while (search_.find_open(now) || std::exchange(more, false)) {
      more = false;
      Search::Answer answer = search_.run(strict);
      if (!answer.good && strict == Strict::advice_too) {
        const Search::Answer heeding = std::move(answer);
        answer = search_.run(Strict::fails_alone);
        if (answer.good) {
          strict = Strict::fails_alone;
          leave(out.unheeded, heeding);
        }
      }
      out.trials = search_.trials();
      if (!answer.good) {
        out.conflict = conflict_of(answer);
        out.gave_up = search_.gave_up();
        return out;
      }
      now = run_checks(draft_.with(search_.edits()), draft_.edition);
    }
    out.edits = search_.edits();
    for (std::size_t i = 0; i < search_.open().size(); ++i) {
      out.sizes.push_back(sized(i, strict));
      unsettle(out.sizes.back(), i, now);
      if (!out.sizes.back().unsettled.empty()) out.sizes.back().up_to.clear();  // what cannot answer yet may bound it
    }
    out.trials = search_.trials();
    return out;
  }

 private:
  /// The advice that stood in the way of every answer.
  static void leave(std::vector<Objection>& unheeded, const Search::Answer& heeding) {
    for (const auto& against : heeding.against) {
      const Objection& advice = against.second;
      const auto same = [&](const Objection& u) { return u.check == advice.check && u.subject == advice.subject; };
      if (advice.verdict != Verdict::fail && std::none_of(unheeded.begin(), unheeded.end(), same)) unheeded.push_back(advice);
    }
  }

  /// A size, and what speaks against the next smaller one with all else as it is.
  Sized sized(std::size_t i, Strict strict) {
    const Open& o = search_.open()[i];
    Sized s{o.subject, std::string(o.choice->key), o.path, search_.value(i), {}, {}, {}, {}};
    const auto at = std::find(o.values.begin(), o.values.end(), search_.value(i));
    if (o.choice->kind == Kind::circuit && o.choice->key == "breaker.rating") {  // mostly a range will do, and the upper end is asked for too
      auto last = at;
      while (std::next(last) != o.values.end() && against(i, *std::next(last), strict).empty()) ++last;
      if (last != at) s.up_to = *last;
    }
    if (at == o.values.begin()) return s;
    s.smaller = *std::prev(at);
    s.objections = against(i, s.smaller, strict);
    return s;
  }

  /// What speaks against another value for one size, with all else as it was found.
  std::vector<Objection> against(std::size_t i, const std::string& value, Strict strict) {
    std::vector<Edit> other = search_.edits();
    put(other, {search_.open()[i].path, value});
    const auto job = draft_.with(other);
    search_.count_trial();
    if (!job) return {{{}, search_.open()[i].subject, "the tables do not have it", Verdict::fail}};
    std::vector<Objection> out;
    const Report report = run_checks(job, draft_.edition, search_.checks(i));
    for (const Finding& f : report.findings)
      if ((Search::rejects(f, strict) || Search::dodges(f)) && search_.bearing(f.check, f.subject).count(i) != 0) out.push_back(objection_of(report, f));
    return out;
  }

  /// What does a sum with this size and has no answer might have asked for more.
  void unsettle(Sized& s, std::size_t i, const Report& done) {
    for (const Finding& f : done.findings) {
      if ((f.verdict != Verdict::needs_input && f.verdict != Verdict::not_covered) || find_check(f.check)->formula.empty() || search_.bearing(f.check, f.subject).count(i) == 0) continue;
      if (std::none_of(s.unsettled.begin(), s.unsettled.end(), [&](const Objection& o) { return o.check == f.check && o.missing == f.missing; })) s.unsettled.push_back(objection_of(done, f));
    }
  }

  /// Of what a check says of a value, with one later size after another, what comes nearest to doing.
  static const Objection* telling(const Search::Answer& answer, const Conflict::Exclusion& e) {
    const Objection *first = nullptr, *last = nullptr, *own_end = nullptr, *end = nullptr;
    for (const auto& [value, o] : answer.against) {
      if (value != e.value) continue;
      end = &o;
      if (o.check != e.objection.check || o.subject != e.objection.subject) continue;
      own_end = &o;
      if (first == nullptr || first->verdict != Verdict::fail) first = &o;
      if (last == nullptr || o.verdict == Verdict::fail) last = &o;
    }
    return own_end != nullptr && !own_end->with.empty() && end->with == own_end->with ? first : last;
  }

  Conflict conflict_of(const Search::Answer& answer) const {
    const Open& o = search_.open()[answer.at];
    Conflict out{o.subject, std::string(o.choice->key), {}, answer.cut_short};
    for (const auto& against : answer.against) {
      const std::string& value = against.first;
      const Objection& objection = against.second;
      if (objection.check.empty() && !objection.with.empty()) continue;
      const auto same = std::find_if(out.exclusions.begin(), out.exclusions.end(), [&](const Conflict::Exclusion& e) {
        return e.objection.check == objection.check && e.objection.subject == objection.subject;
      });
      Conflict::Exclusion& e = same != out.exclusions.end() ? *same : out.exclusions.emplace_back(Conflict::Exclusion{objection, value, {}});
      if (std::find(e.values.begin(), e.values.end(), value) == e.values.end()) e.values.push_back(value);
    }
    // What another rules out as well, and more, explains nothing.
    const auto within = [](const Conflict::Exclusion& a, const Conflict::Exclusion& b) {
      return a.objection.with.empty() && b.objection.with.empty() && a.values.size() < b.values.size() && std::all_of(a.values.begin(), a.values.end(), [&](const std::string& v) { return std::find(b.values.begin(), b.values.end(), v) != b.values.end(); });
    };
    const std::vector<Conflict::Exclusion> all = out.exclusions;
    std::erase_if(out.exclusions, [&](const Conflict::Exclusion& e) { return std::any_of(all.begin(), all.end(), [&](const auto& other) { return within(e, other); }); });
    for (Conflict::Exclusion& e : out.exclusions) {
      e.from_smallest = e.values.front() == o.values.front();
      e.to_largest = e.values.back() == (answer.cut_short ? answer.against.back().first : o.values.back());
      e.value = e.to_largest ? e.values.front() : e.values.back();
      e.objection = *telling(answer, e);
    }
    return out;
  }

  const Draft& draft_;
  const SizingOptions& options_;
  Search search_;
};

}  // namespace

Objection objection_of(const Report& report, const Finding& f) {
  Objection o{f.check, std::string(f.subject), std::string(f.message), f.verdict};
  o.missing = f.missing;
  if (f.limit == no_step) return o;
  const Step& limit = report.sheets[f.sheet].working.steps()[f.limit];
  o.limit = fmt::format("{} {}", limit.name, shown(limit));
  return o;
}

Sizing size_case(const Draft& draft, const SizingOptions& options) { return Sizer(draft, options).run(); }

std::string wrong_limit(const Draft& draft, const SizingOptions& options) {
  const SizingOptions none;
  const std::vector<Open> all = Search(draft, none).all();
  for (const std::vector<Limit>* limits : {&options.at_least, &options.stock})
    for (const Limit& limit : *limits) {
      bool met = false;
      for (const Open& o : all) {
        if (!is_about(limit, o)) continue;
        met = true;
        for (const std::string& plain : limit.values)
          if (std::none_of(o.values.begin(), o.values.end(), [&](const std::string& v) { return same_value(v, plain); }))
            return fmt::format("'{}' is no value of {} of {}", plain, o.choice->key, o.subject);
      }
      if (!met) return fmt::format("'{}' is no size in this case", limit.key);
    }
  return {};
}

}  // namespace pullproof::answers
