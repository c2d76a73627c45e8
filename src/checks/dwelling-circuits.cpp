#include "derive/sharing.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c) || !c.purpose || *c.purpose == Purpose::general) {
    cx.not_applicable("not one of the circuits that a dwelling has for kitchen, laundry, bathroom or garage (circuit.purpose)");
    return;
  }
  if (derive::needed_occupancy(cx) != "dwelling") {
    cx.not_applicable("not a dwelling");
    return;
  }
  const std::string_view purpose = word(*c.purpose);
  cx.need(c.breaker.rating, "breaker.rating", cx.text("the {} circuit of a dwelling has a rating of its own", purpose));
  const auto rating = cx.given("rating of the circuit", "In", c.breaker.rating, units::ampere);
  const auto wanted = cx.parameter("required-circuits", "circuit", cx.text("rating of a {} circuit", purpose), "Iw", units::ampere);
  const Citation cite = cx.cite("required-circuits");
  if (at_least(rating.value, wanted.value) && at_most(rating.value, wanted.value))
    cx.pass(cx.text("a {} circuit of {} A", purpose, number_text(raw(rating.value), 1)), cite, c.breaker.rating.where, rating.step);
  else
    cx.fail(cx.text("the {} circuit has {} A instead of {} A", purpose, number_text(raw(rating.value), 1), number_text(raw(wanted.value), 1)),
            cx.text("make it a circuit of {} A, with wire for it", number_text(raw(wanted.value), 1)), cite, c.breaker.rating.where, rating.step);
  if (!c.load.appliance) return;
  const std::string_view appliance = *c.load.appliance;
  if (*c.purpose == Purpose::small_appliance && !cx.listed("small-appliance-circuits", "exempt", appliance)) {
    const Citation small = cx.cite("small-appliance-circuits");
    if (derive::fastened(cx, c))
      cx.fail(cx.text("the {} is fastened in place and on a small-appliance circuit", appliance), "give it a circuit of its own, or one that is not for small appliances",
              small, c.load.appliance.where);
    else cx.pass(cx.text("the {} is not fastened in place", appliance), small, c.load.appliance.where);
  }
  if (*c.purpose == Purpose::laundry && !cx.listed("laundry-circuit", "appliances", appliance))
    cx.fail(cx.text("a {} is on the laundry circuit", appliance), "give it another circuit: that of the laundry has no other outlets", cx.cite("laundry-circuit"),
            c.load.appliance.where);
}

}  // namespace

extern const Check check_dwelling_circuits{
    .id = "dwelling-circuits",
    .title = "Kitchen, laundry, bathroom and garage circuits",
    .family = Family::circuits,
    .about = "A dwelling has circuits of 20 A for the receptacles of kitchen, laundry, bathrooms and garage. Nothing that is fastened in place "
             "goes on those for small appliances, and nothing from elsewhere on the laundry's.",
    .formula = "",
    .reads = "circuit.purpose, supply.dwelling, breaker.rating, load.appliance, load.fastened, load.connection",
    .rules = "required-circuits, small-appliance-circuits, laundry-circuit",
    .run = run};

}  // namespace pullproof
