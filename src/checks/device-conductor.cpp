#include "derive/device.hpp"
#include "derive/load.hpp"
#include "derive/motor.hpp"
#include "derive/resized.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

bool protects(Context& cx, const Circuit& c) {
  const auto limit = derive::largest_device(cx, c, derive::ampacity_of(cx, c, derive::line_of(cx, c)));
  return limit && at_most(*c.breaker.rating, limit->most.value);
}

/// Names the largest device, where it carries the load, and the smallest conductors for the device that there is.
void advise(Context& cx, const Circuit& c, const derive::Line& line, const derive::DeviceLimit& limit, Finding& f) {
  const auto device = derive::largest_standard(cx, derive::device_kind(c), limit.most.value);
  const bool carries = [&] {
    Context quiet = cx.scratch();
    try {
      return device && at_least(*device, derive::load_for_device(quiet, c, line).current.value);
    } catch (const Stop&) {
      return device.has_value();
    }
  }();
  const std::string_view size = derive::smallest_size(cx, c, protects);
  const std::string_view smaller = carries ? cx.text("use a {} A device", number_text(raw(*device), 1)) : std::string_view{};
  if (size.empty()) f.change = carries ? smaller : "use conductors in parallel, fewer in the raceway, or a cooler place";
  else if (carries) f.change = cx.text("{} or {} conductors", smaller, size);
  else f.change = cx.text("use {} conductors: no device that protects these carries the load", size);
}

/// The smallest conductors have no terminal column: their device, its marking and their continuous load are fixed.
bool smallest_conductors(Context& cx, const Circuit& c, const Traced<Current>& rating, const derive::Line& line) {
  const auto t = cx.table("small-conductors");
  for (const Stretch& s : c.path) {
    const derive::Conductors k = derive::conductors_on(cx, c, s);
    const auto row = t.find(k.size->label());
    const std::string metal = k.material == Material::copper ? "copper" : "aluminum";
    if (!row || t.cell(*row, metal + "-continuous").blank()) continue;
    if (k.cable != nullptr) {
      const auto types = cx.table("cable-types");
      if (types.cell(cx.row(types, *k.cable->type), "cord").yes()) continue;
    }
    const std::string_view wire = cx.text("{} {}", k.size->label(), word(k.material));
    const Citation cite = cx.cite("small-conductors-devices");
    const auto most = cx.cell(t, *row, metal, cx.text("highest device for {}", wire), "If", units::ampere);
    Finding& f = cx.require(rating, Must::at_most, *most, cx.cite("small-conductors"), c.breaker.rating.where);
    if (f.verdict == Verdict::fail) f.change = cx.text("use a {} A device marked for {}, or larger conductors", number_text(raw(most->value), 1), wire);
    if (!c.breaker.marked_for_small) cx.needs_input("breaker.marked_for_small", cx.text("{} takes only a device that is marked for it", wire));
    if (!*c.breaker.marked_for_small)
      cx.fail(cx.text("the device is not marked to protect {}", wire), "use a device that is marked for it, or larger conductors", cite,
              c.breaker.marked_for_small.where);
    const auto steady = cx.cell(t, *row, metal + "-continuous", cx.text("highest continuous load of {}", wire), "Ic", units::ampere);
    if (c.load.continuous && !*c.load.continuous && !c.load.continuous_current) return true;
    const auto load = c.load.continuous_current ? cx.given("continuous part", "C", c.load.continuous_current, units::ampere)
                                                : derive::whole_load(cx, c, line);
    Finding& g = cx.require(load, Must::at_most, *steady, cx.cite("small-conductors"), c.wire.size.where);
    if (g.verdict == Verdict::fail) g.change = "use larger conductors";
    return true;
  }
  return false;
}

void run(Context& cx, const Circuit& c) {
  cx.need(c.breaker.rating, "breaker.rating", "the conductors are held against it");
  const derive::Line line = derive::line_of(cx, c);
  const std::string_view kind = derive::circuit_kind(cx, c);
  const auto rating = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  if (cx.listed("small-conductor-relief", "circuits", kind)) {
    cx.not_applicable(c.load.maximum_device ? std::string_view("the marked maximum device of the equipment governs instead of the conductors")
                                            : cx.text("the article of a {} circuit sets its device, not the conductors", kind),
                      cx.cite("small-conductor-relief"));
    return;
  }
  if (c.path.empty()) cx.needs_input("circuit.path", "what the conductors may carry depends on where they run");
  if (smallest_conductors(cx, c, rating, line)) return;
  const auto limit = derive::largest_device(cx, c, derive::ampacity_of(cx, c, line));
  if (!at_most(rating.value, limit->most.value) && derive::feeds_motors(cx, c))
    return void(cx.not_applicable("it feeds motors: its device goes by theirs, which 'motor-feeder' looks at", cx.cite("motor-feeder-device")));
  if (!at_most(rating.value, limit->most.value) && !c.load.appliance && c.load.minimum_circuit_ampacity && c.load.maximum_device)
    cx.needs_input("load.appliance", "the marked maximum may stand above what the conductors allow only for motor and cooling equipment");
  Finding& f = cx.require(rating, Must::at_most, limit->most, limit->cite, c.breaker.rating.where);
  if (f.verdict == Verdict::fail) advise(cx, c, line, *limit, f);
}

}  // namespace

extern const Check check_device_conductor{
    .id = "device-conductor",
    .title = "Overcurrent device against the conductors",
    .family = Family::protection,
    .about = "The device has to open before the conductors overheat. It is at most their usable ampacity, after every factor and "
             "within the terminal column; between standard ratings the next higher one is permitted up to a limit, but not for "
             "several receptacles for portable loads, household cooking or cords. The main feeder of a dwelling needs a share of its rating alone. Small conductors have a fixed highest device "
             "whatever their ampacity. Motor and cooling equipment has overload protection of its own, so its article and "
             "nameplate set the device instead.",
    .formula = "In <= standard rating at or next above Iz, and <= the fixed limit for small conductors",
    .reads = "breaker.rating, breaker.kind, breaker.marked_for_small, circuit.entire_dwelling, supply.dwelling, load.appliance, load.receptacles, load.maximum_device, "
             "circuit.path, circuit.wire, breaker.terminals, load.terminals, raceway.place, raceway.ambient, raceway.length, cable.type, "
             "cable.place, cable.bundled",
    .rules = "ocpd-conductor, next-size-up, several-receptacles, over-800, small-conductors, small-conductors-devices, small-conductor-relief, "
             "standard-ratings, cord-protection, range-conductor, dwelling-service, motor-feeder-device, appliances, ampacity",
    .run = run};

}  // namespace pullproof
