#include "derive/laying.hpp"
#include "derive/line.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Raceway& r) {
  std::string names;
  std::size_t count = 0;
  for (const Circuit* c : derive::circuits_in(cx, Way(r))) {
    if (derive::stretch_in(*c, r)->cable != nullptr) continue;  // its cable keeps them together
    if (!c->voltage || !derive::quiet_line(cx, *c).neutral) continue;
    names += fmt::format("{}'{}'", names.empty() ? "" : ", ", *c->name);
    ++count;
  }
  if (count < 2) return void(cx.not_applicable("not more than one neutral runs in it"));
  const Citation cite = cx.cite("neutrals-grouped");
  const Given<bool>& g = r.more.neutrals_grouped;
  cx.need(g, "raceway.neutrals_grouped", cx.text("the neutrals of {} come out of it together: each is tied or tagged to its own hot wires", names));
  if (*g) cx.pass("each neutral is tied or tagged to its own circuit", cite, g.where);
  else cx.fail(cx.text("the neutrals of {} are not told apart", names), "tie or tag each neutral to its hot wires in every panel and box where they end or are spliced", cite, g.where);
}

}  // namespace

extern const Check check_neutrals_grouped{
    .id = "neutrals-grouped",
    .title = "Neutrals of several circuits",
    .family = Family::conductors,
    .about = "Who opens the wrong neutral puts line voltage where nobody expects it. Where the neutrals of several circuits come out of one "
             "raceway, each is tied or tagged to the hot wires that it belongs to, at least once in each panel or box where they end.",
    .formula = "",
    .reads = "raceway.neutrals_grouped, circuit.path, circuit.voltage, supply.system, wire.neutral",
    .rules = "neutrals-grouped",
    .run = run};

}  // namespace pullproof
