#pragma once
// What a report says as a whole, in the words that all forms of it share.
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/report.hpp"

namespace pullproof::report {

/// "FAIL", "PASS", "OPEN, nothing fails", "NOTHING CHECKED".
std::string_view outcome_words(const Report& report);
/// "2 fail, 1 is open, 51 pass, 70 do not apply".
std::string counts_text(const Report& report);
/// The code book, and what amends it.
std::string edition_text(const Report& report);

/// The findings with this verdict; of those that do not apply, the ones that wait for a fail are left out.
std::vector<const Finding*> with_verdict(const Report& report, Verdict verdict);
/// What they are about, each once, in their order.
std::vector<std::string_view> subjects_of(const std::vector<const Finding*>& findings);
/// Whether two findings differ in what they say alone, and the rest need not be said twice.
bool alike(const Finding& a, const Finding& b);

/// What was assumed, with the things that it is assumed of; what several share is there once.
std::vector<std::pair<std::string, std::string_view>> shared_assumptions(const Report& report);
/// What could not be answered because of a fail, with the checks that wait: one for each subject and fail.
std::vector<std::pair<std::string, std::string>> waiting(const Report& report);

/// The share of the limit that is used: "21%"; empty where there is none.
std::string used_text(const Finding& finding);

/// What was tried and mends a finding, or part of it; empty `text` where nothing does.
struct RemedyText {
  bool verified = false;
  std::string text;
};
RemedyText remedy_text(const Report& report, const Finding& finding);

/// Writes citations, and remembers what has to be explained below.
class Citing {
 public:
  explicit Citing(const Report& report) : report_(&report) {}
  /// The clause, with the edition only when it is another than the report's, and what is weak about it.
  std::string cited(const Finding& finding, bool brief = false);
  /// The explanations that are needed, a paragraph each.
  std::vector<std::string_view> legend() const;

 private:
  const Report* report_;
  bool number_from_memory_ = false, rests_ = false;
};

}  // namespace pullproof::report
