#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Raceway& r) {
  const Way w(r);
  derive::type_of(cx, w);
  if (derive::buried(w)) return void(cx.not_applicable("in the ground it does not get that hot"));
  if (!cx.listed("pvc-ambient", "raceways", *r.type)) return void(cx.not_applicable("its article sets no ambient; a mark on it may", cx.cite("pvc-ambient")));
  const Citation cite = derive::section(cx, w, "hot");
  const auto most = cx.parameter("pvc-ambient", "temperature", "ambient that it may have", "Tmax", units::celsius);
  Traced<Temperature> have;
  if (r.ambient) {
    have = cx.given("ambient temperature", "T", r.ambient, units::celsius);
  } else {
    if (w.has(Place::rooftop) || w.has(Place::attic)) cx.needs_input("raceway.ambient", "an attic or a roof may be too hot for it");
    const Temperature reference = cx.parameter("ambient-correction", "reference", units::celsius);
    have = cx.assume("ambient temperature", "T", reference, units::celsius,
                     cx.text("the ambient of '{}' is not given: taken as {} °C", *r.name, number_text(reference.celsius, 1)), cx.cite("ambient-correction"));
  }
  Finding& f = cx.require(have, Must::at_most, most, cite, r.ambient.where);
  if (f.verdict == Verdict::fail) f.change = "use metal raceway there, or conduit that is listed for the heat";
}

}  // namespace

extern const Check check_raceway_heat{
    .id = "raceway-heat",
    .title = "Plastic raceway in the heat",
    .family = Family::raceways,
    .about = "PVC, HDPE and ENT soften where it is hot: they are not for places hotter than 50 °C (122 °F) unless they are listed for "
             "it. Attics and roofs come near that. Where the case gives no ambient, and names neither, the reference ambient of the "
             "ampacity tables is taken.",
    .formula = "T <= Tmax",
    .reads = "raceway.type, raceway.ambient, raceway.place",
    .rules = "pvc-ambient, ambient-correction, raceway-sections",
    .run = run};

}  // namespace pullproof
