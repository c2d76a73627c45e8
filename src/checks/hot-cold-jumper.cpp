#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Load& l = c.load;
  if (!l.appliance || !cx.listed("hot-cold-jumper", "appliances", *l.appliance)) return void(cx.not_applicable("it feeds no water heater"));
  const Citation cite = cx.cite("hot-cold-jumper");
  const bool binding = cx.flag("hot-cold-jumper", "binding");
  constexpr std::string_view change = "join hot and cold metal pipe at the heater by a jumper with listed clamps";
  if (!l.hot_cold_jumper) {
    if (binding) cx.needs_input("load.hot_cold_jumper", "the amendment asks for a jumper between hot and cold pipe");
    return void(cx.not_applicable("nothing is said of a jumper between hot and cold pipe, which the code's own text does not ask for; many towns do", cite));
  }
  if (*l.hot_cold_jumper) cx.pass("a jumper bonds hot and cold pipe", cite, l.hot_cold_jumper.where);
  else if (binding) cx.fail("no jumper bonds hot and cold pipe", change, cite, l.hot_cold_jumper.where);
  else cx.advise("no jumper bonds hot and cold pipe; ask whether the town wants one", change, cite, l.hot_cold_jumper.where);
}

}  // namespace

extern const Check check_hot_cold_jumper{
    .id = "hot-cold-jumper",
    .title = "Jumper between hot and cold pipe",
    .family = Family::grounding,
    .about = "A water heater with dielectric unions parts the hot pipes of a house from the bonded cold ones. The code asks that metal water "
             "piping be bonded, not how; many towns ask for a jumper at the heater. It is advice here unless an amendment makes it binding.",
    .formula = "",
    .reads = "load.appliance, load.hot_cold_jumper",
    .rules = "hot-cold-jumper",
    .run = run};

}  // namespace pullproof
