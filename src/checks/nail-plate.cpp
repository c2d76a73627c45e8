#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Out of reach of nails, as far as its place tells.
bool away(const Context& cx, const Way& w) {
  return derive::buried(w) || derive::raceway_around(cx, w) != nullptr || w.has(Place::exposed) || w.has(Place::outdoors) || w.has(Place::rooftop);
}

bool silent(const Context& cx, const Cable& k) {
  const auto t = cx.edition().table("cable-types");
  const auto row = t && k.type ? t->find(*k.type) : std::nullopt;
  const Way w(k);
  return row && !t->cell(*row, "cord").yes() && !k.laid.edge_distance && !k.laid.nail_plate && !k.laid.supports.fished && !away(cx, w);
}

void run(Context& cx, const Way& w) {
  const Laying& l = w.laid();
  if (!l.edge_distance && !l.nail_plate && !w.has(Place::concealed) && away(cx, w))
    return void(cx.not_applicable("it does not run in or along framing where nails may hit it"));
  derive::type_of(cx, w);
  if (w.raceway != nullptr && cx.listed("nail-plate", "exempt", *w.type()))
    return void(cx.not_applicable(cx.text("{} stops a nail by itself", *w.type()), cx.cite("nail-plate")));
  if (w.cable != nullptr && derive::is_cord(cx, *w.cable)) return void(cx.not_applicable("a cord does not run in framing"));
  if (l.supports.fished.value_or(false)) return void(cx.not_applicable("it is fished through a finished space", cx.cite("nail-plate")));
  const Citation cite = cx.cite("nail-plate");
  if (l.nail_plate.value_or(false)) return void(cx.pass("a steel plate covers it where it is near the edge", cite, l.nail_plate.where));
  if (!l.edge_distance) {
    if (w.raceway != nullptr && !w.has(Place::concealed)) {
      cx.assume("framing", cx.text("the place of '{}' does not say concealed: it is taken to run where no nails go", *w.name()));
      return void(cx.not_applicable("it is taken to run where no nails go"));
    }
    std::string others;
    if (w.cable != nullptr && silent(cx, *w.cable)) {
      const auto lacks = [&](const Cable& other) { return silent(cx, other); };
      const auto& all = cx.job().cables;
      if (!derive::asks_for_all(all, *w.cable, lacks)) return void(cx.not_applicable("the distance to the framing's edge is asked for once, at the first cable of this case"));
      others = derive::others_that_lack(all, *w.cable, lacks);
    }
    cx.needs_input(derive::key(cx, w, "edge_distance"),
                   cx.text("in framing it keeps {} from the edge or is covered by a steel plate (nail_plate); say exposed in its place where it does not run in framing{}",
                           cx.parameter_text("nail-plate", "distance"), others));
  }
  const auto have = cx.given("distance to the edge of the framing", "d", l.edge_distance, units::inch);
  const auto least = cx.parameter("nail-plate", "distance", "distance that nails do not reach", "dmin", units::inch);
  Finding& f = cx.require(have, Must::at_least, least, cite, l.edge_distance.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("cover it with a steel plate of {}, or move it back", cx.parameter_text("nail-plate", "thickness"));
}

}  // namespace

extern const Check check_nail_plate{
    .id = "nail-plate",
    .title = "Cable in framing away from nails",
    .family = Family::places,
    .about = "Nails and screws of the wall finish go through cables that run too near the face of a stud. In bored holes, notches and "
             "along studs, joists and rafters a cable, or a raceway that a nail goes through, keeps 1-1/4 in from the edge or is "
             "covered by a 1/16 in steel plate. Rigid conduits and EMT need none.",
    .formula = "d >= dmin",
    .reads = "cable.type, cable.place, cable.edge_distance, cable.nail_plate, cable.inside, raceway.type, raceway.place, "
             "raceway.edge_distance, raceway.nail_plate",
    .rules = "nail-plate, cable-types",
    .run = run};

}  // namespace pullproof
