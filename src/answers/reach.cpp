#include "answers/reach.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>


namespace pullproof::answers {
namespace {

using Matter = std::pair<std::string, std::string>;

/// Of a run: what is varied.
struct Run {
  Part part;
  const Choice* size = nullptr;
  std::vector<std::string> sizes;   ///< paths of the sizes that change together
  std::string length;               ///< path of the length that is varied
  std::string stretch;
  double rest = 0, now = 0;         ///< feet: of the other stretches, of this one
};

constexpr double ladder[] = {3, 6, 12, 25, 50, 100, 200, 400, 800, 1600, 3200, 5000};
constexpr double tenth = 0.1;
constexpr std::size_t most_rows = 8;

double feet(const Given<Length>& l) { return l ? units::foot.show(*l) : 0; }

const Choice* choice_of(Kind kind, std::string_view key) {
  for (const Choice& c : all_choices())
    if (c.kind == kind && c.key == key) return &c;
  return nullptr;
}

class Reacher {
 public:
  Reacher(Draft draft, bool heed_advice) : draft_(std::move(draft)), heed_advice_(heed_advice), job_(draft_.with({})) {
    draft_.editable = std::make_shared<Editable>(draft_.text);
  }

  std::vector<ReachTable> run() const {
    std::vector<ReachTable> out;
    for (const Part& part : parts_of(*job_)) {
      const auto found = part.kind == Kind::circuit ? of(job_->circuits[part.index], part)
                         : part.kind == Kind::control ? of(job_->controls[part.index], part) : std::nullopt;
      if (found) out.push_back(table(*found));
    }
    return out;
  }

 private:
  std::optional<Run> of(const Circuit& c, const Part& part) const {
    Run r{part, choice_of(Kind::circuit, "wire.size"), {}, {}, {}, 0, 0};
    const Stretch* longest = nullptr;
    const auto length = [](const Stretch& s) { return feet(s.raceway != nullptr ? s.raceway->length : s.cable->length); };
    for (const Stretch& s : c.path) {
      if (s.wire.size) return std::nullopt;  // sizes of its own along the way are not one size
      if (longest == nullptr || length(s) > length(*longest)) longest = &s;
      r.rest += length(s);
      if (s.cable == nullptr && r.sizes.empty()) r.sizes.push_back(path_of(*r.size, part));
    }
    if (longest == nullptr) return std::nullopt;
    for (const Stretch& s : c.path)
      if (s.cable != nullptr) r.sizes.push_back(fmt::format("cable.{}.size", s.cable - job_->cables.data()));
    vary(r, *longest, length(*longest));
    return r;
  }

  std::optional<Run> of(const Control& c, const Part& part) const {
    Run r{part, choice_of(Kind::control, "cable.size"), {}, {}, {}, 0, 0};
    r.sizes.push_back(path_of(*r.size, part));
    if (c.length || c.path.empty()) {
      r.length = fmt::format("control.{}.length", part.index);
      r.now = feet(c.length);
      return r;
    }
    const Stretch* longest = nullptr;
    for (const Stretch& s : c.path) {
      if (s.raceway == nullptr) return std::nullopt;
      if (longest == nullptr || feet(s.raceway->length) > feet(longest->raceway->length)) longest = &s;
      r.rest += feet(s.raceway->length);
    }
    vary(r, *longest, feet(longest->raceway->length));
    return r;
  }

  void vary(Run& r, const Stretch& s, double length) const {
    const Part way = s.raceway != nullptr ? Part{Kind::raceway, static_cast<std::size_t>(s.raceway - job_->raceways.data())}
                                          : Part{Kind::cable, static_cast<std::size_t>(s.cable - job_->cables.data())};
    r.length = fmt::format("{}.{}.length", word(way.kind), way.index);
    r.stretch = subject_of(*job_, way);
    r.now = length;
    r.rest -= length;
  }

  ReachTable table(const Run& r) const {
    ReachTable out{subject_of(*job_, r.part), std::string(r.size->key), r.stretch, units::foot.of(r.now > 0 ? r.rest + r.now : 0), {}, false, std::nullopt};
    const std::string_view now = value_at(draft_.text, r.sizes.front());
    for (const std::string& size : r.size->values(*job_, draft_.edition, r.part.index)) {
      const bool is_now = unquoted(now) == unquoted(size);
      if (out.rows.size() >= most_rows && !is_now) {
        if (now_is_above(now, size)) continue;
        break;
      }
      std::vector<Edit> edits;
      for (const std::string& path : r.sizes) put(edits, {path, size});
      ReachRow row;
      row.size = unquoted(size);
      row.now = is_now;
      if (const auto why = follow(r, edits, row)) {
        if (out.rows.empty()) out.too_small = {row.size, *why};
        continue;
      }
      go(r, edits, row);
      const bool no_farther = !out.rows.empty() && !row.farther && !row.now && row.longest <= out.rows.back().longest && row.stops.check == out.rows.back().stops.check;
      out.no_farther = no_farther && !now_is_above(now, size);
      if (out.no_farther) break;
      if (!no_farther) out.rows.push_back(row);
      if (row.farther) break;
    }
    return out;
  }

  static bool now_is_above(std::string_view now, std::string_view size) {
    return !now.empty() && magnitude(now) > magnitude(size);
  }

  Report at(const Run& r, std::vector<Edit> edits, double length, std::span<const Check* const> checks = all_checks()) const {
    put(edits, {r.length, fmt::format("\"{} ft\"", number_text(length, 4))});
    const auto job = draft_.with(edits);
    return job ? run_checks(job, draft_.edition, checks) : Report{};
  }

