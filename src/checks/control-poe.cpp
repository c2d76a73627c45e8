#include "calc/signal.hpp"
#include "derive/bus.hpp"
#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The row whose first cell is this number.
std::size_t numbered(Context& cx, const code::TableRef& t, double key) {
  for (std::size_t r = 0; r < t.rows(); ++r)
    if (t.cell(r, std::size_t{0}).number() == key) return r;
  cx.not_covered(cx.text("{} has no row for {}", t.clause(), number_text(key, 0)), cx.edition().cite(t));
}

/// What the source and the device agree on.
struct Link {
  std::size_t type_row = 0;
  Traced<Power> source, device;  ///< what the source gives, and what may arrive
  Traced<double> pairs;
};

Link link_of(Context& cx, const Poe& p, const code::TableRef& types) {
  const auto classes = cx.table("poe-classes");
  std::optional<std::size_t> row;
  if (p.poe_class) row = numbered(cx, classes, *p.poe_class);
  if (!row && !p.type) cx.needs_input("control.poe.class", "what the source gives goes by the class of the device; or give control.poe.type");
  const double least = row ? classes.cell(*row, "type").number().value_or(1) : *p.type;
  const double type = p.type ? *p.type : least;
  if (type < least)
    cx.fail(cx.text("a source of type {} does not give what a device of class {} asks for", p.type.text, p.poe_class.text),
            cx.text("use a source of type {}, or a device of a lower class", number_text(least, 0)), cx.edition().cite(classes), p.type.where);
  if (!p.type) cx.assume("type of the source", cx.text("control.poe.type is not given: taken as type {}, the least that serves class {}", number_text(type, 0), p.poe_class.text),
                         cx.edition().cite(classes));
  Link out;
  out.type_row = numbered(cx, types, type);
  const code::TableRef& t = row ? classes : types;
  const std::size_t r = row ? *row : out.type_row;
  const std::string_view of = row ? cx.text("class {}", p.poe_class.text) : cx.text("type {}", p.type.text);
  out.source = *cx.cell(t, r, "source-power", cx.text("power of the source, {}", of), "P", units::watt);
  out.device = *cx.cell(t, r, "device-power", cx.text("power that a device may take, {}", of), "Pdx", units::watt);
  out.pairs = *cx.cell(t, r, "pairs", "pairs that carry power", "np", units::count);
  return out;
}

/// Heat in bundles: above a threshold each conductor has an ampacity.
void judge_bundle(Context& cx, const Control& c, const Traced<Current>& current) {
  const ControlCable& k = c.cable;
  const Citation cite = cx.cite("poe");
  const auto threshold = cx.parameter("poe", "threshold", "current per conductor from which bundles are bounded", "It", units::ampere);
  if (at_most(current.value, threshold.value)) {
    cx.require(current, Must::at_most, threshold, cite, k.bundled.where);
    return;
  }
  if (k.power_mark) {
    Finding& f = cx.require(current, Must::at_most, cx.given("current that the cable is marked for", "Im", k.power_mark, units::ampere), cite, k.power_mark.where);
    if (f.verdict == Verdict::fail) f.change = "use a cable marked for that current, or larger conductors in a smaller bundle";
    return;
  }
  const auto t = cx.table("poe-ampacity");
  cx.need(k.bundled, "control.cable.bundled", cx.text("over {} A per conductor bundles get hot", number_text(raw(threshold.value), 2)));
  std::optional<std::size_t> row;
  for (std::size_t r = 0; r < t.rows() && !row; ++r)
    if (t.cell(r, "size").text() == k.size->label() && at_most(*k.bundled, t.cell(r, "bundle").number().value_or(0))) row = r;
  if (!row) cx.not_covered(cx.text("no current is known for a bundle of {} cables of {}", k.bundled.text, k.size->label()), cx.edition().cite(t));
  double rated = 60;
  if (k.temperature_rating) rated = k.temperature_rating->celsius >= 90 ? 90 : k.temperature_rating->celsius >= 75 ? 75 : 60;
  else cx.assume("rating of the cable", "control.cable.temperature_rating is not given: taken as 60 °C, the least that a listed cable has", cite);
  auto limit = cx.cell(t, *row, cx.text("amps-{}", number_text(rated, 0)), cx.text("current per conductor in such a bundle, {} °C", number_text(rated, 0)), "Ib", units::ampere);
  if (!limit) cx.not_covered(cx.text("no current is printed for a bundle of {} cables of {}", k.bundled.text, k.size->label()), cx.edition().cite(t));
  Given<Temperature> air = c.ambient;
  for (const Stretch& s : c.path)
    if (s.raceway != nullptr && s.raceway->ambient && (!air || s.raceway->ambient->celsius > air->celsius)) air = s.raceway->ambient;
  if (air) {
    const auto factors = cx.table("ambient-correction");
    const auto band = factors.band("through-c", air->celsius);
    const auto f = band ? cx.cell(factors, *band, cx.text("f-{}", number_text(rated, 0)), cx.text("factor for {}", air.text), "f", units::factor) : std::nullopt;
    if (!f) return void(cx.fail(cx.text("it gets {} around the cable, which is too hot for one of {} °C", air.text, number_text(rated, 0)), "use a cable of a higher temperature rating",
                                cx.edition().cite(factors), air.where));
    // Cooler than the table is for: its figures are kept.
    if (f->value < 1) limit = cx.apply(calc::signal::in_ambient, units::ampere, cx.edition().cite(factors), *limit, *f);
  }
  const bool binds = cx.flag("poe", "binding");
  Finding& f = binds ? cx.require(current, Must::at_most, *limit, cite, k.bundled.where) : cx.recommend(current, Must::at_most, *limit, cite, k.bundled.where);
  if (f.verdict != Verdict::pass) f.change = "make smaller bundles, use larger conductors, or a cable with an -LP mark for that current";
}

