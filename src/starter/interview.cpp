#include "starter/interview.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace pullproof::starter {
namespace {

bool has(std::string_view text, std::string_view word) { return text.find(word) != std::string_view::npos; }

using Where = const code::Edition&;

bool always(Where, const Plan&) { return true; }
bool three_phase_supply(Where, const Plan& p) { return has(p.system, "3-phase"); }
bool ordinary(Where, const Plan& p) { return p.kind == "ordinary"; }
bool cooling(Where, const Plan& p) { return p.kind == "cooling"; }
bool motor(Where, const Plan& p) { return p.kind == "motor"; }
bool buried(Where, const Plan& p) { return has(p.route, "underground"); }
bool plugged(Where, const Plan& p) { return p.connection == "cord and plug"; }
bool wired(Where, const Plan& p) { return p.connection != "cord and plug"; }
bool in_raceway(Where e, const Plan& p) { return !is_cable(e, p.method); }
bool may_have_whip(Where e, const Plan& p) { return wired(e, p) && in_raceway(e, p); }
bool has_whip(Where, const Plan& p) { return !p.whip.empty(); }
bool has_control(Where, const Plan& p) { return !p.control.empty(); }

constexpr std::string_view place_words =
    "words with commas between: indoors, outdoors, underground, dry, damp, wet, concealed, exposed, basement, garage, kitchen, bathroom, "
    "laundry area, attic, crawl space, rooftop, sunlight; `pullproof keys raceway` has them all";
constexpr std::string_view smallest = "proposed is the smallest that passes every check with your answers so far";

constexpr Question all_questions[] = {
    {"dwelling", "Is it in a house or an apartment? (yes or no)", "more places ask for ground-fault protection there", &Plan::dwelling, always, "", "yes|no"},
    {"system", "What does the panel have?", "120/240 V 1-phase 3-wire in most houses; 208Y/120 V 3-phase 4-wire; 480Y/277 V 3-phase 4-wire", &Plan::system, always, "", ""},
    {"phases", "How many phases does the appliance take? (1 or 3)", "the nameplate says PH 1 or PH 3", &Plan::phases, three_phase_supply, "", "1|3"},
    {"voltage", "Volts on the nameplate?", "as the supply has it: 120 V, 240 V, 208 V", &Plan::voltage, always, "", ""},
    {"nameplate", "Amperes or watts on the nameplate?", "the largest that it draws, such as 9 A, 4500 W or 1.2 kVA", &Plan::nameplate, ordinary, "", ""},
    {"nameplate", "Minimum circuit ampacity on the nameplate (MCA)?", "in amperes; the 125 % for the compressor is in it", &Plan::nameplate, cooling, "", ""},
    {"second", "Largest breaker or fuse on the nameplate (MOP)?", "maximum overcurrent device, in amperes", &Plan::second, cooling, "", ""},
    {"nameplate", "Horsepower on the nameplate?", "such as 1 hp or 1/2 hp", &Plan::nameplate, motor, "", ""},
    {"second", "Full-load amperes on the nameplate?", "FLA", &Plan::second, motor, "", ""},
    {"place", "Where does it stand?", place_words, &Plan::place, always, "", ""},
    {"connection", "Hard-wired, or cord and plug?", "its maker's instructions say which", &Plan::connection, always, "", "hard-wired|cord and plug"},
    {"method", "How does the wire run? (EMT, PVC-40, NM-B, UF-B, MC ...)", "a raceway or a cable, by the names of `pullproof rules show raceway-types` and `pullproof rules show cable-types`", &Plan::method, always, "", ""},
    {"route", "Where does it run?", place_words, &Plan::route, always, "", ""},
    {"cover", "How deep is it buried?", "from grade to its top", &Plan::cover, buried, "", ""},
    {"length", "How long is it, one way from the panel?", "such as 62 ft or 19 m", &Plan::length, always, "", ""},
    {"ambient", "How hot is the hottest air around it?", "such as 104 °F or 40 °C; an attic in summer is hotter than the weather report", &Plan::ambient, always, "", ""},
    {"whip", "How long is the flexible conduit at the appliance?", "the last piece; 'none' when there is none", &Plan::whip, may_have_whip, "none", ""},
    {"control", "Is there a low-voltage run? (thermostat, remote or none)", "to a thermostat, a remote, a sensor", &Plan::control, always, "none", "thermostat|remote"},
    {"control_length", "How long is that, from its source to the device?", "one way, such as 48 ft", &Plan::control_length, has_control, "", ""},
    {"available_fault", "What fault current is available at the panel?", "the utility says it, such as 9.2 kA; without it some checks stay open", &Plan::available_fault, always, "not known", ""},
    {"breaker", "Breaker?", smallest, &Plan::breaker, always, "", "", true},
    {"wire", "Conductors?", smallest, &Plan::wire, always, "", "", true},
    {"ground", "Grounding conductor?", smallest, &Plan::ground, always, "", "", true},
    {"raceway", "Size of the raceway?", smallest, &Plan::raceway, in_raceway, "", "", true},
    {"whip_size", "Size of the flexible conduit?", smallest, &Plan::whip_size, has_whip, "", "", true},
    {"disconnect", "Rating of the disconnect switch?", smallest, &Plan::disconnect, wired, "", "", true},
    {"receptacle", "Rating of the receptacle?", smallest, &Plan::receptacle, plugged, "", "", true},
    {"title", "What is the job called?", "the head of the report", &Plan::title, always, "", ""},
    {"date", "Day of the permit? (such as 2026-11-25)", "some exceptions end on a day", &Plan::date, always, "not known", ""},
    {"site", "Where is it?", "an address or a lot, for the head of the report", &Plan::site, always, "not said", ""},
};

/// Whether it looks as a date does; whether there is such a day the reader says.
bool is_date(std::string_view s) {
  constexpr std::string_view shape = "dddd-dd-dd";
  if (s.size() != shape.size()) return false;
  for (std::size_t i = 0; i < s.size(); ++i)
    if (shape[i] == 'd' ? s[i] < '0' || s[i] > '9' : s[i] != shape[i]) return false;
  return true;
}

/// Whether "a" is one of "a|b|c".
bool among(std::string_view words, std::string_view answer) {
  for (std::size_t at = 0; at <= words.size();) {
    const std::size_t end = std::min(words.find('|', at), words.size());
    if (words.substr(at, end - at) == answer) return true;
    at = end + 1;
  }
  return false;
}

}  // namespace

