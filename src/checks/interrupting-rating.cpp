#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("interrupting-rating");
  const Given<Current>& fault = cx.job().supply.available_fault;
  cx.need(fault, "supply.available_fault", "the device has to interrupt it; ask the utility, or read the marking at the service");
  const auto available = cx.given("available fault current", "Ik", fault, units::kiloampere);
  if (c.breaker.interrupting) {
    const auto rating = cx.given("interrupting rating", "Icn", c.breaker.interrupting, units::kiloampere);
    if (at_least(rating.value, available.value) || c.feeder == nullptr) {
      Finding& f = cx.require(rating, Must::at_least, available, cite, c.breaker.interrupting.where);
      if (f.verdict == Verdict::fail)
        f.change = cx.text("use a device that interrupts {} kA or more, or a listed series combination marked on the equipment",
                           number_text(units::kiloampere.show(available.value), 3));
      return;
    }
  } else {
    // What is not marked has the rating that goes without saying; whatever the device is, it has at least that.
    const bool fuse = c.breaker.kind && *c.breaker.kind == DeviceKind::fuse;
    const auto unmarked = cx.parameter("unmarked-interrupting", fuse ? "fuse" : "breaker",
                                       fuse ? "interrupting rating that every fuse has" : "interrupting rating that every breaker has", "Icn", units::kiloampere);
    if (at_least(unmarked.value, available.value)) {
      cx.require(unmarked, Must::at_least, available, cite, c.breaker.where);
      return;
    }
    cx.needs_input("breaker.interrupting", "the fault current is above what every device interrupts");
  }
  cx.not_covered("the fault current at the end of the feeder is not worked out here, and the one at the supply is more than the device interrupts", cite);
}

}  // namespace

extern const Check check_interrupting_rating{
    .id = "interrupting-rating",
    .title = "Interrupting rating",
    .about = "A device that cannot interrupt the current of a short circuit bursts. Its interrupting rating is at least the fault "
             "current available where it stands. What is fed by a feeder sees less than the supply: the supply's figure is used "
             "where the device interrupts even that.",
    .formula = "Icn >= Ik",
    .reads = "supply.available_fault, breaker.interrupting, breaker.kind, circuit.fed_by",
    .rules = "interrupting-rating, unmarked-interrupting",
    .run = run};

}  // namespace pullproof
