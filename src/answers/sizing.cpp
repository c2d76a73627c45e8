#include "answers/sizing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>
#include <utility>

namespace pullproof::answers {
namespace {

/// A size to be found.
struct Open {
  const Choice* choice = nullptr;
  Part part;
  std::string path, subject;
  std::vector<std::string> values;
};

/// After so many values in a row that fail for the same reasons further on, larger ones are taken to fail as well.
constexpr std::size_t most_alike = 6;

/// A search that takes longer is given up, and says so.
constexpr std::size_t most_trials = 20'000;

enum class Strict : bool { fails_alone, advice_too };

/// Whether a limit that names `key` is about this one.
bool is_about(const Limit& limit, const Open& o) {
  std::string_view key = limit.key;
  if (const std::size_t colon = key.find(": "); colon != std::string_view::npos) {
    const std::string_view name = key.substr(0, colon);
    if (o.subject != name && !(o.subject.ends_with(name) && o.subject == fmt::format("{} {}", word(o.part.kind), name))) return false;
    key.remove_prefix(colon + 2);
  }
  return is_missing(key, *o.choice) || key == path_of(*o.choice, o.part);
}

bool same_value(std::string_view toml_value, std::string_view plain) {
  const std::string other = toml_string(plain);
  const double a = magnitude(toml_value), b = magnitude(other);
  return unquoted(toml_value) == plain || (std::isfinite(a) && a == b);
}

class Sizer {
 public:
  Sizer(const Draft& draft, const SizingOptions& options) : draft_(draft), options_(options), job_(draft.with({})) {}

  Sizing run() {
    Sizing out;
    if (!job_) return out;
    const Report base = run_checks(job_, draft_.edition);
    for (const Finding& f : base.findings)
      if (rejects(f, Strict::fails_alone)) fails_anyway_.emplace(f.check, f.subject);
    Report now = base;
    for (const Part& part : parts_of(*job_))
      for (const Choice& choice : all_choices())
        if (choice.kind == part.kind && std::find(options_.reopened.begin(), options_.reopened.end(), path_of(choice, part)) != options_.reopened.end()) reopen(choice, part);
    bool more = !open_.empty();
    Strict strict = options_.heed_advice ? Strict::advice_too : Strict::fails_alone;
    while (find_open(now) || std::exchange(more, false)) {
      more = false;
      prepare();
      Answer answer = search(strict);
      if (!answer.good && strict == Strict::advice_too) {
        const Answer heeding = std::move(answer);
        answer = search(Strict::fails_alone);
        if (answer.good) {
          strict = Strict::fails_alone;
          for (const auto& against : heeding.against) {
            const Objection& advice = against.second;
            const auto same = [&](const Objection& u) { return u.check == advice.check && u.subject == advice.subject; };
            if (advice.verdict != Verdict::fail && std::none_of(out.unheeded.begin(), out.unheeded.end(), same)) out.unheeded.push_back(advice);
          }
        }
      }
      out.trials = trials_;
      if (!answer.good) {
        out.conflict = conflict_of(answer);
        out.gave_up = trials_ > most_trials;
        return out;
      }
      now = run_checks(draft_.with(edits()), draft_.edition);
    }
    out.edits = edits();
    for (std::size_t i = 0; i < open_.size(); ++i) {
      out.sizes.push_back(sized(i, strict));
      unsettle(out.sizes.back(), i, now);
    }
    out.trials = trials_;
    return out;
  }

  /// For wrong_limit: every choice of every part.
  std::vector<Open> all() const {
    std::vector<Open> out;
    if (!job_) return out;
    for (const Part& part : parts_of(*job_))
      for (const Choice& choice : all_choices())
        if (choice.size && choice.kind == part.kind) out.push_back(open_of(choice, part));
    return out;
  }

 private:
  struct Answer {
    bool good = false;
    std::set<std::size_t> because;  ///< earlier sizes that the failure hangs on
    std::size_t at = 0;             ///< the size for which nothing did
    bool cut_short = false;         ///< larger ones of some size were not tried
    std::vector<std::pair<std::string, Objection>> against;
  };

