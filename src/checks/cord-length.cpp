#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Stretch* last = c.path.empty() ? nullptr : &c.path.back();
  if (last == nullptr || last->cable == nullptr) return void(cx.not_applicable("no cord ends its path"));
  derive::type_of(cx, Way(*last->cable));
  if (!derive::is_cord(cx, *last->cable)) return void(cx.not_applicable("no cord ends its path"));
  if (!c.load.appliance) return void(cx.not_applicable("the case does not say which appliance it is"));
  const auto t = cx.table("cord-lengths");
  const auto row = t.find(*c.load.appliance);
  if (!row) return void(cx.not_applicable(cx.text("no length is set for the cord of a {}", *c.load.appliance), cx.edition().cite(t)));
  const Given<Length>& length = last->cable->length;
  cx.need(length, "cable.length", cx.text("the cord of a {} has a shortest and a longest length", *c.load.appliance));
  const auto have = cx.given("length of the cord", "L", length, units::inch);
  const Citation cite = cx.edition().cite(t);
  const auto most = cx.cell(t, *row, "longest", "longest cord", "Lmax", units::inch);
  const auto least = cx.cell(t, *row, "shortest", "shortest cord", "Lmin", units::inch);
  Finding& f = cx.require(have, Must::at_most, *most, cite, length.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use a cord of at most {}", shown(cx.working().steps()[most->step]));
  if (at_least(have.value, least->value)) return;
  Finding& g = cx.require(have, Must::at_least, *least, cite, length.where);
  g.change = cx.text("use a cord of at least {}", shown(cx.working().steps()[least->step]));
}

}  // namespace

extern const Check check_cord_length{
    .id = "cord-length",
    .title = "Length of an appliance's cord",
    .about = "Built-in kitchen appliances may have a cord of a certain length: long enough to pull them out, too short to get caught. The cord "
             "that ends the path is held against the lengths for its appliance.",
    .formula = "Lmin <= L <= Lmax",
    .reads = "circuit.path, cable.type, cable.length, load.appliance",
    .rules = "cord-lengths, cable-types",
    .run = run};

}  // namespace pullproof
