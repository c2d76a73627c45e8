#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Raceway& r) {
  derive::type_of(cx, Way(r));
  const auto sections = cx.table("raceway-sections");
  const auto row = sections.find(*r.type);
  if (!row || sections.cell(*row, "angle").blank()) return void(cx.not_applicable("no angle connectors are made for it, or any may be concealed"));
  if (!Way(r).has(Place::concealed)) return void(cx.not_applicable("it is not concealed"));
  const Given<bool>& g = r.more.angle_connectors;
  cx.need(g, "raceway.angle_connectors", "they may not be concealed");
  const Citation cite = derive::section(cx, Way(r), "angle");
  if (*g) cx.fail("its angle connectors are concealed", "use straight connectors, or leave the ends in reach", cite, g.where);
  else cx.pass("its connectors are straight", cite, g.where);
}

}  // namespace

extern const Check check_angle_connectors{
    .id = "angle-connectors",
    .title = "Angle connectors of flexible conduit",
    .family = Family::raceways,
    .about = "Wire that is pulled through the sharp turn of an angle connector may have to come out again, so such a connector stays in reach: "
             "flexible conduit that is concealed ends in straight ones.",
    .formula = "",
    .reads = "raceway.type, raceway.place, raceway.angle_connectors",
    .rules = "raceway-sections",
    .run = run};

}  // namespace pullproof
