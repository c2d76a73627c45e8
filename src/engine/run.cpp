#include "engine/run.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <optional>
#include <stdexcept>

namespace pullproof {
namespace {

class Runner {
 public:
  Runner(Report& report, const Case& job, const code::Edition& edition) : report_(report), job_(job), edition_(edition) {}

  void run(const Check& check) {
    check_ = &check;
    std::visit([this](auto fn) { over(fn); }, check.run);
  }

  /// Several checks may stumble over one mistake: the check whose matter it is reports it, else the first one, and
  /// the others wait for that.
  void settle() {
    using Key = std::pair<std::string_view, std::string_view>;
    std::map<Key, std::vector<std::size_t>> by_subject, by_message;  // failures of a check, about a subject or in these words
    for (std::size_t i = 0; i < report_.findings.size(); ++i) {
      const Finding& f = report_.findings[i];
      if (f.verdict != Verdict::fail) continue;
      by_subject[{f.check, f.subject}].push_back(i);
      by_message[{f.check, f.message}].push_back(i);
    }
    const auto first_failing = [&](const std::map<Key, std::vector<std::size_t>>& all, const Key& key) {
      const auto at = all.find(key);
      if (at != all.end())
        for (const std::size_t i : at->second)
          if (report_.findings[i].verdict == Verdict::fail) return i;
      return report_.findings.size();
    };
    for (const Stumble& s : stumbles_) {
      Finding& f = report_.findings[s.finding];
      if (f.check == s.owner) continue;
      const std::size_t owner = s.of.empty() ? std::min(first_failing(by_subject, {s.owner, f.subject}), first_failing(by_message, {s.owner, f.message}))
                                             : first_failing(by_subject, {s.owner, s.of});
      if (owner < report_.findings.size()) wait_for(f, report_.findings[owner]);
    }
    std::map<Key, std::size_t> told;  // what is said of a subject: the first to say it
    for (const Stumble& s : stumbles_) {
      Finding& f = report_.findings[s.finding];
      if (f.verdict != Verdict::fail) continue;
      const auto [first, is_new] = told.try_emplace({f.subject, f.message}, s.finding);
      if (!is_new) wait_for(f, report_.findings[first->second]);
    }
  }

 private:
  /// A check that was left by a Stop that fails.
  struct Stumble {
    std::size_t finding;
    std::string_view owner, of;
  };

  void wait_for(Finding& f, const Finding& reported) {
    f.verdict = Verdict::not_applicable;
    f.waits_for = reported.check;
    f.message = report_.texts->format("waits for '{}', which fails", reported.check);
    f.change = {};
  }

  void over(void (*fn)(Context&, const Circuit&)) { each("circuit", job_.circuits, fn); }
  void over(void (*fn)(Context&, const Raceway&)) { each("raceway", job_.raceways, fn); }
  void over(void (*fn)(Context&, const Cable&)) { each("cable", job_.cables, fn); }
  void over(void (*fn)(Context&, const Way&)) {
    for (const Raceway& r : job_.raceways) one(report_.texts->format("raceway {}", *r.name), Way(r), fn);
    for (const Cable& k : job_.cables) one(report_.texts->format("cable {}", *k.name), Way(k), fn);
  }
  void over(void (*fn)(Context&, const Control&)) { each("control", job_.controls, fn); }
  void over(void (*fn)(Context&, const Box&)) { each("box", job_.boxes, fn); }
  void over(void (*fn)(Context&, const Supply&)) { one("supply", job_.supply, fn); }

  template <class T, class Fn>
  void each(std::string_view kind, const std::vector<T>& things, Fn fn) {
    for (const T& thing : things) one(report_.texts->format("{} {}", kind, *thing.name), thing, fn);
  }

  template <class T, class Fn>
  void one(std::string_view subject, const T& thing, Fn fn) {
    Context cx(report_, job_, edition_, check_->id, check_->title, subject, thing.where, memory_);
    try {
      fn(cx, thing);
      if (cx.findings() == 0) cx.not_covered("the check gave no answer for this case");
    } catch (const Stop& stop) {
      cx.stopped(stop);
      if (stop.verdict == Verdict::fail) stumbles_.push_back({report_.findings.size() - 1, stop.owner, stop.of});
    } catch (const std::out_of_range& e) {  // a rules folder of one's own may lack a column, or hold a text for a number
      cx.stopped(unexpected_rules(e));
    } catch (const std::bad_optional_access& e) {
      cx.stopped(unexpected_rules(e));
    }
  }

  Stop unexpected_rules(const std::exception& e) {
    Stop s;
    s.verdict = Verdict::not_covered;
    s.message = report_.texts->format("the rule data is not what this check expects: {}", e.what());
    return s;
  }

  Report& report_;
  const Case& job_;
  const code::Edition& edition_;
  std::shared_ptr<Memory> memory_ = std::make_shared<Memory>();
  const Check* check_ = nullptr;
  std::vector<Stumble> stumbles_;
};

/// The cautions that fit the job, from the rule data: `when` is "always" or a feature of the case.
void add_cautions(Report& report, const Case& job, const code::Edition& edition) {
  const auto t = edition.table("cautions");
  if (!t) return;
  const auto fits = [&](std::string_view when) {
    if (when == "always") return true;
    if (when == "control") return !job.controls.empty();
    const auto any_circuit = [&](auto pred) { return std::any_of(job.circuits.begin(), job.circuits.end(), pred); };
    if (when == "gas")
      return any_circuit([](const Circuit& c) { return c.load.appliance && c.load.appliance->find("gas") != std::string_view::npos; });
    if (when == "circuit") return !job.circuits.empty();
    const auto any_way = [&](Place::Word w) {
      return std::any_of(job.raceways.begin(), job.raceways.end(), [&](const Raceway& r) { return r.place && r.place->has(w); }) ||
             std::any_of(job.cables.begin(), job.cables.end(), [&](const Cable& r) { return r.place && r.place->has(w); });
    };
    if (when == "underground") return any_way(Place::underground);
    if (when == "rooftop") return any_way(Place::rooftop);
    if (when == "outdoors") return any_way(Place::outdoors) || any_way(Place::wet);
    return false;
  };
  for (std::size_t r = 0; r < t->rows(); ++r)
    if (fits(t->cell(r, "when").text())) report.cautions.push_back(t->cell(r, "text").text());
}

}  // namespace

const Check* find_check(std::string_view id) {
  for (const Check* c : all_checks())
    if (c->id == id) return c;
  return nullptr;
}

Report run_checks(std::shared_ptr<const Case> job, const code::Edition& edition, std::span<const Check* const> checks) {
  Report report;
  report.case_file = job->file;
  report.title = job->job.title.value;
  report.site = job->job.site.value;
  report.permit = job->job.permit.value;
  report.date = job->date.text;
  report.edition = edition.id();
  report.book = edition.book_title();
  report.edition_chain = edition.chain();
  Runner runner(report, *job, edition);
  for (const Check* check : checks) runner.run(*check);
  runner.settle();
  std::vector<Finding> sorted;
  sorted.reserve(report.findings.size());
  for (const Verdict v : {Verdict::fail, Verdict::needs_input, Verdict::not_covered, Verdict::advice, Verdict::pass, Verdict::not_applicable})
    for (Finding& f : report.findings)
      if (f.verdict == v) sorted.push_back(std::move(f));
  report.findings = std::move(sorted);
  add_cautions(report, *job, edition);
  report.keeps = {job, edition.store()};
  return report;
}

}  // namespace pullproof
