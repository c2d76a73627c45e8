#include "derive/laying.hpp"
#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The cord that ends the path, or null.
const Cable* last_cord(Context& cx, const Circuit& c) {
  const Stretch* last = c.path.empty() ? nullptr : &c.path.back();
  if (last == nullptr || last->cable == nullptr) return nullptr;
  derive::type_of(cx, Way(*last->cable));
  return derive::is_cord(cx, *last->cable) ? last->cable : nullptr;
}

/// The cord that comes with a room air conditioner has a longest length by its voltage.
void room_unit(Context& cx, const Circuit& c, const Given<Length>& length) {
  constexpr std::string_view rule = "room-air-conditioner-cord";
  const bool low = derive::line_of(cx, c).to_neutral;
  const auto have = cx.given("length of the cord", "L", length, units::foot);
  const auto most = cx.parameter(rule, low ? "length-120v" : "length-240v", "longest cord", "Lmax", units::foot);
  Finding& f = cx.require(have, Must::at_most, most, cx.cite(rule), length.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use a unit with a cord of at most {}, on a receptacle near it", shown(cx.working().steps()[most.step]));
}

void run(Context& cx, const Circuit& c) {
  const Cable* cord = last_cord(cx, c);
  const Given<Length>& length = c.load.cord_length || cord == nullptr ? c.load.cord_length : cord->length;
  if (cord != nullptr && c.load.cord_length && cord->length && !(at_most(*c.load.cord_length, *cord->length) && at_least(*c.load.cord_length, *cord->length)))
    cx.unclear("load.cord_length", cx.text("load.cord_length is {} and the cord that ends the path, '{}', is {} long: they are the same cord", c.load.cord_length.text,
                                           *cord->name, cord->length.text), c.load.cord_length.where);
  if (cord == nullptr && !length) return void(cx.not_applicable("no cord ends its path"));
  if (!c.load.appliance) return void(cx.not_applicable("the case does not say which appliance it is"));
  if (derive::appliance_word(cx, c, "disconnect") == "room-air-conditioner-plug") {
    cx.need(length, "load.cord_length", "the cord of a room air conditioner has a longest length");
    return room_unit(cx, c, length);
  }
  const auto t = cx.table("cord-lengths");
  const auto row = t.find(*c.load.appliance);
  if (!row) return void(cx.not_applicable(cx.text("no length is set for the cord of a {}", *c.load.appliance), cx.edition().cite(t)));
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
    .family = Family::cables,
    .about = "Built-in kitchen appliances may have a cord of a certain length: long enough to pull them out, too short to get caught. The cord "
             "that ends the path, or the one that comes with the appliance, is held against the lengths for it; where the case gives both they have to agree. That of a room air "
             "conditioner has a longest length by its voltage.",
    .formula = "Lmin <= L <= Lmax",
    .reads = "circuit.path, cable.type, cable.length, load.appliance, load.cord_length, circuit.voltage",
    .rules = "cord-lengths, room-air-conditioner-cord, cable-types, appliances",
    .run = run};

}  // namespace pullproof
