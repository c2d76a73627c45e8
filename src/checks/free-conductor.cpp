#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool silent(const Box& b) { return !b.passes_through.value_or(false) && !b.site.free_conductor; }

void run(Context& cx, const Box& b) {
  if (b.passes_through.value_or(false)) return void(cx.not_applicable("nothing is spliced or ends in it", cx.cite("free-conductor")));
  const BoxSite& s = b.site;
  const Citation cite = cx.cite("free-conductor");
  const auto& all = cx.job().boxes;
  if (!s.free_conductor && !derive::asks_for_all(all, b, silent))
    return void(cx.not_applicable("the free length is asked for once, at the first box of this case"));
  cx.need(s.free_conductor, "box.free_conductor", cx.text("{} of each conductor are left where it comes in{}", cx.parameter_text("free-conductor", "length"),
                                                          derive::others_that_lack(all, b, silent)));
  const auto have = cx.given("free length", "L", s.free_conductor, units::inch);
  const auto least = cx.parameter("free-conductor", "length", "free length that is left", "Lmin", units::inch);
  Finding& f = cx.require(have, Must::at_least, least, cite, s.free_conductor.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("leave {} from where the conductors leave their raceway or sheath", cx.parameter_text("free-conductor", "length"));
  const Length small = cx.parameter("free-conductor", "opening", units::inch);
  if (!s.opening || at_least(*s.opening, small)) return;
  cx.need(s.free_outside, "box.free_outside", "out of a small opening the conductors reach a few inches");
  const auto out = cx.given("reach out of the opening", "Lo", s.free_outside, units::inch);
  const auto reach = cx.parameter("free-conductor", "outside", "reach out of a small opening", "Lo,min", units::inch);
  Finding& g = cx.require(out, Must::at_least, reach, cite, s.free_outside.where);
  if (g.verdict == Verdict::fail) g.change = cx.text("leave them long enough to reach {} out", cx.parameter_text("free-conductor", "outside"));
}

}  // namespace

extern const Check check_free_conductor{
    .id = "free-conductor",
    .title = "Free conductor at boxes",
    .family = Family::boxes,
    .about = "Short wires cannot be spliced safely, now or by the next person. At every box where conductors are spliced or end, 6 in of each are left "
             "from where it leaves its raceway or sheath; where the opening is smaller than 8 in they reach 3 in out of it.",
    .formula = "L >= Lmin; Lo >= Lo,min",
    .reads = "box.free_conductor, box.free_outside, box.opening, box.passes_through",
    .rules = "free-conductor",
    .run = run};

}  // namespace pullproof