std::span<const Question> questions() { return all_questions; }

Interview::Interview(Shelf shelf, code::Edition edition, Plan plan)
    : shelf_(std::move(shelf)), edition_(std::move(edition)), plan_(std::move(plan)), fitted_(plan_) {
  plan_.asked = true;
  fitted_ = fitted(plan_);
}

Plan Interview::fitted(Plan plan) const {
  fit_sizes(shelf_, edition_, plan);
  return plan;
}

std::string Interview::usual(const Question& q) const { return (q.size ? fitted_ : plan_).*q.field; }

Plan Interview::with(const Question& q, const std::string& answer) const {
  Plan plan = plan_;
  plan.*q.field = answer;
  std::set<std::string> given = given_;
  given.emplace(q.key);
  follow(edition_, plan, given);
  return plan;
}

Troubles Interview::troubles_with(const Question& q, const std::string& answer) const {
  Troubles out;
  if (answer.empty() && q.unknown.empty()) out.unreadable.emplace_back("an answer is wanted");
  else if (!q.words.empty() && !answer.empty() && !among(q.words, answer)) {
    std::string words(q.words);
    for (std::size_t at = 0; (at = words.find('|', at)) != std::string::npos; at += 2) words.replace(at, 1, ", ");
    out.unreadable.push_back(fmt::format("one of: {}", words));
  }
  else if (q.field == &Plan::date && !answer.empty() && !is_date(answer)) out.unreadable.emplace_back("write it as 2026-11-25");
  if (!out.unreadable.empty()) return out;
  const Checked now = check(shelf_, fitted(with(q, answer)));
  constexpr std::size_t short_enough = 160;  // a list of every word there is helps nobody in the middle of a question
  for (const Diagnostic& d : now.complaints)
    out.unreadable.push_back(d.note.empty() ? d.message : fmt::format("{}: {}", d.message, d.note.size() <= short_enough ? d.note : std::string(q.help)));
  if (!out.unreadable.empty()) return out;
  const Checked before = checked();
  for (const Finding& f : now.report.findings) {
    if (f.verdict != Verdict::fail) continue;
    const bool old = std::any_of(before.report.findings.begin(), before.report.findings.end(), [&](const Finding& b) {
      return b.verdict == Verdict::fail && b.check == f.check && b.subject == f.subject;
    });
    if (!old) out.fails.push_back(f.change.empty() ? fmt::format("{}: {}", f.title, f.message) : fmt::format("{}: {}; {}", f.title, f.message, f.change));
  }
  return out;
}

void Interview::answer(const Question& q, const std::string& answer) {
  Plan plan = with(q, answer);
  given_.emplace(q.key);
  if (plan == plan_) return;
  plan_ = std::move(plan);
  fitted_ = fitted(plan_);
}

}  // namespace pullproof::starter
