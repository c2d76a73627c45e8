#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool large_enough(const Context& cx, const Cable& k) {
  if (!k.size) return false;
  const auto two = ConductorSize::parse(cx.parameter_text("cable-running-board", "two-conductors"));
  const auto three = ConductorSize::parse(cx.parameter_text("cable-running-board", "three-conductors"));
  if (two && !(*k.size < *two)) return true;
  return three && k.conductors.value_or(2) >= 3 && !(*k.size < *three);
}

/// Unfinished basements and crawl spaces: through the joists or on a board, not across their bottoms.
void below_joists(Context& cx, const Cable& k) {
  const Guard& g = k.more.guard;
  const Citation cite = cx.cite("cable-running-board");
  if (!cx.need(g.across_joists, "cable.guard.across_joists", "small cable is not fastened to the bottoms of joists in an unfinished basement or crawl space"))
    return void(cx.pass("it runs through the joists or along them", cite, g.across_joists.where));
  if (g.running_board.value_or(false)) return void(cx.pass("it runs on a running board", cite, g.running_board.where));
  if (large_enough(cx, k)) return void(cx.pass(cx.text("{} is large enough for the bottoms of joists", k.size->label()), cite, k.size.where));
  cx.fail("it is fastened across the bottoms of the joists", "run it through bored holes or on a running board", cite, g.across_joists.where);
}

void need_strips(const Context& cx, const Guard& g) {
  if (!g.strips) cx.needs_input("cable.guard.strips", "where people reach it, cable across framing has guard strips beside it");
}

/// Attics: guard strips near the hatch, or throughout where stairs lead up.
void in_attic(Context& cx, const Cable& k) {
  const Guard& g = k.more.guard;
  const Citation cite = cx.cite("cable-attic-guard");
  if (!cx.need(g.across_framing, "cable.guard.across_framing", "cable across the joists or rafters of an attic that is reached has to be guarded"))
    return void(cx.pass("it runs along the framing or through it", cite, g.across_framing.where));
  if (g.strips.value_or(false)) return void(cx.pass("guard strips run beside it", cite, g.strips.where));
  if (g.above_floor) {
    const auto high = cx.parameter("cable-attic-guard", "height", "height from which it needs no guard", "Lg", units::foot);
    if (at_least(*g.above_floor, high.value))
      return void(cx.require(cx.given("height above the floor joists", "L", g.above_floor, units::foot), Must::at_least, high, cite, g.above_floor.where));
  }
  constexpr std::string_view change = "put guard strips at least as high as the cable beside it, or run it along the framing";
  const bool stairs = cx.need(g.stairs, "cable.guard.stairs", "with permanent stairs the whole attic is guarded, else what is near the hatch");
  const Given<Length>& from = stairs ? g.above_floor : g.from_hatch;
  cx.need(from, stairs ? "cable.guard.above_floor" : "cable.guard.from_hatch",
          stairs ? "what is high enough above the floor joists needs no guard; 0 where it crosses the floor joists" : "what is far enough from the hatch needs no guard");
  const auto have = cx.given(stairs ? "height above the floor joists" : "distance from the hatch", "L", from, units::foot);
  const auto far = cx.parameter("cable-attic-guard", stairs ? "height" : "hatch", stairs ? "height from which it needs no guard" : "distance from which it needs no guard", "Lg", units::foot);
  if (!at_least(have.value, far.value)) need_strips(cx, g);
  Finding& f = cx.require(have, Must::at_least, far, cite, from.where);
  if (f.verdict == Verdict::fail) f.change = change;
}

void run(Context& cx, const Cable& k) {
  const std::string_view type = derive::type_of(cx, Way(k));
  const auto has = [&](Place::Word w) { return k.place && k.place->has(w); };
  const bool attic = has(Place::attic), unfinished = has(Place::unfinished_basement) || has(Place::crawl_space);
  if (k.inside || (!attic && !unfinished)) return void(cx.not_applicable(k.inside ? "it is in a raceway" : "it is in no attic, crawl space or unfinished basement"));
  const std::string_view rule = attic ? "cable-attic-guard" : "cable-running-board";
  if (!cx.listed(rule, "types", type)) return void(cx.not_applicable(cx.text("the rule is not for {}", type), cx.cite(rule)));
  if (has(Place::concealed)) return void(cx.not_applicable("it is concealed", cx.cite(rule)));
  attic ? in_attic(cx, k) : below_joists(cx, k);
}

}  // namespace

extern const Check check_cable_guard{
    .id = "cable-guard",
    .title = "Cable over joists and rafters",
    .family = Family::cables,
    .about = "Cable across the bottoms of joists is where people hang things, and across the tops where they step. In unfinished basements and crawl "
             "spaces small cable runs through bored holes or on a running board. In an attic that is reached, cable across the framing has guard "
             "strips near the hatch, and throughout up to a height where permanent stairs lead up.",
    .formula = "L >= Lg",
    .reads = "cable.type, cable.size, cable.conductors, cable.place, cable.inside, cable.guard.across_joists, cable.guard.running_board, "
             "cable.guard.across_framing, cable.guard.strips, cable.guard.stairs, cable.guard.from_hatch, cable.guard.above_floor",
    .rules = "cable-running-board, cable-attic-guard, cable-types",
    .run = run};

}  // namespace pullproof
