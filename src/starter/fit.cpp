// Sizes for a plan, by running the checks and raising what they ask to be raised.
#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "engine/run.hpp"
#include "job/measure.hpp"
#include "starter/plan.hpp"

namespace pullproof::starter {
namespace {

/// Sizes to go through, smallest first.
using Ladder = std::vector<std::string>;

bool next(const Ladder& ladder, std::string& value) {
  const auto at = std::find(ladder.begin(), ladder.end(), value);
  if (at == ladder.end() || at + 1 == ladder.end()) return false;
  value = *(at + 1);
  return true;
}

Ladder ratings(const code::Edition& edition) {
  Ladder out;
  if (const auto t = edition.table("standard-ratings"))
    for (std::size_t r = 0; r < t->rows(); ++r)
      if (const auto n = t->cell(r, "rating").number(); n && *n >= 15 && t->cell(r, "breaker").yes()) out.push_back(fmt::format("{} A", number_text(*n, 1)));
  return out;
}

Ladder conductors(const code::Edition& edition) {
  Ladder out;
  if (const auto t = edition.table("ampacity"))
    for (std::size_t r = 0; r < t->rows(); ++r)
      if (const std::string_view s = t->cell(r, "size").text(); s == "14 AWG" || !out.empty()) out.emplace_back(s);
  return out;
}

Ladder trade_sizes(const code::Edition& edition, std::string_view type) {
  Ladder out;
  if (const auto t = edition.table("raceway-dimensions"))
    for (std::size_t r = 0; r < t->rows(); ++r)
      if (t->cell(r, "type").text() == type && t->cell(r, "size").text() != "3/8") out.emplace_back(t->cell(r, "size").text());
  return out;
}

class Fitter {
 public:
  Fitter(const Shelf& shelf, const code::Edition& edition, Plan& plan)
      : shelf_(shelf), plan_(plan), ratings_(ratings(edition)), conductors_(conductors(edition)),
        raceways_(trade_sizes(edition, plan.method)), whips_(trade_sizes(edition, plan.place.find("outdoors") != std::string::npos ? "LFMC" : "FMC")) {}

  void run() {
    open(plan_.breaker, "15 A", breaker_);
    open(plan_.wire, "14 AWG", wire_);
    open(plan_.ground, "14 AWG", ground_);
    open(plan_.raceway, raceways_.empty() ? "1/2" : raceways_.front(), raceway_);
    open(plan_.whip_size, "1/2", whip_);
    open(plan_.disconnect, "20 A", disconnect_);
    open(plan_.receptacle, "15 A", receptacle_);
    open(plan_.interrupting, "10 kA", interrupting_);
    open(plan_.gfci, "no", gfci_);
    open(plan_.afci, "no", afci_);
    if (plan_.kind == "cooling") device_as_marked();
    constexpr int most = 120;  // every ladder from end to end
    for (int i = 0; i < most; ++i) {
      const Checked c = check(shelf_, plan_);
      if (!c.complaints.empty() || !raise_one(c.report)) return;
    }
  }

 private:
  static void open(std::string& value, std::string_view smallest, bool& is_open) {
    is_open = value.empty();
    if (is_open) value = smallest;
  }

  /// The largest standard device that the nameplate allows.
  void device_as_marked() {
    if (!breaker_) return;
    const auto amperes = [](const std::string& s) { return read_quantity(s, Dimension::current).si; };
    for (const std::string& r : ratings_)
      if (amperes(r) <= amperes(plan_.second)) plan_.breaker = r;
  }

  bool raise_one(const Report& report) {
    for (const Finding& f : report.findings)
      if (counts(f) && raise(f)) return true;
    return false;
  }

  /// Fails count, protection that is asked for, and the advice on voltage drop, which a first case does well to follow.
  static bool counts(const Finding& f) {
    if (f.verdict == Verdict::needs_input) return f.missing == "breaker.gfci" || f.missing == "breaker.afci";
    return f.verdict == Verdict::fail || (f.verdict == Verdict::advice && f.check.starts_with("drop-"));
  }

  static bool set(bool is_open, std::string& value) {
    if (!is_open || value == "yes") return false;
    value = "yes";
    return true;
  }

  bool raise(const Finding& f) {
    const std::string_view id = f.check;
    if (id == "gfci") return set(gfci_, plan_.gfci);
    if (id == "afci") return set(afci_, plan_.afci);
    if (id == "device-load" || id == "appliance-device" || id == "circuit-10a" || id == "individual-circuit" || id == "shared-circuit")
      return breaker_ && next(ratings_, plan_.breaker);
    if (id == "ampacity" || id == "device-conductor" || id == "wire-size-minimum" || id == "dwelling-circuits" || id.starts_with("drop-"))
      return wire_ && next(conductors_, plan_.wire);
    if (id == "ground-size" || id == "ground-path" || id == "ground-metal") return ground_ && next(conductors_, plan_.ground);
    if (id.starts_with("raceway-")) {
      if (f.subject == "raceway whip") return whip_ && next(whips_, plan_.whip_size);
      return raceway_ && next(raceways_, plan_.raceway);
    }
    if (id == "disconnect-rating") return disconnect_ && next(disconnects_, plan_.disconnect);
    if (id == "receptacle-rating" || id == "vehicle-receptacle") return receptacle_ && next(receptacles_, plan_.receptacle);
    if (id == "interrupting-rating") return interrupting_ && next(interruptings_, plan_.interrupting);
    return false;
  }

  const Shelf& shelf_;
  Plan& plan_;
  Ladder ratings_, conductors_, raceways_, whips_;
  Ladder disconnects_{"20 A", "30 A", "60 A", "100 A", "200 A", "400 A"};  // as switches are made
  Ladder receptacles_{"15 A", "20 A", "30 A", "50 A", "60 A"};
  Ladder interruptings_{"10 kA", "14 kA", "22 kA", "42 kA", "65 kA", "100 kA", "200 kA"};
  bool breaker_ = false, wire_ = false, ground_ = false, raceway_ = false, whip_ = false, disconnect_ = false, receptacle_ = false,
       interrupting_ = false, gfci_ = false, afci_ = false;
};

}  // namespace

Checked check(const Shelf& shelf, const Plan& plan) {
  Checked out;
  Diagnostics diagnostics;
  const auto edition = find_edition(shelf, plan.edition, {}, diagnostics);
  if (edition) {
    const auto loaded = load_case(shelf, "case.toml", compose(*edition, plan), edition, diagnostics);
    if (loaded) out.report = run_checks(loaded->job, loaded->edition);
  }
  out.complaints = diagnostics.sorted();
  return out;
}

void fit_sizes(const Shelf& shelf, const code::Edition& edition, Plan& plan) { Fitter(shelf, edition, plan).run(); }

}  // namespace pullproof::starter
