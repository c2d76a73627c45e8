#include "calc/device.hpp"
#include "derive/device.hpp"
#include "derive/load.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("appliance-single");
  if (!c.load.appliance || c.role.value_or(CircuitRole::branch) == CircuitRole::feeder) {
    cx.not_applicable("no appliance is named", cite);
    return;
  }
  const auto t = cx.table("appliances");
  const std::size_t row = cx.row(t, *c.load.appliance);
  if (!t.cell(row, "ceiling").yes()) {
    cx.not_applicable(cx.text("the ceiling is for single appliances without a motor, which {} is not taken for", *c.load.appliance),
                      cx.edition().cite(t, row, t.column("ceiling")));
    return;
  }
  if (!c.also_feeds.empty()) {
    cx.not_applicable("the ceiling is for a circuit that feeds one appliance", cite);
    return;
  }
  if (c.load.maximum_device) {
    cx.not_applicable("the marked maximum device governs", cx.cite("appliance-marked-maximum"));
    return;
  }
  cx.need(c.breaker.rating, "breaker.rating", "the appliance is held against it");
  if (!c.load.current && !c.load.power && !c.load.apparent_power)
    cx.needs_input("load.current", "the ceiling goes by the current of the appliance");
  const derive::Line line = derive::line_of(cx, c);
  const auto rating = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  const auto load = derive::load_current(cx, c, line);
  if (at_most(load.value, cx.parameter("appliance-single", "small-load", units::ampere))) {
    const auto most = cx.parameter("appliance-single", "small-device", "highest device for a small appliance", "Il", units::ampere);
    cx.working().because_of(load.step);
    Finding& f = cx.require(rating, Must::at_most, most, cite, c.breaker.rating.where);
    if (f.verdict == Verdict::fail) f.change = cx.text("use a {} A device", number_text(raw(most.value), 1));
    return;
  }
  const auto k = cx.parameter("appliance-single", "percent", "share of the appliance's current", "k", units::percent);
  const auto share = cx.apply(calc::appliance_share, units::ampere, cite, k, load);
  const auto standard = derive::standard_rating_from(cx, derive::device_kind(c), share.value, "standard rating at or next above the share", "Is");
  if (standard) cx.working().because_of(share.step);
  const auto most = standard.value_or(share);
  Finding& f = cx.require(rating, Must::at_most, most, cite, c.breaker.rating.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use a {} A device", number_text(raw(most.value), 1));
}

}  // namespace

extern const Check check_appliance_device{
    .id = "appliance-device",
    .title = "Highest device for one appliance",
    .family = Family::protection,
    .about = "The wiring inside an appliance is smaller than the circuit's and relies on the circuit's device. Where the nameplate "
             "marks no maximum, a single appliance without a motor has a ceiling: a fixed device for a small one, a share of its "
             "current for a larger one, at the next standard rating. The floor is another check's; both hold together.",
    .formula = "In <= standard rating at or next above k * I",
    .reads = "load.appliance, load.current, load.power, load.apparent_power, load.maximum_device, circuit.also_feeds, breaker.rating",
    .rules = "appliance-single, appliances, standard-ratings, appliance-marked-maximum",
    .run = run};

}  // namespace pullproof
