#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const auto shakes = derive::shakes(cx, c);
  if (!shakes.value_or(false)) return void(cx.not_applicable("nothing says that the equipment shakes (load.vibrates)"));
  if (c.path.empty()) cx.needs_input("circuit.path", "the last piece of the path joins the equipment");
  const Stretch& last = c.path.back();
  const Citation cite = cx.cite("flexible-connection");
  if (last.raceway == nullptr) return void(cx.pass("a cable joins the equipment, which gives way", cite, last.where));
  derive::type_of(cx, Way(*last.raceway));
  if (derive::flexible(cx, *last.raceway)) return void(cx.pass(cx.text("{} joins the equipment", *last.raceway->type), cite, last.where));
  cx.advise(cx.text("{} joins equipment that shakes: its joints work loose and carry the noise", *last.raceway->type), "make the last piece a flexible one, with a grounding wire in it",
            cite, last.where);
}

}  // namespace

extern const Check check_flexible_connection{
    .id = "flexible-connection",
    .title = "Flexible piece at equipment that shakes",
    .family = Family::raceways,
    .about = "Compressors, pumps and fans shake; rigid conduit that ends at them works its joints loose. Good practice, and most makers, "
             "want a flexible piece there. Heat pumps, air conditioners, pumps and motors are taken to shake; of others the case says so.",
    .formula = "",
    .reads = "load.appliance, load.vibrates, circuit.path, raceway.type",
    .rules = "flexible-connection, appliances, raceway-types",
    .run = run};

}  // namespace pullproof
