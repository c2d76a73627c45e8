#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Way& w) {
  const Laying& l = w.laid();
  if (!l.roof_deck && !l.below_deck) return void(cx.not_applicable("the case names no roof deck above it"));
  derive::type_of(cx, w);
  const Citation cite = cx.cite("roof-deck");
  if (l.roof_deck && *l.roof_deck == RoofDeck::other && !cx.flag("roof-deck", "every-deck"))
    return void(cx.not_applicable("the rule is for corrugated metal decks", cite));
  if (!l.roof_deck && !cx.flag("roof-deck", "every-deck")) cx.assume("roof deck", cx.text("the roof deck over '{}' is taken as corrugated metal", *w.name()));
  if (cx.listed("roof-deck", "exempt", *w.type())) return void(cx.pass(cx.text("{} may be close to the deck", *w.type()), cite, l.roof_deck.where));
  cx.need(l.below_deck, derive::key(cx, w, "below_deck"), "roofing screws come through the deck");
  const auto have = cx.given("distance below the deck", "d", l.below_deck, units::inch);
  const auto least = cx.parameter("roof-deck", "distance", "distance that roofing screws do not reach", "dmin", units::inch);
  Finding& f = cx.require(have, Must::at_least, least, cite, l.below_deck.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("lower it to {} below the deck, or use RMC or IMC", cx.parameter_text("roof-deck", "distance"));
}

}  // namespace

extern const Check check_roof_deck{
    .id = "roof-deck",
    .title = "Wiring below a roof deck",
    .family = Family::places,
    .about = "When a roof is done again, long screws come through its deck. Wiring below a corrugated metal deck keeps 1-1/2 in from its "
             "lowest surface; RMC and IMC stop the screws. The 2026 edition asks it below every deck.",
    .formula = "d >= dmin",
    .reads = "raceway.roof_deck, raceway.below_deck, cable.roof_deck, cable.below_deck",
    .rules = "roof-deck",
    .run = run};

}  // namespace pullproof
