#include "derive/device.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Appliances have a rule of their own in their article.
std::string_view rule_for(const Context& cx, const Circuit& c) {
  if (!c.load.appliance) return "marked-maximum";
  const auto t = cx.table("appliances");
  return t.cell(cx.row(t, *c.load.appliance), "article").text() == "422" ? "appliance-marked-maximum" : "marked-maximum";
}

void run(Context& cx, const Circuit& c) {
  const std::string_view rule = rule_for(cx, c);
  if (!c.load.maximum_device) {
    cx.not_applicable("the nameplate marks no maximum device", cx.cite(rule));
    return;
  }
  cx.need(c.breaker.rating, "breaker.rating", "the marked maximum is held against it");
  const auto rating = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  const auto most = cx.given("marked maximum device", "MOCP", c.load.maximum_device, units::ampere);
  Finding& f = cx.require(rating, Must::at_most, most, cx.cite(rule), c.breaker.rating.where);
  if (f.verdict == Verdict::pass) return;
  const auto device = derive::largest_standard(cx, derive::device_kind(c), most.value);
  f.change = device ? cx.text("use a {} A device: a marked maximum is never rounded up", number_text(raw(*device), 1))
                    : std::string_view("use a device that is not above the marked maximum");
}

}  // namespace

extern const Check check_device_marked_maximum{
    .id = "device-marked-maximum",
    .title = "Marked maximum overcurrent device",
    .family = Family::protection,
    .about = "A nameplate that marks a maximum overcurrent device says what the equipment was tested with: parts inside may burn "
             "behind a larger one. The device is at most that, with no rounding up, also where the conductors would allow more.",
    .formula = "In <= marked maximum",
    .reads = "breaker.rating, breaker.kind, load.maximum_device, load.appliance",
    .rules = "marked-maximum, appliance-marked-maximum, standard-ratings, appliances",
    .run = run};

}  // namespace pullproof
