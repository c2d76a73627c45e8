#pragma once
// What a run of the checks came to. No layout, no text form: the writers in report/ read this.
#include <cstdint>
#include <deque>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/working.hpp"

namespace pullproof {

enum class Verdict : std::uint8_t { fail, needs_input, not_covered, advice, pass, not_applicable };
std::string_view name(Verdict verdict);

/// How a demand has to stand to its limit.
enum class Must : std::uint8_t { at_most, at_least };

/// A value of the case that would be another.
struct Change {
  std::string path;          ///< where it stands, as in job/edit.hpp: "circuit.0.wire.size"
  std::string_view subject;  ///< "circuit heater"
  std::string_view key;      ///< as a person names it there: "wire.size"
  std::string was, now;      ///< as TOML; `was` is empty where the case does not give it
};

/// What would mend a fail, tried by changing the case and running the checks again.
struct Remedy {
  enum class Grade : std::uint8_t {
    verified,  ///< with these changes, and those of the other remedies unless `alone`, nothing fails
    partial,   ///< with these changes and, unless `alone`, those of the other remedies the check passes, and what is `left` fails
    hint,      ///< no change that was tried mends it
  };
  Grade grade = Grade::hint;
  bool alone = false;  ///< holds without the other remedies
  std::vector<Change> changes;
  std::vector<std::string_view> left;  ///< "circuit heater: drop-branch"
};
std::string_view name(Remedy::Grade grade);

/// One answer of one check about one thing.
struct Finding {
  std::string_view check;    ///< the check's id
  std::string_view title;    ///< the check's title
  std::string_view subject;  ///< "circuit heater", "raceway whip"
  Verdict verdict = Verdict::pass;
  std::string_view message;  ///< a fact, in one sentence
  std::string_view change;   ///< what to change; empty when nothing is wrong
  std::string_view waits_for;  ///< for not_applicable: the check whose fail has to be mended before this one can answer
  std::string_view missing;  ///< for needs_input: the key that would decide it
  Citation cite;
  Basis basis = Basis::published;  ///< the weakest thing that the answer rests on
  Where where;                     ///< the place in the case that the answer is about
  std::uint32_t sheet = 0;         ///< whose steps `demand` and `limit` are
  StepId demand = no_step, limit = no_step;
  StepId beside = no_step;  ///< a step shown with them: what would do
  Must must = Must::at_most;
  std::optional<double> used;  ///< demand over limit (or limit over demand for at_least): 1 is exactly at the limit
  std::optional<std::uint32_t> remedy;  ///< of Report::remedies; nothing where none was looked for
};

/// The working of one check on one subject.
struct Sheet {
  std::string_view check, subject;
  Working working;
};

/// Something that the case did not say and the program filled in.
struct Assumption {
  std::string_view subject, text;
  Citation cite;
};

enum class Outcome : std::uint8_t { pass, fail, open };
std::string_view name(Outcome outcome);

struct Report {
  std::string_view case_file, title, site, permit, date;
  std::string_view edition;                     ///< id, as the case names it
  std::string_view book;                        ///< title of the code book, which amendments lie on
  std::vector<std::string_view> edition_chain;  ///< titles, base first, amendments last
  std::deque<Sheet> sheets;  ///< stays in place while it grows
  std::vector<Finding> findings;
  std::vector<Remedy> remedies;
  std::vector<Assumption> assumptions;
  std::set<std::pair<std::string_view, std::string_view>> assumed;  ///< subjects and texts of the assumptions, to take each once
  std::vector<std::string_view> cautions;
  std::vector<std::string_view> notes;  ///< what the program cannot see

  /// fail if anything fails; else open if anything needs input or is not covered, or nothing could be checked at
  /// all; else pass.
  Outcome outcome() const;
  std::size_t count(Verdict verdict) const;

  std::shared_ptr<Texts> texts = std::make_shared<Texts>();
  std::vector<std::shared_ptr<const void>> keeps;  ///< the case and the edition, whose texts are pointed into
};

}  // namespace pullproof
