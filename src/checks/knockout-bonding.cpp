#include "derive/laying.hpp"
#include "derive/line.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Raceway& r) {
  derive::type_of(cx, Way(r));
  if (!derive::metal(cx, r)) return void(cx.not_applicable("it is not of metal"));
  const auto circuits = derive::circuits_in(cx, Way(r));
  if (circuits.empty()) return void(cx.not_applicable("no circuit of this case runs in it"));
  const auto limit = cx.parameter("bonding-bushing", "voltage", "voltage to ground up to which locknuts bond", "Vmax", units::volt);
  Voltage highest{};
  for (const Circuit* c : circuits) highest = std::max(highest, derive::quiet_line(cx, *c).to_ground);
  const Citation cite = cx.cite("bonding-bushing");
  if (at_most(highest, limit.value))
    return void(cx.not_applicable(cx.text("{} V to ground: standard locknuts bond it", number_text(units::volt.show(highest), 0)), cite));
  const RacewayLaying& m = r.more;
  cx.need(m.concentric_knockouts, "raceway.concentric_knockouts",
          cx.text("at {} V to ground locknuts alone do not bond around concentric, eccentric or oversized knockouts", number_text(units::volt.show(highest), 0)));
  if (!*m.concentric_knockouts) return void(cx.pass("its locknuts sit on solid metal", cite, m.concentric_knockouts.where));
  cx.need(m.bonding_bushing, "raceway.bonding_bushing", "around the rings of a knockout a bonding bushing with a jumper, or a box listed for it, makes the bond");
  if (*m.bonding_bushing) cx.pass("it is bonded around the knockout", cite, m.bonding_bushing.where);
  else cx.fail("nothing bonds it around the rings of the knockout", "use a bonding bushing with a jumper, or a box that is listed for it", cite, m.bonding_bushing.where);
}

}  // namespace

extern const Check check_knockout_bonding{
    .id = "knockout-bonding",
    .title = "Bonding around knockouts above 250 V to ground",
    .family = Family::grounding,
    .about = "The rings of a concentric knockout may not carry a fault current. Where a metal raceway holds a circuit of more than 250 V to "
             "ground (277 V lighting, 480 V) and ends in concentric, eccentric or oversized knockouts, it is bonded by a bushing with a jumper, or the box is "
             "listed for it. Service raceways are outside of what is checked.",
    .formula = "",
    .reads = "raceway.type, raceway.concentric_knockouts, raceway.bonding_bushing, circuit.voltage, supply.system",
    .rules = "bonding-bushing, raceway-types",
    .run = run};

}  // namespace pullproof
