#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Circuit& c) {
  const Stretch* last = c.path.empty() ? nullptr : &c.path.back();
  if (last == nullptr || last->cable == nullptr) return void(cx.not_applicable("no cord ends its path"));
  derive::type_of(cx, Way(*last->cable));
  if (!derive::is_cord(cx, *last->cable)) return void(cx.not_applicable("no cord ends its path"));
  const Citation cite = cx.cite("cord-appliance");
  const Given<bool>& permitted = c.load.cord_permitted;
  if (permitted.value_or(false)) return void(cx.pass("its maker provides for a cord", cite, permitted.where));
  const Given<std::string_view>& appliance = c.load.appliance;
  const bool fixed = appliance && cx.listed("cord-appliance", "fixed", *appliance);
  if (permitted || fixed) {
    cx.fail(fixed ? cx.text("{} on a cord: it stays where it is and is not made for one", *appliance) : "a cord, though its maker does not provide for one",
            "wire it by a raceway or cable, unless its instructions provide for a cord (load.cord_permitted)", cite, last->where);
    return;
  }
  cx.need(appliance, "load.appliance", "a cord feeds only appliances that are made for one");
  if (cx.listed("cord-appliance", "usual", *appliance)) return void(cx.pass(cx.text("{}: commonly made for a cord", *appliance), cite, appliance.where));
  cx.needs_input("load.cord_permitted", "a cord feeds only an appliance whose maker's instructions provide for one");
}

}  // namespace

extern const Check check_cord_appliance{
    .id = "cord-appliance",
    .title = "Appliance on a cord",
    .family = Family::cables,
    .about = "A cord feeds an appliance only where its maker identifies it for one and it is made to be taken away for service or has to move. "
             "Water heaters, furnaces, heat pumps and other equipment that stays are wired by a raceway or cable. Where the circuit ends in a cord, its "
             "appliance is held against what is commonly made for one; what the maker says comes first.",
    .formula = "",
    .reads = "circuit.path, cable.type, load.appliance, load.cord_permitted",
    .rules = "cord-appliance, cable-types",
    .run = run};

}  // namespace pullproof
