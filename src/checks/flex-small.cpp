#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Raceway& r) {
  derive::type_of(cx, Way(r));
  if (!derive::flexible(cx, r)) return void(cx.not_applicable("it is not flexible"));
  cx.need(r.size, "raceway.size", "the smallest size has rules of its own");
  const auto small = TradeSize::parse(cx.parameter_text("flex-small", "size"));
  if (!small || *r.size > *small) return void(cx.not_applicable(cx.text("it is larger than trade size {}", small ? small->label() : "")));
  Citation cite = derive::section(cx, Way(r), "small");
  for (const Circuit* c : derive::circuits_in(cx, Way(r)))
    if (!derive::ends_at_load(*c, Way(r))) {
      cx.fail(cx.text("trade size {} is no part of a run: '{}' goes on past it", r.size->label(), *c->name), "use trade size 1/2 or larger, but for the last piece to the equipment",
              cite, r.size.where);
      return;
    }
  cx.need(r.length, "raceway.length", cx.text("trade size {} is for short pieces to equipment only", r.size->label()));
  const auto have = cx.given("length", "L", r.length, units::foot);
  const auto most = cx.parameter("flex-small", "length", "length that this size may have", "Lmax", units::foot);
  Finding& f = cx.require(have, Must::at_most, most, cite, r.length.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("shorten it to {}, or use trade size 1/2", shown(cx.working().steps()[most.step]));
}

}  // namespace

extern const Check check_flex_small{
    .id = "flex-small",
    .title = "Smallest flexible conduit",
    .family = Family::raceways,
    .about = "Flexible conduit starts at trade size 1/2; 3/8 is only for the uses that its article lists. Of those an appliance hookup "
             "has one: the last piece to the equipment, up to 6 ft. How many wires fit is the fill check's matter, how it is held "
             "that of the supports.",
    .formula = "L <= Lmax",
    .reads = "raceway.type, raceway.size, raceway.length, circuit.path",
    .rules = "flex-small, raceway-types, raceway-sections",
    .run = run};

}  // namespace pullproof
