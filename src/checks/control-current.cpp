#include "derive/ampacity.hpp"
#include "derive/control-loads.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// What a table permits a conductor, and the device that protects it where the table names one.
struct Permitted {
  std::optional<Traced<Current>> load, device;
  Citation cite;
};

/// The largest row of a table of sizes that is not above this size: sizes between the printed ones take the smaller's.
std::optional<std::size_t> row_not_above(const code::TableRef& t, const ConductorSize& size) {
  std::optional<std::size_t> best;
  std::optional<ConductorSize> of_best;
  for (std::size_t r = 0; r < t.rows(); ++r) {
    const auto s = ConductorSize::parse(t.cell(r, "size").text());
    if (s && *s <= size && (!of_best || *s > *of_best)) best = r, of_best = s;
  }
  return best;
}

/// Building-wire sizes: their ampacity without the factors of the place, which protects them as well.
std::optional<Permitted> by_ampacity(Context& cx, const Control& c, const ConductorSize& size) {
  const auto t = cx.table("ampacity");
  const auto row = row_not_above(t, size);
  if (!row) return std::nullopt;
  const int column = static_cast<int>(cx.parameter("class1-size", "column", units::count));
  const auto a = cx.cell(t, *row, derive::ampacity_column(c.cable.material.value_or(Material::copper), column),
                         cx.text("ampacity of {}, {} °C column", t.cell(*row, "size").text(), column), "Iz", units::ampere);
  if (!a) return std::nullopt;
  return Permitted{a, a, cx.edition().cite(t)};
}

/// 18 and 16 AWG in Class 1 circuits; larger sizes by their ampacity; nothing below 18 AWG.
std::optional<Permitted> class1_permits(Context& cx, const Control& c, const ConductorSize& size) {
  const auto small = cx.table("class1-small");
  const auto row = row_not_above(small, size);
  if (!row) return std::nullopt;
  if (auto larger = by_ampacity(cx, c, size)) return larger;
  const std::string_view label = small.cell(*row, "size").text();
  Permitted p;
  p.load = cx.cell(small, *row, "load", cx.text("largest load on {}", label), "Iz", units::ampere);
  p.device = cx.cell(small, *row, "ocpd", cx.text("largest device for {}", label), "Ix", units::ampere);
  p.cite = cx.edition().cite(small, *row, small.column("load"));
  return p;
}

/// A sensible limit where the code has none: the first row of this size in the table of bundles is that of the
/// smallest bundle.
std::optional<Permitted> limited_permits(Context& cx, const Control& c, const ConductorSize& size) {
  if (cx.has_table("class1-small"))
    if (auto p = class1_permits(cx, c, size)) {
      p->cite = cx.cite("control-current");
      return p;
    }
  const auto bundles = cx.table("poe-ampacity");
  const auto row = row_not_above(bundles, size);
  if (!row) return std::nullopt;
  const std::size_t first = cx.row(bundles, bundles.cell(*row, "size").text());
  Permitted p;
  p.load = cx.cell(bundles, first, "amps-60", cx.text("usual current in {}", bundles.cell(first, "size").text()), "Iz", units::ampere);
  p.cite = cx.cite("control-current");
  return p;
}

/// The device in front of a Class 1 run.
void judge_device(Context& cx, const Control& c, const Traced<Current>& most) {
  const auto& device = c.source.overcurrent;
  if (!device) {
    Stop stop;
    stop.message = "control.source.overcurrent is not given: a device protects the conductors of a Class 1 run";
    stop.missing = "control.source.overcurrent";
    stop.cite = cx.cite("class1-size");
    stop.where = c.source.where;
    cx.stopped(stop);
    return;
  }
  const auto rating = cx.given("overcurrent device of the run", "In", device, units::ampere);
  Finding& f = cx.require(rating, Must::at_most, most, cx.cite("class1-size"), device.where);
  if (f.verdict == Verdict::fail) f.change = "a smaller device, or larger conductors";
}

/// The current of one conductor against what its size is permitted.
void judge(Context& cx, const Control& c, int klass, const Given<ConductorSize>& size, const Traced<Current>& current, bool protects) {
  const auto p = klass == 1 ? class1_permits(cx, c, *size) : limited_permits(cx, c, *size);
  if (klass == 1 && !p) {
    cx.fail(cx.text("{} is too small for a Class 1 conductor", size->label()), cx.text("use {} or larger", cx.table("class1-small").cell(0, "size").text()), cx.cite("class1-size"), size.where);
    return;
  }
  if (!p || !p->load) cx.not_covered(cx.text("no current is known for {}", size->label()), cx.cite("control-current"));
  const bool binds = klass == 1 || cx.flag("control-current", "binding");
  Finding& f = binds ? cx.require(current, Must::at_most, *p->load, p->cite, size.where) : cx.recommend(current, Must::at_most, *p->load, p->cite, size.where);
  if (f.verdict != Verdict::pass) f.change = "use larger conductors";
  if (klass == 1 && protects && p->device) judge_device(cx, c, *p->device);
}

void run(Context& cx, const Control& c) {
  const bool drawn = derive::says_what_it_draws(c.load);
  if (!c.cable.size && !drawn) {
    cx.not_applicable("neither the conductors nor what the device draws are given");
    return;
  }
  const int klass = derive::wiring_class(cx, c);
  cx.need(c.cable.size, "control.cable.size", "what it may carry follows from it");
  if (!drawn && klass != 1) {
    cx.not_applicable("what the device draws is not given; the source keeps the current of the run small");
    return;
  }
  const auto source = derive::source_voltage(cx, c);
  const auto devices = derive::devices_of(cx, c, source);
  const auto total = derive::total_current(cx, c, source, devices);
  // The common conductor carries it all; a smaller one of its own device carries less.
  const bool alone = devices.size() == 1;
  if (alone || !c.cable.common_size) return judge(cx, c, klass, c.cable.size, total, true);
  judge(cx, c, klass, c.cable.common_size, total, false);
  for (const derive::ControlDevice& d : devices)
    if (d.current) judge(cx, c, klass, c.cable.size, *d.current, &d == &devices.front());
}

}  // namespace

extern const Check check_control_current{
    .id = "control-current",
    .title = "Current in the control conductors",
    .family = Family::control,
    .about = "Thin wire behind a source of its class cannot burn, for the source gives out first; wired as Class 1 it can. 18 and 16 AWG "
             "have a largest load and, apart from it, a largest device in Class 1 circuits; larger conductors go by their ampacity without "
             "the factors of the place, and smaller ones are not permitted. For Class 2 and 3 the code has no ampacity; the current is "
             "held against the nearest table, as advice. The common conductor carries the current of all loads.",
    .formula = "I <= Iz; In <= Ix",
    .reads = "control.source.class, control.reclassified, control.source.overcurrent, control.cable.size, control.cable.common_size, "
             "control.cable.material, control.load, control.also",
    .rules = "class1-small, class1-size, ampacity, poe-ampacity, control-current",
    .run = run};

}  // namespace pullproof
