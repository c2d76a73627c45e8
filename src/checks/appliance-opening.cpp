#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The hole for a trade size, in inches as a text; empty when it is not known.
std::string hole(const Context& cx, const TradeSize& size) {
  const auto t = cx.edition().table("knockouts");
  const auto row = t ? t->find(size.label()) : std::nullopt;
  const auto d = row ? t->cell(*row, "nominal").number() : std::nullopt;
  return d ? fmt::format(" ({} in)", number_text(*d, 3)) : "";
}

void run(Context& cx, const Circuit& c) {
  const Given<TradeSize>& opening = c.load.opening;
  if (!opening) return void(cx.not_applicable("the case does not name the opening of the equipment (load.opening)"));
  if (c.path.empty()) cx.needs_input("circuit.path", "the last piece of the path enters the equipment");
  const Stretch& last = c.path.back();
  if (last.raceway == nullptr) return void(cx.not_applicable("a cable enters by a connector of its own"));
  const Given<TradeSize>& size = last.raceway->size;
  cx.need(size, "raceway.size", "it is held against the opening of the equipment");
  const Citation cite = cx.cite("entry-fit");
  if (*size == *opening) return void(cx.pass(cx.text("trade size {} fits the opening", size->label()), cite, opening.where));
  if (*size < *opening) {
    if (c.load.reducer.value_or(false)) return void(cx.pass(cx.text("a reducer brings trade size {} into an opening of {}", size->label(), opening->label()), cite, c.load.reducer.where));
    cx.fail(cx.text("trade size {} sits loose in an opening of {}{}", size->label(), opening->label(), hole(cx, *opening)),
            "use listed reducing washers or a reducing bushing (load.reducer), or a larger last piece", cite, opening.where);
    return;
  }
  cx.fail(cx.text("trade size {} does not go into an opening of {}", size->label(), opening->label()),
          cx.text("end in trade size {}, or enlarge the hole for {}{} where the equipment permits it", opening->label(), size->label(), hole(cx, *size)), cite, opening.where);
}

}  // namespace

extern const Check check_appliance_opening{
    .id = "appliance-opening",
    .title = "Raceway fits the equipment's opening",
    .family = Family::raceways,
    .about = "Equipment comes with knockouts of certain trade sizes. The last piece of raceway is held against the one that it enters by: a "
             "smaller one needs listed reducing washers or a bushing, a larger one does not go in.",
    .formula = "",
    .reads = "load.opening, load.reducer, circuit.path, raceway.size",
    .rules = "entry-fit, knockouts",
    .run = run};

}  // namespace pullproof
