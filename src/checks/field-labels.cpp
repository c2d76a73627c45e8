#include "derive/disconnect.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// A switch that stands by itself: a breaker is named in the directory, a plug and a unit switch speak for themselves.
bool stands_alone(const Disconnect& d) {
  return d.kind && *d.kind != DisconnectKind::breaker && *d.kind != DisconnectKind::plug && *d.kind != DisconnectKind::unit_switch &&
         *d.kind != DisconnectKind::none;
}

void disconnect(Context& cx, const Circuit& c) {
  const Disconnect& d = c.disconnect;
  if (!stands_alone(d)) return;
  const Citation cite = cx.cite("disconnect-mark");
  const std::string_view change = cx.text("mark it with what it turns off: \"{}\"", c.load.appliance ? *c.load.appliance : *c.name);
  const bool beside = d.within_sight && *d.within_sight;
  if (d.marked && *d.marked) cx.pass(cx.text("the disconnect of circuit {} says what it turns off", *c.name), cite, d.marked.where);
  else if (d.marked && !beside) cx.fail(cx.text("the disconnect of circuit {} does not say what it turns off", *c.name), change, cite, d.marked.where);
  else if (d.marked) cx.advise(cx.text("the disconnect of circuit {} is not marked: in sight of the appliance that may be evident", *c.name), change, cite, d.marked.where);
  else if (d.within_sight && !beside)
    cx.advise(cx.text("the disconnect of circuit {} is out of sight of what it turns off, and nothing says that it is marked (disconnect.marked)", *c.name), change, cite, d.within_sight.where);
}

/// Some editions want the source on it too, but in small dwellings.
void source(Context& cx, const Supply& s, const Circuit& c) {
  const Disconnect& d = c.disconnect;
  if (!stands_alone(d) || !d.source_marked || !cx.flag("disconnect-mark", "with-source")) return;
  const Citation cite = cx.cite("disconnect-mark");
  if (*d.source_marked) return void(cx.pass(cx.text("the disconnect of circuit {} says what feeds it", *c.name), cite, d.source_marked.where));
  const bool small = s.occupancy && cx.listed("disconnect-mark", "excepted", word(*s.occupancy));
  if (small) return void(cx.pass(cx.text("the disconnect of circuit {} does not say what feeds it, and need not in a {}", *c.name, word(*s.occupancy)), cite, d.source_marked.where));
  if (!s.occupancy && s.dwelling.value_or(true)) cx.needs_input("supply.occupancy", "in dwellings of one or two families a disconnect need not say what feeds it");
  cx.fail(cx.text("the disconnect of circuit {} does not say what feeds it", *c.name), "mark it with the panel and the circuit, unless that is evident from where it is", cite, d.source_marked.where);
}

void run(Context& cx, const Supply& s) {
  const Panel& p = s.panel;
  if (p.source_marked) {
    const Citation cite = cx.cite("panel-source-mark");
    const bool excepted = s.occupancy && cx.listed("panel-source-mark", "excepted", word(*s.occupancy));
    if (*p.source_marked) cx.pass("the panel says where it is fed from", cite, p.source_marked.where);
    else if (excepted) cx.pass(cx.text("the panel does not say where it is fed from, and need not in a {}", word(*s.occupancy)), cite, p.source_marked.where);
    else if (!s.occupancy && s.dwelling.value_or(false)) cx.needs_input("supply.occupancy", "dwellings of one or two families need no mark of where a panel is fed from");
    else cx.fail("the panel does not say where it is fed from", "mark it with the device or equipment that feeds it, and where that is", cite, p.source_marked.where);
  }
  if (p.durable_labels) {
    const Citation cite = cx.cite("field-labels");
    if (*p.durable_labels) cx.pass("labels put on in the field last and are not written by hand", cite, p.durable_labels.where);
    else cx.fail("labels put on in the field do not last or are written by hand", "use printed or engraved labels that stand the weather where they are; only what changes may be written in",
                 cite, p.durable_labels.where);
  }
  if (p.fault_marked) {
    const Citation cite = cx.cite("fault-marking");
    if (*p.fault_marked) cx.pass("the available fault current and its date are marked on it", cite, p.fault_marked.where);
    else if (cx.need(s.dwelling, "supply.dwelling", "service equipment of dwellings needs no mark of the fault current"))
      cx.pass("the available fault current is not marked on it, and need not be at a dwelling", cite, p.fault_marked.where);
    else cx.fail("the available fault current is not marked on the service equipment", "mark it with the current and the date on which it was worked out", cite, p.fault_marked.where);
  }
  for (const Circuit& c : cx.job().circuits) {
    disconnect(cx, c);
    source(cx, s, c);
  }
  if (cx.findings() == 0) cx.not_applicable("no panel's mark is described, and each disconnect is where what it turns off is evident", cx.cite("disconnect-mark"));
}

}  // namespace

extern const Check check_field_labels{
    .id = "field-labels",
    .title = "Labels on panel and disconnects",
    .family = Family::disconnects,
    .about = "A disconnect that nobody can tell from its neighbour gets the wrong machine turned off. Each says what it is for unless that is "
             "evident, as of a switch beside its appliance; a panel that is fed from elsewhere says from where, but in one- and two-family "
             "dwellings; labels put on in the field last and are not written by hand; and service equipment but for dwellings has the fault current on it.",
    .formula = "",
    .reads = "disconnect.kind, disconnect.marked, disconnect.source_marked, disconnect.within_sight, load.appliance, supply.occupancy, supply.dwelling, "
             "supply.panel.source_marked, supply.panel.durable_labels, supply.panel.fault_marked",
    .rules = "disconnect-mark, panel-source-mark, field-labels, fault-marking",
    .run = run};

}  // namespace pullproof
