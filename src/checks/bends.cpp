#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// A flexible piece to equipment, short enough that nobody bends it through a full turn.
bool short_whip(const Context& cx, const Raceway& r) {
  const auto t = cx.edition().table("whip");
  if (!t || !r.type || !r.size || !r.length) return false;
  const auto row = t->find(*r.type, r.size->label());
  const auto longest = row ? t->cell(*row, "tap").number() : std::nullopt;
  return longest && at_most(*r.length, units::foot.of(*longest));
}

bool silent(const Context& cx, const Raceway& r) {
  return !r.bends && !r.nipple.value_or(false) && !r.sleeve.value_or(false) && !short_whip(cx, r);
}

void run(Context& cx, const Raceway& r) {
  if (r.sleeve.value_or(false)) return void(cx.not_applicable("it only protects: nothing is pulled through it"));
  derive::type_of(cx, Way(r));
  const auto most = cx.parameter("bends", "degrees", "bends that are permitted between pull points", "Bmax", units::degree);
  Citation cite = cx.cite("bends");
  const auto kinds = cx.table("raceway-types");
  cite.clause = cx.text("{}{}", kinds.cell(cx.row(kinds, *r.type), "article").text(), cx.parameter_text("bends", "section"));
  Traced<Angle> have;
  if (r.bends) {
    have = cx.given("bends between pull points", "B", r.bends, units::degree);
  } else if (r.nipple.value_or(false)) {
    return void(cx.not_applicable("a nipple is straight"));
  } else if (short_whip(cx, r)) {
    cx.assume("bends", cx.text("the bends of '{}' are not given: so short a flexible piece is taken to have less than a full turn", *r.name));
    return void(cx.pass("a short flexible piece, taken to have less than a full turn", cite, r.where, cx.working().last()));
  } else {
    const auto lacks = [&](const Raceway& other) { return silent(cx, other); };
    const auto& all = cx.job().raceways;
    if (!derive::asks_for_all(all, r, lacks)) return void(cx.not_applicable("the bends are asked for once, at the first raceway of this case"));
    cx.needs_input("raceway.bends", cx.text("at most {} are permitted between pull points{}", shown(cx.working().steps()[most.step]),
                                            derive::others_that_lack(all, r, lacks)));
  }
  Finding& f = cx.require(have, Must::at_most, most, cite, r.bends.where);
  if (f.verdict == Verdict::fail) f.change = "put in a pull box or conduit body, or take a way with fewer bends; kicks and offsets count too";
}

}  // namespace

extern const Check check_bends{
    .id = "bends",
    .title = "Bends between pull points",
    .family = Family::raceways,
    .about = "Every bend adds to the pull; past a full turn the insulation suffers. The bends between two pull points, which are "
             "boxes, conduit bodies and enclosures, add up to 360° at most; offsets, kicks and saddles count. A nipple is straight, and "
             "a short flexible piece without a word is taken to have less than that.",
    .formula = "B <= Bmax",
    .reads = "raceway.bends, raceway.type, raceway.size, raceway.length, raceway.nipple, raceway.sleeve",
    .rules = "bends, raceway-types, whip",
    .run = run};

}  // namespace pullproof