  Open open_of(const Choice& choice, const Part& part) const {
    Open o{&choice, part, path_of(choice, part), subject_of(*job_, part), choice.values(*job_, draft_.edition, part.index)};
    for (const Limit& limit : options_.at_least) {
      if (!is_about(limit, o)) continue;
      const auto first = std::find_if(o.values.begin(), o.values.end(), [&](const std::string& v) {
        return same_value(v, limit.values.front()) || magnitude(v) >= magnitude(toml_string(limit.values.front()));
      });
      o.values.erase(o.values.begin(), first);
    }
    for (const Limit& limit : options_.stock)
      if (is_about(limit, o))
        std::erase_if(o.values, [&](const std::string& v) { return std::none_of(limit.values.begin(), limit.values.end(), [&](const std::string& s) { return same_value(v, s); }); });
    return o;
  }

  /// A given size from what it is upwards.
  void reopen(const Choice& choice, const Part& part) {
    Open o = open_of(choice, part);
    const std::string_view now = value_at(draft_.text, o.path);
    const auto first = std::find_if(o.values.begin(), o.values.end(), [&](const std::string& v) { return same_value(v, unquoted(now)); });
    o.values.erase(o.values.begin(), first);
    if (!now.empty() && !o.values.empty()) open_.push_back(std::move(o));
  }

  /// Whether it is the part's own: the wire of a circuit that runs in cables alone is the cables'.
  bool fits(const Choice& choice, const Part& part) const {
    if (choice.kind != Kind::circuit || (choice.key != "wire.size" && choice.key != "ground.size")) return true;
    const std::vector<Stretch>& path = job_->circuits[part.index].path;
    return path.empty() || std::any_of(path.begin(), path.end(), [](const Stretch& s) { return s.raceway != nullptr; });
  }

  /// Adds what the findings miss. Whether there was anything.
  bool find_open(const Report& report) {
    const std::size_t before = open_.size();
    for (const Finding& f : report.findings) {
      if (f.verdict != Verdict::needs_input || f.missing.empty()) continue;
      for (const Part& part : around(*job_, f.subject))
        for (const Choice& choice : all_choices()) {
          if (!choice.size || choice.kind != part.kind || !is_missing(f.missing, choice) || !fits(choice, part)) continue;
          const std::string path = path_of(choice, part);
          if (!value_at(draft_.text, path).empty() || std::any_of(open_.begin(), open_.end(), [&](const Open& o) { return o.path == path; })) continue;
          Open o = open_of(choice, part);
          if (!choice.values(*job_, draft_.edition, part.index).empty()) open_.push_back(std::move(o));
        }
    }
    return open_.size() > before;
  }

  /// Puts the sizes in the order that they are decided in, and finds which checks each bears on.
  void prepare() {
    const std::vector<Part> parts = parts_of(*job_);
    const auto order_of = [&](const Part& p) { return std::find(parts.begin(), parts.end(), p) - parts.begin(); };
    const auto rank = [&](const Open& o) {
      const auto choice = o.choice - all_choices().data();
      const bool of_a_circuit = choice <= 4;  // device, conductors, ground
      std::ptrdiff_t circuit = order_of(o.part);
      if (of_a_circuit && o.part.kind == Kind::cable)
        for (const Part& p : around(*job_, o.subject))
          if (p.kind == Kind::circuit) {
            circuit = order_of(p);
            break;
          }
      return of_a_circuit ? std::tuple(0, circuit, choice) : std::tuple(1, choice, circuit);
    };
    std::stable_sort(open_.begin(), open_.end(), [&](const Open& a, const Open& b) { return rank(a) < rank(b); });
    values_.assign(open_.size(), {});
    checks_.assign(open_.size(), {});
    bearing_.clear();
    for (std::size_t i = 0; i < open_.size(); ++i)
      for (const Check* c : all_checks())
        if (answers::reads(c->reads, *open_[i].choice)) checks_[i].push_back(c);
  }

  /// The sizes that bear on what a check says of a subject.
  const std::set<std::size_t>& bearing(std::string_view check, std::string_view subject) {
    const auto [found, is_new] = bearing_.try_emplace(std::pair(std::string(check), std::string(subject)));
    if (!is_new) return found->second;
    const Check* c = find_check(check);
    const std::vector<Part> parts = around(*job_, subject);
    for (std::size_t i = 0; i < open_.size(); ++i)
      if (answers::reads(c->reads, *open_[i].choice) && std::find(parts.begin(), parts.end(), open_[i].part) != parts.end()) found->second.insert(i);
    return found->second;
  }

