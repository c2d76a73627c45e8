#pragma once
// What the figures share that is not drawing: asking the functions of derive/ outside of a check, and finding things
// in a report.
#include <fmt/format.h>

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "core/report.hpp"
#include "engine/context.hpp"

namespace pullproof::draw {

/// A sheet that no report shows, with its context.
struct Aside {
  Report report;
  Context cx;
  Aside(const Case& job, const code::Edition& edition) : cx(report, job, edition, "figure", "", "", {}) {}
  /// A step's value as reports print it.
  std::string shown(StepId step) { return step == no_step ? std::string() : pullproof::shown(cx.working().steps()[step]); }
};

/// Runs `f`; what stops it, as a sentence, or nothing.
template <class F>
std::optional<std::string> stopped_by(F&& f) {
  try {
    f();
    return std::nullopt;
  } catch (const Stop& stop) {
    return std::string(stop.message);
  } catch (const std::logic_error& e) {  // rules of one's own may lack a column: std::out_of_range
    return fmt::format("the rule data is not what this figure expects: {}", e.what());
  } catch (const std::bad_optional_access&) {
    return std::string("the rule data is not what this figure expects");
  }
}

/// The findings of a report about one subject: "raceway whip". Of one check, when it is named.
inline std::vector<const Finding*> about(const Report& report, std::string_view kind, std::string_view name, std::string_view check = {}) {
  std::vector<const Finding*> out;
  for (const Finding& f : report.findings) {
    if (!check.empty() && f.check != check) continue;
    std::string_view s = f.subject;
    if (!s.starts_with(kind)) continue;
    s.remove_prefix(kind.size());
    if (name.empty() ? s.empty() : s.size() == name.size() + 1 && s.front() == ' ' && s.substr(1) == name) out.push_back(&f);
  }
  return out;
}

/// "1 conductor", "3 conductors".
inline std::string counted(double n, std::string_view one) { return fmt::format("{} {}{}", number_text(n, 2), one, n == 1 ? "" : "s"); }

}  // namespace pullproof::draw
