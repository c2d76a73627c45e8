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
using Field = std::string Plan::*;
using Applies = bool (*)(Where, const Plan&);

/// A question of fact. `unknown` is the word for not having an answer, `words` the answers that there are.
constexpr Question ask(std::string_view key, std::string_view text, std::string_view help, Field field, Applies applies = always, std::string_view unknown = "",
                       std::string_view words = "") {
  return {key, text, help, field, applies, unknown, words, false};
}
/// A question for a size that the checks propose.
constexpr Question size(std::string_view key, std::string_view text, Field field, Applies applies = always) {
  return {key, text, "proposed is the smallest that passes every check with your answers so far", field, applies, "", "", true};
}

constexpr Question all_questions[] = {
    ask("dwelling", "Is it in a house or an apartment? (yes or no)", "more places ask for ground-fault protection there", &Plan::dwelling, always, "", "yes|no"),
    ask("system", "What does the panel have?", "120/240 V 1-phase 3-wire in most houses; 208Y/120 V 3-phase 4-wire; 480Y/277 V 3-phase 4-wire", &Plan::system),
    ask("phases", "How many phases does the appliance take? (1 or 3)", "the nameplate says PH 1 or PH 3", &Plan::phases, three_phase_supply, "", "1|3"),
    ask("voltage", "Volts on the nameplate?", "as the supply has it: 120 V, 240 V, 208 V", &Plan::voltage),
    ask("nameplate", "Amperes or watts on the nameplate?", "the largest that it draws, such as 9 A, 4500 W or 1.2 kVA", &Plan::nameplate, ordinary),
    ask("nameplate", "Minimum circuit ampacity on the nameplate (MCA)?", "in amperes; the 125 % for the compressor is in it", &Plan::nameplate, cooling),
    ask("second", "Largest breaker or fuse on the nameplate (MOP)?", "maximum overcurrent device, in amperes", &Plan::second, cooling),
    ask("nameplate", "Horsepower on the nameplate?", "such as 1 hp or 1/2 hp", &Plan::nameplate, motor),
    ask("second", "Full-load amperes on the nameplate?", "FLA", &Plan::second, motor),
    ask("place", "Where does it stand?", place_words, &Plan::place),
    ask("connection", "Hard-wired, or cord and plug?", "its maker's instructions say which", &Plan::connection, always, "", "hard-wired|cord and plug"),
    ask("method", "How does the wire run? (EMT, PVC-40, NM-B, UF-B, MC ...)",
        "a raceway or a cable, by the names of `pullproof rules show raceway-types` and `pullproof rules show cable-types`", &Plan::method),
    ask("route", "Where does it run?", place_words, &Plan::route),
    ask("cover", "How deep is it buried?", "from grade to its top", &Plan::cover, buried),
    ask("length", "How long is it, one way from the panel?", "such as 62 ft or 19 m", &Plan::length),
    ask("ambient", "How hot is the hottest air around it?", "such as 104 °F or 40 °C; an attic in summer is hotter than the weather report", &Plan::ambient),
    ask("whip", "How long is the flexible conduit at the appliance?", "the last piece; 'none' when there is none", &Plan::whip, may_have_whip, "none"),
    ask("control", "Is there a low-voltage run? (thermostat, remote or none)", "to a thermostat, a remote, a sensor", &Plan::control, always, "none", "thermostat|remote"),
    ask("control_length", "How long is that, from its source to the device?", "one way, such as 48 ft", &Plan::control_length, has_control),
    ask("available_fault", "What fault current is available at the panel?", "the utility says it, such as 9.2 kA; without it some checks stay open", &Plan::available_fault,
        always, "not known"),
    size("breaker", "Breaker?", &Plan::breaker),
    size("wire", "Conductors?", &Plan::wire),
    size("ground", "Grounding conductor?", &Plan::ground),
    size("raceway", "Size of the raceway?", &Plan::raceway, in_raceway),
    size("whip_size", "Size of the flexible conduit?", &Plan::whip_size, has_whip),
    size("disconnect", "Rating of the disconnect switch?", &Plan::disconnect, wired),
    size("receptacle", "Rating of the receptacle?", &Plan::receptacle, plugged),
    ask("title", "What is the job called?", "the head of the report", &Plan::title),
    ask("date", "Day of the permit? (such as 2026-11-25)", "some exceptions end on a day", &Plan::date, always, "not known"),
    ask("site", "Where is it?", "an address or a lot, for the head of the report", &Plan::site, always, "not said"),
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