  /// What stands against a run, of the things along it.
  std::vector<Objection> objections(const Run& r, const Report& report) const {
    std::vector<std::string> subjects;
    for (const Part& p : around(*job_, subject_of(*job_, r.part))) subjects.push_back(subject_of(*job_, p));
    std::vector<Objection> out;
    for (const Finding& f : report.findings) {
      if (f.verdict != Verdict::fail && !(heed_advice_ && is_unheeded(f))) continue;
      if (std::find(subjects.begin(), subjects.end(), f.subject) != subjects.end()) out.push_back(objection_of(report, f));
    }
    return out;
  }

  static Matter matter_of(const Objection& o) { return {std::string(o.check), o.subject}; }

  /// Changes what has to change along with the size. What the size fails by itself, where it does.
  std::optional<Objection> follow(const Run& r, std::vector<Edit>& edits, ReachRow& row) const {
    const auto bears = [&](const Objection& o) {
      const Check* c = find_check(o.check);
      return o.verdict == Verdict::fail && c != nullptr && answers::reads(c->reads, *r.size);
    };
    const Report report = at(r, edits, ladder[0]);
    if (report.findings.empty()) return Objection{{}, subject_of(*job_, r.part), "the tables do not have it", Verdict::fail};
    std::vector<Objection> against = objections(r, report);
    if (std::none_of(against.begin(), against.end(), bears)) return std::nullopt;
    std::vector<Edit> there = edits;
    put(there, {r.length, fmt::format("\"{} ft\"", ladder[0])});
    SizingOptions options;
    options.heed_advice = false;
    const std::vector<Part> parts = around(*job_, subject_of(*job_, r.part));
    for (const Part& part : parts)
      for (const Choice& choice : all_choices()) {
        const bool follows = part == r.part ? choice.key == "ground.size" : choice.key == "size" || choice.key == "ground";
        const std::string path = path_of(choice, part);
        if (choice.kind == part.kind && follows && std::find(r.sizes.begin(), r.sizes.end(), path) == r.sizes.end()) options.reopened.push_back(path);
      }
    for (std::size_t i = 0; i < job_->boxes.size(); ++i) options.reopened.push_back(fmt::format("box.{}.size", i));
    const Draft short_one{draft_.file, draft_.edited(there), draft_.edition, draft_.effort};
    const Sizing grown = size_case(short_one, options);
    for (const Sized& s : grown.sizes) {
      if (unquoted(s.value) == unquoted(value_at(draft_.text, s.path))) continue;
      row.with.push_back(s);
      put(edits, {s.path, s.value});
    }
    against = objections(r, at(r, edits, ladder[0]));
    const auto still = std::find_if(against.begin(), against.end(), bears);
    return still == against.end() ? std::nullopt : std::optional(*still);
  }

  /// The checks that read the length that is varied.
  static std::vector<const Check*> of_length(const Run& r) {
    const std::string key = fmt::format("{}.length", std::string_view(r.length).substr(0, r.length.find('.')));
    std::vector<const Check*> out;
    for (const Check* c : all_checks())
      if (c->reads.find(key) != std::string_view::npos || c->reads.find("control.path") != std::string_view::npos) out.push_back(c);
    return out;
  }

  void go(const Run& r, const std::vector<Edit>& edits, ReachRow& row) const {
    std::set<Matter> anyway;
    for (const Objection& o : objections(r, at(r, edits, ladder[0]))) anyway.insert(matter_of(o));
    const std::vector<const Check*> checks = of_length(r);
    const auto stop = [&](double length, std::span<const Check* const> which) -> std::optional<Objection> {
      for (const Objection& o : objections(r, at(r, edits, length, which)))
        if (anyway.count(matter_of(o)) == 0) return o;
      return std::nullopt;
    };
    seek(r, row, [&](double length) { return stop(length, checks); });
    // A check that reads the length and does not say so would be met here.
    if (const auto o = stop(units::foot.show(row.longest) - r.rest, all_checks())) seek(r, row, [&](double length) { return stop(length, all_checks()); });
  }

  template <class Stop>
  void seek(const Run& r, ReachRow& row, Stop stop) const {
    double good = ladder[0], bad = 0;
    for (const double length : ladder) {
      if (const auto o = stop(length)) {
        bad = length;
        row.stops = *o;
        break;
      }
      good = length;
    }
    row.farther = bad == 0;
    double low = good / tenth, high = bad / tenth;
    while (!row.farther && high - low > 1.5) {  // in tenths
      const double middle = std::floor((low + high) / 2);
      if (const auto o = stop(middle * tenth)) {
        high = middle;
        row.stops = *o;
      } else {
        low = middle;
      }
    }
    row.longest = units::foot.of(r.rest + low * tenth);
  }

  Draft draft_;
  bool heed_advice_;
  std::shared_ptr<const Case> job_;
};

}  // namespace

Reach reach_of(const Draft& draft, bool heed_advice) {
  Reach out;
  Draft whole = draft;
  // Lengths that are open are taken as short, so that sizes can be found for what else is open.
  const auto job = draft.with({});
  if (!job) return out;
  SizingOptions options;
  options.heed_advice = false;
  const Sizing sizing = size_case(draft, options);
  if (!sizing.conflict && !sizing.edits.empty()) {
    out.sized = sizing.edits;
    whole.text = draft.edited(sizing.edits);
  }
  out.tables = Reacher(std::move(whole), heed_advice).run();
  return out;
}

}  // namespace pullproof::answers
