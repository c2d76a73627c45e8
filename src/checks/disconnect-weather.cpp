#include "derive/disconnect.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Disconnect& d = c.disconnect;
  const bool mounted = d.kind && *d.kind != DisconnectKind::none && *d.kind != DisconnectKind::plug && *d.kind != DisconnectKind::unit_switch;
  if (!mounted) {
    cx.not_applicable("no disconnect with an enclosure of its own is described");
    return;
  }
  const Given<Place>* place = derive::disconnect_place(c);
  if (place == nullptr) {
    cx.not_applicable("the breaker is where its panel is (disconnect.place where it is not)");
    return;
  }
  cx.need(*place, d.kind && !c.load.place ? "disconnect.place" : "load.place", "outdoors and in wet places its enclosure keeps the rain out");
  const Place& p = **place;
  const bool wet = derive::place_is(p, "outdoors") || p.has(Place::wet);
  if (!wet) {
    cx.not_applicable("not outdoors and not in a wet place");
    return;
  }
  const Citation cite = cx.cite("wet-switch");
  if (!d.place) cx.assume("place of the disconnect", "disconnect.place is not given: it is taken to be where the load is", cite);
  cx.need(d.enclosure, "disconnect.enclosure", "outdoors and in wet places its enclosure keeps the rain out: say its type, \"3R\"");
  const auto t = cx.table("enclosure-types");
  const auto row = t.find(*d.enclosure);
  if (!row) cx.unclear("disconnect.enclosure", cx.text("'{}' is no type of enclosure that {} lists", *d.enclosure, t.clause()), d.enclosure.where);
  const StepId why = cx.choose("enclosure", cx.text("type {}: {} in the rain", *d.enclosure, t.cell(*row, "outdoors").yes() ? "good" : "not good"),
                               cx.edition().cite(t, *row, t.column("outdoors")));
  if (t.cell(*row, "outdoors").yes()) cx.pass(cx.text("an enclosure of type {} keeps the rain out", *d.enclosure), cite, d.enclosure.where, why);
  else cx.fail(cx.text("an enclosure of type {} does not keep the rain out", *d.enclosure), "use a rainproof enclosure, type 3R or better", cite, d.enclosure.where, why);
}

}  // namespace

extern const Check check_disconnect_weather{
    .id = "disconnect-weather",
    .title = "Enclosure of the disconnect in wet places",
    .family = Family::disconnects,
    .about = "An indoor enclosure on an outside wall fills with water. Outdoors and in wet places the disconnect needs an enclosure "
             "that keeps rain out, by its type.",
    .formula = "",
    .reads = "disconnect.kind, disconnect.place, disconnect.enclosure, load.place",
    .rules = "wet-switch, enclosure-types",
    .run = run};

}  // namespace pullproof
