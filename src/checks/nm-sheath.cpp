#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool silent(const Context& cx, const Cable& k) {
  return k.type && !k.inside && !k.more.sheath_in_box && cx.has_rule("nm-sheath") && cx.listed("nm-sheath", "types", *k.type);
}

void run(Context& cx, const Cable& k) {
  derive::type_of(cx, Way(k));
  if (!cx.listed("nm-sheath", "types", *k.type)) return void(cx.not_applicable("the rule is for nonmetallic cable", cx.cite("nm-sheath")));
  if (k.inside) return void(cx.not_applicable("it ends in a raceway"));
  const Given<Length>& g = k.more.sheath_in_box;
  const auto lacks = [&](const Cable& other) { return silent(cx, other); };
  const auto& all = cx.job().cables;
  if (!g && !derive::asks_for_all(all, k, lacks)) return void(cx.not_applicable("the sheath in the box is asked for once, at the first cable of this case"));
  if (!g)  // not known before the pull: what is wanted is said
    return void(cx.advise(cx.text("nothing is said of the sheath in the box (cable.sheath_in_box){}", derive::others_that_lack(all, k, lacks)),
                          cx.text("leave at least {} of sheath in the box, past the clamp", cx.parameter_text("nm-sheath", "length")), cx.cite("nm-sheath")));
  const auto have = cx.given("sheath in the box", "s", g, units::inch);
  const auto least = cx.parameter("nm-sheath", "length", "sheath that has to be in the box", "smin", units::inch);
  Finding& f = cx.require(have, Must::at_least, least, cx.cite("nm-sheath"), g.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("pull the cable in until {} of sheath shows past the clamp", cx.parameter_text("nm-sheath", "length"));
}

}  // namespace

extern const Check check_nm_sheath{
    .id = "nm-sheath",
    .title = "Cable sheath reaches into the box",
    .family = Family::cables,
    .about = "The clamp holds the sheath, not the wires: stripped too far, a cable is held by its insulation. The sheath of nonmetallic cable "
             "reaches at least 1/4 in into the box, past any clamp.",
    .formula = "s >= smin",
    .reads = "cable.type, cable.sheath_in_box, cable.inside",
    .rules = "nm-sheath",
    .run = run};

}  // namespace pullproof
