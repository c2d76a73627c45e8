#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Supply& s) {
  const Case& job = cx.job();
  if (job.circuits.empty() && job.boxes.empty()) return void(cx.not_applicable("the case has no circuit and no box"));
  const Citation cite = cx.cite("openings");
  constexpr std::string_view change = "close every unused hole with a listed plug or filler plate";
  bool open = false, told = s.openings_closed.present;
  if (s.openings_closed && !*s.openings_closed) {
    cx.fail("unused openings of the panel are open", change, cite, s.openings_closed.where);
    open = true;
  }
  for (const Box& b : job.boxes) {
    told = told || b.site.openings_closed;
    if (!b.site.openings_closed || *b.site.openings_closed) continue;
    cx.fail(cx.text("unused openings of box '{}' are open", *b.name), change, cite, b.site.openings_closed.where);
    open = true;
  }
  if (open) return;
  if (!told && s.panel.where) cx.needs_input("supply.openings_closed", "the panel is described, but not whether its unused holes are closed");
  if (!told)  // not known before the work is done: what is wanted is said
    return void(cx.advise("nothing is said of unused openings (supply.openings_closed, box.openings_closed)", change, cite));
  cx.pass("unused openings are closed", cite, s.openings_closed.where);
}

}  // namespace

extern const Check check_unused_openings{
    .id = "unused-openings",
    .title = "Unused openings closed",
    .family = Family::boxes,
    .about = "Through an open knockout go fingers, mice and sparks. Unused openings of panels, boxes and enclosures are closed with plugs or filler "
             "plates; it is one of the corrections that inspectors write most often. The case is asked once, for all of them.",
    .formula = "",
    .reads = "supply.openings_closed, box.openings_closed",
    .rules = "openings",
    .run = run};

}  // namespace pullproof