  /// Whether a check has no answer because the tables end, not because the case leaves a fact out: what is asked for
  /// then is the maker's figure in place of a table's.
  static bool dodges(const Finding& f) {
    return f.verdict == Verdict::not_covered || (f.verdict == Verdict::needs_input && (f.missing.ends_with("diameter") || f.missing.ends_with("resistance")));
  }

  static bool rejects(const Finding& f, Strict strict) {
    return f.verdict == Verdict::fail || (strict == Strict::advice_too && (is_unheeded(f) || f.verdict == Verdict::not_covered));
  }

  using Matters = std::set<std::pair<std::string, std::string>>;

  Answer search(Strict strict) { return search(0, draft_.text, strict, {}); }

  /// The smallest values from the `i`th size on, the earlier ones written into `text`. What `failed_so_far` for smaller
  /// values of an earlier size and cannot be answered for these is no better.
  Answer search(std::size_t i, const std::string& text, Strict strict, Matters failed_so_far) {
    if (i == open_.size()) return last_look(text);
    while (true) {
      Answer answer = try_values(i, text, strict, failed_so_far);
      if (answer.good || answer.at != i || trials_ > most_trials || !ignore_what_no_size_mends(i, text, answer)) return answer;
    }
  }

  Answer try_values(std::size_t i, const std::string& text, Strict strict, Matters failed_so_far) {
    Answer failed;
    failed.at = i;
    Matters reasons;
    std::size_t alike = 0;
    for (const std::string& value : open_[i].values) {
      if (trials_ > most_trials) return failed;
      const Edit edit[] = {{open_[i].path, value}};
      const Draft here{draft_.file, pullproof::edited(text, edit).value_or(std::string{}), draft_.edition, draft_.effort};
      const auto job = here.with({});
      ++trials_;
      if (!job) {
        failed.against.emplace_back(value, Objection{{}, open_[i].subject, "the tables do not have it", Verdict::fail});
        continue;
      }
      bool good = true;
      const Report report = run_checks(job, draft_.edition, checks_[i]);
      for (const Finding& f : report.findings) {
        const std::pair matter(std::string(f.check), std::string(f.subject));
        if (!rejects(f, strict) && !(dodges(f) && failed_so_far.count(matter) != 0)) continue;
        const std::set<std::size_t>& on = bearing(f.check, f.subject);
        if (on.empty() || *on.rbegin() != i) continue;  // said already, or not decided yet
        if (ignored_.count({matter, std::string(f.message)}) != 0) continue;
        good = false;
        failed_so_far.insert(matter);
        failed.because.insert(on.begin(), on.end());
        failed.against.emplace_back(value, objection_of(report, f));
      }
      if (!good) continue;
      values_[i] = value;
      Answer next = search(i + 1, here.text, strict, failed_so_far);
      if (next.good || next.because.count(i) == 0) return next;
      failed.because.insert(next.because.begin(), next.because.end());
      failed.cut_short = failed.cut_short || next.cut_short;
      Matters now;
      for (const auto& [v, objection] : next.against) now.emplace(objection.check, objection.subject);
      alike = now == reasons ? alike + 1 : 1;
      reasons = std::move(now);
      for (auto& [v, objection] : next.against) {
        failed_so_far.emplace(objection.check, objection.subject);
        if (objection.with.empty()) objection.with = fmt::format("{} = {}", open_[next.at].choice->key, v);
        failed.against.emplace_back(value, std::move(objection));
      }
      if (alike == most_alike && &value != &open_[i].values.back()) {
        failed.cut_short = true;
        break;
      }
    }
    failed.because.erase(i);
    return failed;
  }

