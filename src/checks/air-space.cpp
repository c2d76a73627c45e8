#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Way& w) {
  const bool duct = w.has(Place::duct), plenum = w.has(Place::plenum);
  if (!duct && !plenum) return void(cx.not_applicable("it is not in a duct or another space for air"));
  const std::string_view type = derive::type_of(cx, w);
  const std::string_view said = derive::permission(cx, w, duct ? "duct" : "plenum");
  const Citation cite = cx.cite(duct ? "ducts" : "air-spaces");
  if (said == "yes") return void(cx.pass(cx.text("{} may be in {}", type, duct ? "a duct, for equipment that acts on the air" : "a space for air"), cite, w.place().where));
  if (said == "short") {
    cx.need(w.length(), derive::key(cx, w, "length"), "in a duct it may only be short");
    const auto have = cx.given("length in the duct", "L", w.length(), units::foot);
    const auto most = cx.parameter("ducts", "flexible-length", "length that flexible conduit may have in a duct", "Lmax", units::foot);
    Finding& f = cx.require(have, Must::at_most, most, cite, w.length().where);
    if (f.verdict == Verdict::fail) f.change = "use EMT for the longer part";
    return;
  }
  if (!duct && w.cable != nullptr && w.laid().plenum_rated.value_or(false))
    return void(cx.pass(cx.text("{} listed for spaces for air", type), cite, w.laid().plenum_rated.where));
  if (duct) return void(cx.fail(cx.text("{} may not be in a duct: only metal without gaps and without plastic over it may", type), "use EMT, or a short piece of FMC", cite, w.type().where));
  cx.fail(cx.text("{} may not be in a space for air: it feeds smoke to the air", type), "use EMT, FMC or MC without a plastic jacket", cite, w.type().where);
}

}  // namespace

extern const Check check_air_space{
    .id = "air-space",
    .title = "Wiring in ducts and spaces for air",
    .family = Family::places,
    .about = "Plastic that burns in the air stream smokes out the house. In spaces through which air is returned, such as above a "
             "ceiling (place \"plenum\"), only metal raceways and cables without plastic over the metal, or cable listed for such spaces, may run. "
             "In a duct made to carry air (place \"duct\") only the wiring of equipment that acts on the air, in metal, with flexible "
             "conduit up to 4 ft.",
    .formula = "L <= Lmax",
    .reads = "raceway.type, raceway.place, raceway.length, cable.type, cable.place, cable.plenum_rated",
    .rules = "ducts, air-spaces, raceway-types, cable-types",
    .run = run};

}  // namespace pullproof