void run(Context& cx, const Control& c) {
  const Poe& p = c.poe;
  if (!p.where && !p.type && !p.poe_class) return void(cx.not_applicable("no power over Ethernet of this run is described (control.poe)"));
  const auto types = cx.table("poe-types");
  const Link link = link_of(cx, p, types);
  const Citation cite = cx.edition().cite(types);
  const auto length = derive::bus_length(cx, c);
  Finding& f = cx.require(length, Must::at_most, *cx.cell(types, link.type_row, "length", "longest channel, cords at both ends among it", "Lx", units::metre), cite,
                          c.length ? c.length.where : p.where);
  if (f.verdict == Verdict::fail) f.change = "put a switch or an extender on the way";
  if (p.device_power) {
    Finding& g = cx.require(cx.given("power that the device takes", "Pw", p.device_power, units::watt), Must::at_most, link.device, cite, p.device_power.where);
    if (g.verdict == Verdict::fail) g.change = "use a source and a device of a higher class";
  }
  const derive::Loop loop = derive::loop_of(cx, c);
  const auto r = cx.apply(calc::signal::pair_set_resistance, units::ohm, cite, loop.length, loop.own);
  Finding& h = cx.require(r, Must::at_most, *cx.cell(types, link.type_row, "loop-resistance", "resistance that the standard permits a pair set", "Rx", units::ohm), cite,
                          c.cable.size.where);
  if (h.verdict == Verdict::fail) h.change = "use larger conductors, a shorter run, or copper where they are copper-clad aluminum";
  const bool carries = h.verdict != Verdict::fail;
  const auto sets = cx.apply(calc::signal::pair_sets, units::count, cite, link.pairs);
  const auto volts = *cx.cell(types, link.type_row, "source-voltage", "lowest voltage of such a source", "V", units::volt);
  const auto current = cx.apply(calc::signal::pair_set_current, units::ampere, cite, link.source, volts, sets);
  if (carries) {  // else its loss is the same mistake
    const auto lost = cx.apply(calc::signal::lost, units::watt, cite, sets, current, r);
    const auto left = cx.apply(calc::signal::arrives, units::watt, cite, link.source, lost);
    const auto wanted = p.device_power ? cx.given("power that the device takes", "Pw", p.device_power, units::watt) : link.device;
    // Printed powers are rounded: within its resistance the standard counts on what it prints.
    if (at_least(left.value, wanted.value) || !at_most(wanted.value, link.device.value)) {
      Finding& g = cx.require(left, Must::at_least, wanted, cite, c.cable.size.where);
      if (g.verdict == Verdict::fail) g.change = "use a source and a device of a higher class";
    } else {
      cx.pass(cx.text("{} W arrive over a cable of the resistance that the standard counts on for {} W", number_text(raw(left.value), 2), number_text(raw(wanted.value), 2)), cite, c.cable.size.where, left.step);
    }
  }
  judge_bundle(cx, c, cx.apply(calc::signal::per_conductor, units::ampere, cite, current));
}

}  // namespace

extern const Check check_control_poe{
    .id = "control-poe",
    .title = "Power over Ethernet",
    .family = Family::control,
    .about = "A data cable that feeds its device is bounded by the reach of Ethernet, by the power that is left at the far end, and by heat "
             "where many such cables lie in a bundle. The channel is held against its longest length, the cable against the loop "
             "resistance that the standard counts on, and what arrives, the source's power less the loss in the pairs, against what the "
             "device takes. Above a threshold the current of each conductor is held against the table of bundles, or against the mark of "
             "the cable; the cells of that table are from memory, so they advise.",
    .formula = "L <= Lx; R <= Rx; P - n * I^2 * R >= Pw; I / 2 <= Ib * f",
    .reads = "control.poe, control.length, control.path, raceway.ambient, control.ambient, control.cable",
    .rules = "poe-types, poe-classes, poe-ampacity, poe, ambient-correction, small-gauge, copper-temperature, control-temperature, control-stranding, "
             "conductor-material",
    .run = run};

}  // namespace pullproof
