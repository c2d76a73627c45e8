#include "derive/laying.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Raceway& r) {
  const Way w(r);
  if (derive::buried(w)) return void(cx.not_applicable("in the ground its fittings are for earth, not for rain"));
  if (!w.has(Place::wet) && !w.has(Place::outdoors) && !w.has(Place::rooftop)) return void(cx.not_applicable("it is not where it is wet"));
  derive::type_of(cx, w);
  if (!cx.listed("raintight-fittings", "raceways", *r.type))
    return void(cx.not_applicable(cx.text("{} has fittings of its own kind", *r.type), cx.cite("raintight-fittings")));
  const Citation cite = derive::section(cx, w, "fittings");
  const bool threads = cx.listed("raintight-fittings", "threaded", *r.type);
  const Given<Fittings>& g = r.more.fittings;
  if (!g && threads) {
    cx.assume("fittings", cx.text("the fittings of '{}' are not given: taken as threaded", *r.name));
    return void(cx.pass("threaded fittings, as is usual", cite, r.where));
  }
  cx.need(g, "raceway.fittings", "where it is wet they are to keep the rain out: set-screw ones do not, compression ones only where listed as raintight");
  switch (*g) {
    case Fittings::raintight: cx.pass("its fittings are listed to keep the rain out", cite, g.where); return;
    case Fittings::threaded:
      if (threads) cx.pass("its fittings are threaded", cite, g.where);
      else cx.fail(cx.text("{} is not threaded", *r.type), "use raintight compression fittings", cite, g.where);
      return;
    case Fittings::set_screw:
      cx.fail("set-screw fittings do not keep the rain out", "use raintight compression fittings", cite, g.where);
      return;
    case Fittings::compression:
      cx.needs_input("raceway.fittings", "compression fittings keep the rain out only where they are listed as raintight: look at the box they came in");
  }
}

}  // namespace

extern const Check check_raintight_fittings{
    .id = "raintight-fittings",
    .title = "Fittings that keep rain out",
    .family = Family::raceways,
    .about = "Tubing and metal conduit outdoors are as tight as their couplings and connectors. Set-screw fittings let the rain in; "
             "compression fittings keep it out where they are listed as raintight; threaded joints do.",
    .formula = "",
    .reads = "raceway.type, raceway.place, raceway.fittings",
    .rules = "raintight-fittings, raceway-sections",
    .run = run};

}  // namespace pullproof