  /// What fails in the same words for the smallest and for the largest of every size that bears on it hangs on something
  /// else, such as a type or a place, and is not for this search. Whether there was anything new of that kind.
  bool ignore_what_no_size_mends(std::size_t i, const std::string& text, const Answer& failed) {
    if (open_[i].values.empty()) return false;
    const auto says = [&](std::size_t j, const std::string& value, const Objection& o) {
      const Edit edits[] = {{open_[i].path, open_[i].values.front()}, {open_[j].path, value}};
      const auto job = Draft{draft_.file, pullproof::edited(text, edits).value_or(std::string{}), draft_.edition, draft_.effort}.with({});
      ++trials_;
      const Check* const one[] = {find_check(o.check)};
      if (!job) return false;
      const Report report = run_checks(job, draft_.edition, one);
      return std::any_of(report.findings.begin(), report.findings.end(), [&](const Finding& f) { return f.subject == o.subject && f.message == o.message; });
    };
    bool any = false;
    for (const auto& [value, o] : failed.against) {
      if (value != open_[i].values.front() || o.verdict != Verdict::fail || o.check.empty() || !o.with.empty()) continue;
      const std::pair key(std::pair(std::string(o.check), o.subject), o.message);
      const std::set<std::size_t>& on = bearing(o.check, o.subject);
      const bool independent = ignored_.count(key) == 0 && std::all_of(on.begin(), on.end(), [&, &objection = o](std::size_t j) {
        const std::vector<std::string> all = open_[j].choice->values(*job_, draft_.edition, open_[j].part.index);
        return says(j, all.front(), objection) && says(j, all.back(), objection);
      });
      if (independent) any = ignored_.insert(key).second || any;
    }
    return any;
  }

  /// Every check, with everything decided. A fail of a check that reads none of the sizes is for the report, not for
  /// this search: a colour is not mended by a larger wire.
  Answer last_look(const std::string& text) {
    Answer out;
    out.at = open_.size() - 1;
    const auto job = Draft{draft_.file, text, draft_.edition, draft_.effort}.with({});
    ++trials_;
    const Report report = run_checks(job, draft_.edition);
    for (const Finding& f : report.findings) {
      const std::pair matter(std::string(f.check), std::string(f.subject));
      const std::set<std::size_t>& on = bearing(f.check, f.subject);
      if (!rejects(f, Strict::fails_alone) || on.empty() || fails_anyway_.count(matter) != 0 || ignored_.count({matter, std::string(f.message)}) != 0) continue;
      out.against.emplace_back(values_.back(), objection_of(report, f));
      out.because.insert(on.begin(), on.end());
    }
    out.good = out.against.empty();
    return out;
  }

  std::vector<Edit> edits() const {
    std::vector<Edit> out;
    for (std::size_t i = 0; i < open_.size(); ++i) out.push_back({open_[i].path, values_[i]});
    return out;
  }

  /// A size, and what speaks against the next smaller one with all else as it is.
  Sized sized(std::size_t i, Strict strict) {
    const Open& o = open_[i];
    Sized s{o.subject, std::string(o.choice->key), o.path, values_[i], {}, {}, {}, {}};
    const auto at = std::find(o.values.begin(), o.values.end(), values_[i]);
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
    std::vector<Edit> other = edits();
    put(other, {open_[i].path, value});
    const auto job = draft_.with(other);
    ++trials_;
    if (!job) return {{{}, open_[i].subject, "the tables do not have it", Verdict::fail}};
    std::vector<Objection> out;
    const Report report = run_checks(job, draft_.edition, checks_[i]);
    for (const Finding& f : report.findings)
      if ((rejects(f, strict) || dodges(f)) && bearing(f.check, f.subject).count(i) != 0) out.push_back(objection_of(report, f));
    return out;
  }

  /// What does a sum with this size and has no answer might have asked for more.
  void unsettle(Sized& s, std::size_t i, const Report& done) {
    for (const Finding& f : done.findings) {
      if ((f.verdict != Verdict::needs_input && f.verdict != Verdict::not_covered) || find_check(f.check)->formula.empty() || bearing(f.check, f.subject).count(i) == 0) continue;
      if (std::none_of(s.unsettled.begin(), s.unsettled.end(), [&](const Objection& o) { return o.check == f.check && o.missing == f.missing; })) s.unsettled.push_back(objection_of(done, f));
    }
  }

  /// Of what a check says of a value, with one later size after another, what comes nearest to doing.
  static const Objection* telling(const Answer& answer, const Conflict::Exclusion& e) {
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

  Conflict conflict_of(const Answer& answer) const {
    const Open& o = open_[answer.at];
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
  std::shared_ptr<const Case> job_;
  std::vector<Open> open_;
  std::vector<std::string> values_;
  std::vector<std::vector<const Check*>> checks_;
  std::map<std::pair<std::string, std::string>, std::set<std::size_t>> bearing_;
  std::set<std::pair<std::string, std::string>> fails_anyway_;
  std::set<std::pair<std::pair<std::string, std::string>, std::string>> ignored_;  ///< matter and message
  std::size_t trials_ = 0;
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
  const std::vector<Open> all = Sizer(draft, none).all();
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
