#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The row of the table of cover for what lies over the run.
std::size_t location(Context& cx, const Control& c, const code::TableRef& t) {
  if (!c.under) {
    cx.assume("over it", cx.text("control.under is not given: '{}' is taken to lie under open ground, no driveway, slab or building", *c.name));
    return cx.row(t, "other");
  }
  switch (*c.under) {
    case Under::ground: return cx.row(t, "other");
    case Under::concrete: return cx.row(t, "trench-under-concrete");
    case Under::building: return cx.row(t, "under-building");
    case Under::slab: return cx.row(t, "under-slab");
    case Under::street: return cx.row(t, "street");
    case Under::dwelling_driveway: return cx.row(t, "dwelling-driveway");
    case Under::runway: return cx.row(t, "runway");
    case Under::driveway: break;
  }
  cx.need(cx.job().supply.dwelling, "supply.dwelling", "a driveway of a one- or two-family dwelling asks for less cover than another");
  return cx.row(t, *cx.job().supply.dwelling ? "dwelling-driveway" : "street");
}

void run(Context& cx, const Control& c) {
  const bool buried = c.cover || c.under || (c.place && c.place->has(Place::underground));
  if (!buried) return void(cx.not_applicable("it does not lie in the earth outside of raceways"));
  if (c.cable.direct_burial && !*c.cable.direct_burial) {
    cx.fail("the cable is not marked for direct burial, and it lies in the earth", "use a cable marked for direct burial, or a raceway that keeps its depth", cx.cite("control-wet"), c.cable.direct_burial.where);
    return;
  }
  if (!c.cable.direct_burial) cx.assume("burial", "control.cable.direct_burial is not given: the cable is taken as marked for direct burial", cx.cite("control-wet"));
  const bool column5 = c.use && *c.use != ControlUse::general;
  const Citation cite = cx.cite(column5 ? "burial-low-voltage" : "control-burial");
  if (column5) {
    const Voltage most = cx.parameter("burial-low-voltage", "voltage", units::volt);
    cx.need(c.source.voltage, "control.source.voltage", "the shallow column is for a low voltage");
    if (!at_most(c.source.voltage->volts, most)) cx.not_covered(cx.text("the shallow column ends at {} V: describe it as a circuit", number_text(raw(most), 0)), cite);
  }
  std::optional<Traced<Length>> wanted;
  if (column5) {
    const auto t = cx.table("burial");
    const std::size_t row = location(cx, c, t);
    wanted = cx.cell(t, row, "low-voltage", cx.text("cover asked for, {}", t.cell(row, "place").text()), "Cmin", units::inch);
  } else {
    wanted = cx.parameter("control-burial", "cover", "cover that is good practice", "Cmin", units::inch);
  }
  if (!wanted) cx.not_covered("no cover is printed for this", cite);
  if (!c.cover) {
    if (column5) cx.needs_input("control.cover", cx.text("at least {} in are asked for", number_text(units::inch.show(wanted->value), 1)));
    cx.advise("the run lies in the earth without a raceway", cx.text("use a cable marked for direct burial and lay it at least {} in deep; deeper under drives and beds", number_text(units::inch.show(wanted->value), 1)),
              cite, c.place.where);
    return;
  }
  const auto has = cx.given("cover", "C", c.cover, units::inch);
  const bool binds = column5 || cx.flag("control-burial", "binding");
  Finding& f = binds ? cx.require(has, Must::at_least, *wanted, cite, c.cover.where) : cx.recommend(has, Must::at_least, *wanted, cite, c.cover.where);
  if (f.verdict != Verdict::pass) f.change = cx.text("lay it at least {} in deep", number_text(units::inch.show(wanted->value), 1));
}

}  // namespace

extern const Check check_control_cover{
    .id = "control-cover",
    .title = "Cover of a buried control cable",
    .family = Family::control,
    .about = "A spade finds a shallow cable. For irrigation control and landscape lighting of a low voltage the table of cover has a column of "
             "its own, deeper under driveways and streets. For other Class 2 cable the code names no depth, so a depth is advice. The cable "
             "is marked for direct burial. Buried raceways are looked at by burial-cover.",
    .formula = "C >= Cmin",
    .reads = "control.cover, control.under, control.use, control.place, control.cable.direct_burial, control.source.voltage, supply.dwelling",
    .rules = "burial, burial-low-voltage, control-burial, control-wet",
    .run = run};

}  // namespace pullproof
