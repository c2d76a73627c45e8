#include "calc/load.hpp"
#include "derive/device.hpp"
#include "derive/load.hpp"
#include "derive/motor.hpp"
#include "derive/resized.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool protects(Context& cx, const Circuit& c) {
  const auto limit = derive::largest_device(cx, c, derive::ampacity_of(cx, c, derive::line_of(cx, c)));
  return !limit || at_most(*c.breaker.rating, limit->most.value);
}

/// Names the next standard rating, and larger conductors where that one needs them.
void advise_rating(Context& cx, const Circuit& c, Finding& f, Current least) {
  if (!c.also_feeds.empty()) return void(f.change = "move loads to another circuit, or use a larger device and conductors for it");
  Context quiet = cx.scratch();
  const auto next = derive::standard_rating_from(quiet, derive::device_kind(c), least, {}, {});
  if (!next) {
    f.change = "no standard rating carries this load: divide it";
    return;
  }
  Circuit with = c;
  with.breaker.rating.value = next->value;
  const std::string_view size = derive::smallest_size(cx, with, protects);
  const bool fits = !c.path.empty() && !size.empty() && [&] {
    try {
      return protects(quiet, with);
    } catch (const Stop&) {
      return false;
    }
  }();
  const std::string amperes = number_text(raw(next->value), 1);
  f.change = fits || size.empty() ? cx.text("use a {} A device", amperes) : cx.text("use a {} A device, and {} conductors for it", amperes, size);
}

/// Equipment with a marked minimum: its article does not ask that of the device, but a smaller one trips in use.
void marked_motor_equipment(Context& cx, const Circuit& c, const Traced<Current>& rating, const derive::DesignLoad& load, const derive::Line& line) {
  const bool running_known = c.load.current || c.load.power || c.load.apparent_power || derive::has_motors(c);
  const auto running = running_known
                           ? derive::drawn_current(cx, c, line)
                           : cx.apply(calc::least_running, units::ampere, cx.cite("cooling-conductor"), load.current,
                                      cx.parameter("cooling-conductor", "percent", "factor for the largest motor", "k", units::percent));
  if (!at_least(rating.value, running.value)) {
    advise_rating(cx, c, cx.require(rating, Must::at_least, running, load.cite, c.breaker.rating.where), load.current.value);
    return;
  }
  Finding& f = cx.recommend(rating, Must::at_least, load.current, load.cite, c.breaker.rating.where);
  if (f.verdict == Verdict::advice) advise_rating(cx, c, f, load.current.value);
}

void run(Context& cx, const Circuit& c) {
  cx.need(c.breaker.rating, "breaker.rating", "the load is held against it");
  const derive::Line line = derive::line_of(cx, c);
  const bool relieved = cx.listed("small-conductor-relief", "circuits", derive::circuit_kind(cx, c));
  const auto rating = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  const derive::DesignLoad load = derive::load_for_device(cx, c, line);
  if (relieved && load.marked) return marked_motor_equipment(cx, c, rating, load, line);
  Finding& f = cx.require(rating, Must::at_least, load.current, load.cite, c.breaker.rating.where);
  if (f.verdict == Verdict::fail) advise_rating(cx, c, f, load.current.value);
  const Given<Power>& power = c.load.power ? c.load.power : c.load.apparent_power;
  const bool range = derive::is_household_cooking(cx, c) && cx.listed("range-conductor", "circuit-appliances", *c.load.appliance);
  if (!range || !power || !at_least(*power, cx.parameter("range-conductor", "range-power", units::kilowatt))) return;
  const auto least = cx.parameter("range-conductor", "circuit", "smallest circuit for a range of this power", "Ir", units::ampere);
  Finding& g = cx.require(rating, Must::at_least, least, cx.cite("range-conductor"), c.breaker.rating.where);
  if (g.verdict == Verdict::fail) advise_rating(cx, c, g, least.value);
}

}  // namespace

extern const Check check_device_load{
    .id = "device-load",
    .title = "Overcurrent device against the load",
    .family = Family::protection,
    .about = "A device that is too small for its load trips, and running it near its rating for hours wears it out. Its rating "
             "covers all loads of the circuit with the continuous part raised, unless it is listed for the whole of its rating. Some appliances "
             "are raised whatever the hours: storage water heaters, electric heat, vehicle charging. Equipment with a marked "
             "minimum circuit ampacity has that in it already. The device of a motor or compressor carries what runs; that it lets "
             "it start as well is for whoever turns it on to see.",
    .formula = "In >= (I - C) + C * k",
    .reads = "breaker.rating, breaker.full_load_rated, circuit.role, circuit.voltage, circuit.load, circuit.also_feeds.current, circuit.also_feeds.continuous, circuit.also_feeds.motor",
    .rules = "continuous-load-device, continuous-load-device-feeder, raised-appliances, storage-water-heater, space-heating, "
             "vehicle-charger, room-air-conditioner, appliances, marked-minimum, cooling-device, cooling-conductor, motor-device, "
             "range-load, range-conductor, standard-ratings, small-conductor-relief, motor-among-loads",
    .run = run};

}  // namespace pullproof
