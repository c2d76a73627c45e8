#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The largest insulated conductor in the raceway. Needs the sizes of its circuits.
std::optional<ConductorSize> largest(Context& cx, const Raceway& r) {
  std::optional<ConductorSize> out;
  const auto take = [&](const Given<ConductorSize>& s) {
    if (s && (!out || *s > *out)) out = *s;
  };
  for (const Circuit& c : cx.job().circuits) {
    const Stretch* s = derive::stretch_in(c, r);
    if (s == nullptr || s->cable != nullptr) continue;  // a cable's sheath is its protection
    const Given<ConductorSize>& size = s->wire.size ? s->wire.size : c.wire.size;
    cx.need(size, "wire.size", "large conductors are protected where they enter an enclosure");
    take(size);
  }
  for (const Other& o : r.also)
    if (!o.bare.value_or(false)) take(o.size);
  return out;
}

void run(Context& cx, const Raceway& r) {
  if (r.sleeve.value_or(false)) return void(cx.not_applicable("it only protects and enters no enclosure"));
  derive::type_of(cx, Way(r));
  const bool always = cx.listed("raceway-bushing", "raceways", *r.type);
  const Given<bool>& has = r.more.bushings;
  const std::string_view limit = cx.parameter_text("bushing", "smallest");
  const auto from = ConductorSize::parse(limit);
  std::optional<ConductorSize> size;
  if (!always || !has) size = largest(cx, r);
  const bool large = size && from && *size >= *from;
  if (!always && !large) return void(cx.not_applicable(cx.text("no conductor in it is {} or larger", limit), cx.cite("bushing")));
  const Citation cite = large ? cx.cite("bushing") : derive::section(cx, Way(r), "bushing");
  const std::string_view why = large ? cx.text("{} conductors enter an enclosure only over a smooth insulated fitting", size->label())
                                     : cx.text("{} ends in a bushing or an adapter that keeps the wire from its edge", *r.type);
  cx.need(has, "raceway.bushings", why);
  const bool before = large && cx.flag("bushing", "before");
  if (*has)
    cx.pass(cx.text("its ends have bushings or smooth insulated fittings{}", before ? ", which this edition wants in place before the pull" : ""), cite, has.where);
  else
    cx.fail("its ends have no bushings", cx.text("put on insulating bushings, or connectors with insulated throats{}", before ? ", before the wire is pulled" : ""), cite, has.where);
}

}  // namespace

extern const Check check_bushing{
    .id = "bushing",
    .title = "Bushings at the ends",
    .family = Family::raceways,
    .about = "Heavy wire saws itself open on a sharp edge. From 4 AWG up conductors enter an enclosure over an insulated fitting: an insulating "
             "bushing, a connector with an insulated throat, or a threaded hub. RMC and IMC end in a bushing whatever the wire. From 2023 on it is in place "
             "before the wire is pulled.",
    .formula = "",
    .reads = "raceway.type, raceway.bushings, wire.size, circuit.path",
    .rules = "bushing, raceway-bushing, raceway-sections",
    .run = run};

}  // namespace pullproof
