// The figures, and why one is left out.
#include <fmt/format.h>

#include "draw/figures.hpp"
#include "report/parts.hpp"

namespace pullproof::report {
namespace {

void add_kind(Part& out, std::string_view heading, std::string_view anchor, std::string_view about, draw::Figures figures) {
  if (figures.drawings.empty() && figures.missing.empty()) return;
  out.heading(3, heading, anchor);
  out.paragraph(about);
  int n = 0;
  for (draw::Drawing& d : figures.drawings) out.add(doc::Block(doc::Figure{std::move(d), {}, fmt::format("{}-{}", anchor, ++n)}));
  for (const draw::Missing& m : figures.missing) out.paragraph(fmt::format("Not drawn: {}. {}", m.what, m.why), doc::Role::warn);
}

}  // namespace

void add_figures(Part& out, const Source& s) {
  Part figures;
  add_kind(figures, "One-line diagrams", "one-line", "From the supply to the appliance, with what it runs through; not to scale.", draw::one_lines(s.report, s.job, s.edition));
  add_kind(figures, "Cross-sections of raceways", "cross-section", "To scale, with the conductors as they would lie.", draw::cross_sections(s.report, s.job, s.edition));
  add_kind(figures, "Volts along the run", "volts", "What is left at each joint, and what the limits leave.", draw::volts_along(s.report, s.job, s.edition));
  add_kind(figures, "How close each check is to its limit", "margins", "The tightest first.", draw::margins(s.report));
  if (figures.empty()) return;
  out.heading(2, "Figures", "figures");
  for (doc::Block& b : figures.take()) out.add(std::move(b));
}

}  // namespace pullproof::report
