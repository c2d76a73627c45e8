#include "core/report.hpp"

#include <algorithm>

namespace pullproof {

std::string_view name(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass: return "pass";
    case Verdict::fail: return "fail";
    case Verdict::advice: return "advice";
    case Verdict::needs_input: return "needs input";
    case Verdict::not_covered: return "not covered";
    case Verdict::not_applicable: return "not applicable";
  }
  return "";
}

std::string_view name(Outcome outcome) {
  switch (outcome) {
    case Outcome::pass: return "pass";
    case Outcome::fail: return "fail";
    case Outcome::open: return "open";
  }
  return "";
}

std::string_view name(Remedy::Grade grade) {
  switch (grade) {
    case Remedy::Grade::verified: return "verified";
    case Remedy::Grade::partial: return "partial";
    case Remedy::Grade::hint: return "hint";
  }
  return "";
}

std::size_t Report::count(Verdict verdict) const {
  return static_cast<std::size_t>(std::count_if(findings.begin(), findings.end(),
                                                [&](const Finding& f) { return f.verdict == verdict; }));
}

Outcome Report::outcome() const {
  if (count(Verdict::fail) > 0) return Outcome::fail;
  if (count(Verdict::needs_input) + count(Verdict::not_covered) > 0) return Outcome::open;
  if (count(Verdict::pass) + count(Verdict::advice) == 0) return Outcome::open;
  return Outcome::pass;
}

}  // namespace pullproof
