#include "report/compose.hpp"

#include <fmt/format.h>

#include "report/parts.hpp"

namespace pullproof::report {

doc::Document compose(const Report& report, const Case& job, const code::Edition& edition, std::string_view program) {
  const Source source{report, job, edition};
  doc::Document d;
  d.kind = "Circuit check";
  d.title = report.title.empty() ? std::string("Circuit check") : std::string(report.title);
  d.job = report.title.empty() ? report.site : report.title;
  d.permit = report.permit;
  d.program = program;
  Part part;
  add_job(part, source);
  add_assumptions(part, source);
  add_open(part, source);
  add_findings(part, source);
  add_figures(part, source);
  add_working(part, source);
  add_schedules(part, source);
  add_materials(part, source);
  add_field_tests(part, source);
  add_closing(part, source, program);
  d.blocks = part.take();
  return d;
}

}  // namespace pullproof::report
