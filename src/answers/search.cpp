#include "answers/search.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

namespace pullproof::answers {
namespace {

/// After so many values in a row that fail for the same reasons further on, larger ones are taken to fail as well.
constexpr std::size_t most_alike = 6;

/// A search that takes longer is given up, and says so.
constexpr std::size_t most_trials = 20'000;

}  // namespace

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

std::vector<Open> Search::all() const {
  std::vector<Open> out;
  if (!job_) return out;
  for (const Part& part : parts_of(*job_))
    for (const Choice& choice : all_choices())
      if (choice.size && choice.kind == part.kind) out.push_back(open_of(choice, part));
  return out;
}

void Search::begin(const Report& base) {
  for (const Finding& f : base.findings)
    if (rejects(f, Strict::fails_alone)) fails_anyway_.emplace(f.check, f.subject);
  for (const Part& part : parts_of(*job_))
    for (const Choice& choice : all_choices())
      if (choice.kind == part.kind && std::find(options_.reopened.begin(), options_.reopened.end(), path_of(choice, part)) != options_.reopened.end()) reopen(choice, part);
}

bool Search::gave_up() const { return trials_ > most_trials; }

Open Search::open_of(const Choice& choice, const Part& part) const {
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
void Search::reopen(const Choice& choice, const Part& part) {
  Open o = open_of(choice, part);
  const std::string_view now = value_at(draft_.text, o.path);
  const auto first = std::find_if(o.values.begin(), o.values.end(), [&](const std::string& v) { return same_value(v, unquoted(now)); });
  o.values.erase(o.values.begin(), first);
  if (!now.empty() && !o.values.empty()) open_.push_back(std::move(o));
}

/// Whether it is the part's own: the wire of a circuit that runs in cables alone is the cables'.
bool Search::fits(const Choice& choice, const Part& part) const {
  if (choice.kind != Kind::circuit || (choice.key != "wire.size" && choice.key != "ground.size")) return true;
  const std::vector<Stretch>& path = job_->circuits[part.index].path;
  return path.empty() || std::any_of(path.begin(), path.end(), [](const Stretch& s) { return s.raceway != nullptr; });
}

bool Search::find_open(const Report& report) {
  const std::size_t before = open_.size();
  const Editable written(draft_.text);
  for (const Finding& f : report.findings) {
    if (f.verdict != Verdict::needs_input || f.missing.empty()) continue;
    for (const Part& part : around(*job_, f.subject))
      for (const Choice& choice : all_choices()) {
        if (!choice.size || choice.kind != part.kind || !is_missing(f.missing, choice) || !fits(choice, part)) continue;
        const std::string path = path_of(choice, part);
        if (!written.at(path).empty() || std::any_of(open_.begin(), open_.end(), [&](const Open& o) { return o.path == path; })) continue;
        Open o = open_of(choice, part);
        if (!choice.values(*job_, draft_.edition, part.index).empty()) open_.push_back(std::move(o));
      }
  }
  return open_.size() > before;
}

/// Puts the sizes in the order that they are decided in, and finds which checks each bears on.
void Search::prepare() {
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

const std::set<std::size_t>& Search::bearing(std::string_view check, std::string_view subject) {
  const auto [found, is_new] = bearing_.try_emplace(std::pair(std::string(check), std::string(subject)));
  if (!is_new) return found->second;
  const Check* c = find_check(check);
  const std::vector<Part> parts = around(*job_, subject);
  for (std::size_t i = 0; i < open_.size(); ++i)
    if (answers::reads(c->reads, *open_[i].choice) && std::find(parts.begin(), parts.end(), open_[i].part) != parts.end()) found->second.insert(i);
  return found->second;
}

bool Search::dodges(const Finding& f) {
  return f.verdict == Verdict::not_covered || (f.verdict == Verdict::needs_input && (f.missing.ends_with("diameter") || f.missing.ends_with("resistance")));
}

bool Search::rejects(const Finding& f, Strict strict) {
  return f.verdict == Verdict::fail || (strict == Strict::advice_too && (is_unheeded(f) || f.verdict == Verdict::not_covered));
}

Search::Answer Search::run(Strict strict) {
  prepare();
  return search(0, draft_.text, strict, {});
}

/// The smallest values from the `i`th size on, the earlier ones written into `text`. What `failed_so_far` for smaller
/// values of an earlier size and cannot be answered for these is no better.
Search::Answer Search::search(std::size_t i, const std::string& text, Strict strict, Matters failed_so_far) {
  if (i == open_.size()) return last_look(text);
  while (true) {
    Answer answer = try_values(i, text, strict, failed_so_far);
    if (answer.good || answer.at != i || trials_ > most_trials || !ignore_what_no_size_mends(i, text, answer)) return answer;
  }
}

Search::Answer Search::try_values(std::size_t i, const std::string& text, Strict strict, Matters failed_so_far) {
  Answer failed;
  failed.at = i;
  Matters reasons;
  std::size_t alike = 0;
  const Editable here(text);
  for (const std::string& value : open_[i].values) {
    if (trials_ > most_trials) return failed;
    const Edit edit[] = {{open_[i].path, value}};
    const std::string changed = here.with(edit).value_or(std::string{});
    const auto job = draft_.read(changed);
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
    Answer next = search(i + 1, changed, strict, failed_so_far);
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
bool Search::ignore_what_no_size_mends(std::size_t i, const std::string& text, const Answer& failed) {
  if (open_[i].values.empty()) return false;
  const auto says = [&](std::size_t j, const std::string& value, const Objection& o) {
    const Edit edits[] = {{open_[i].path, open_[i].values.front()}, {open_[j].path, value}};
    const auto job = draft_.read(edited(text, edits).value_or(std::string{}));
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
Search::Answer Search::last_look(const std::string& text) {
  Answer out;
  out.at = open_.size() - 1;
  const auto job = draft_.read(text);
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

std::vector<Edit> Search::edits() const {
  std::vector<Edit> out;
  for (std::size_t i = 0; i < open_.size(); ++i) out.push_back({open_[i].path, values_[i]});
  return out;
}

}  // namespace pullproof::answers
