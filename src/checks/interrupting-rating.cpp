#include "derive/fault.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// What the device interrupts: as marked, or what goes without saying for a device that is not marked.
Traced<Current> rating_of(Context& cx, const Circuit& c) {
  if (c.breaker.interrupting) return cx.given("interrupting rating", "Icn", c.breaker.interrupting, units::kiloampere);
  const bool fuse = c.breaker.kind && *c.breaker.kind == DeviceKind::fuse;
  return cx.parameter("unmarked-interrupting", fuse ? "fuse" : "breaker",
                      fuse ? "interrupting rating that every fuse has" : "interrupting rating that every breaker has", "Icn", units::kiloampere);
}

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("interrupting-rating");
  const Given<Current>& fault = cx.job().supply.available_fault;
  cx.need(fault, "supply.available_fault", "the device has to interrupt it; ask the utility, or read the marking at the service");
  const auto rating = rating_of(cx, c);
  auto available = cx.given("available fault current", "Ik", fault, units::kiloampere);
  // Less arrives at the end of a feeder: worked out only where the device does not interrupt the supply's anyway.
  if (c.feeder != nullptr && !at_least(rating.value, available.value)) {
    const auto arrives = derive::fault_at_start(cx, c);
    available = cx.working().choice(cx.text("fault current at the end of '{}'", *c.feeder->name), "Ik", arrives.value, units::kiloampere, "as above", {});
    cx.working().because_of(arrives.step);
  }
  if (!at_least(rating.value, available.value) && !c.breaker.interrupting)
    cx.needs_input("breaker.interrupting", "the fault current is above what every device interrupts");
  Finding& f = cx.require(rating, Must::at_least, available, cite, c.breaker.interrupting.where);
  if (f.verdict == Verdict::fail)
    f.change = cx.text("use a device that interrupts {} kA or more, or a listed series combination marked on the equipment",
                       number_text(units::kiloampere.show(available.value), 3));
}

}  // namespace

extern const Check check_interrupting_rating{
    .id = "interrupting-rating",
    .title = "Interrupting rating",
    .family = Family::protection,
    .about = "A device that cannot interrupt the current of a short circuit bursts. Its interrupting rating is at least the fault "
             "current available where it stands. What is fed by a feeder sees less than the supply: how much less "
             "is worked out where the device does not interrupt even the supply's.",
    .formula = "Icn >= Ik",
    .reads = "supply.available_fault, breaker.interrupting, breaker.kind, circuit.fed_by, circuit.path, circuit.wire, raceway.length",
    .rules = "interrupting-rating, unmarked-interrupting, fault-current-withstand",
    .run = run};

}  // namespace pullproof
