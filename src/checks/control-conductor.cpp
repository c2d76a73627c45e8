#include "derive/control.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

bool in_list(Context& cx, std::string_view rule, const ControlCable& k) {
  return k.type && cx.has_rule(rule) && cx.listed(rule, "types", *k.type);
}

/// A metal other than copper in a cable of the limited-energy sort.
void judge_metal(Context& cx, const Control& c) {
  const ControlCable& k = c.cable;
  const Material m = *k.material;
  if (c.copper_only.value_or(false)) {
    cx.fail(cx.text("the device's maker asks for copper, and the conductors are {}", word(m)), "use a copper cable", cx.cite("control-manual"), k.material.where);
    return;
  }
  if (in_list(cx, "poe-copper", k)) {
    cx.fail(cx.text("{} conductors in {} cable, which is listed with copper alone", word(m), *k.type), "use a copper cable", cx.cite("poe-copper"), k.material.where);
    return;
  }
  if (m == Material::aluminum) {
    if (in_list(cx, "control-copper-clad", k))
      cx.advise(cx.text("aluminum conductors in {} cable: no such cable is known to be listed", *k.type), "use a copper cable, or one of copper-clad aluminum that is listed", cx.cite("control-aluminum"),
                k.material.where);
    else cx.needs_input("control.cable.type", "whether aluminum is permitted goes by the cable's type");
    return;
  }
  const auto size = ConductorSize::parse(cx.parameter_text("control-copper-clad", "size"));
  const Citation cite = cx.cite("control-copper-clad");
  cx.need(k.size, "control.cable.size", "copper-clad aluminum is listed in one size");
  if (in_list(cx, "control-copper-clad", k) && size && *k.size == *size) {
    cx.pass(cx.text("{} of copper-clad aluminum is listed for thermostat cable, and does like {} of copper", k.size->label(), cx.parameter_text("control-copper-clad", "like")), cite, k.size.where);
    return;
  }
  cx.advise(cx.text("copper-clad aluminum of {}{}: it is known to be listed in {} thermostat cable alone", k.size->label(), k.type ? cx.text(" in {}", *k.type) : std::string_view{},
                    size ? size->label() : std::string_view{}),
            "read the mark on the jacket; use copper where it does not say so", cite, k.material.where);
}

void run(Context& cx, const Control& c) {
  const ControlCable& k = c.cable;
  if (c.smallest_size) {
    cx.need(k.size, "control.cable.size", "the device's maker names the smallest");
    if (*k.size >= *c.smallest_size)
      cx.pass(derive::by_the_manual(cx, c, cx.text("{} is no smaller than the {} that the device's maker permits", k.size->label(), c.smallest_size->label())),
              cx.cite("control-manual"), k.size.where);
    else
      cx.fail(derive::by_the_manual(cx, c, cx.text("{} is smaller than the {} that the device's maker permits", k.size->label(), c.smallest_size->label())),
              cx.text("use {} or larger", c.smallest_size->label()), cx.cite("control-manual"), k.size.where);
  }
  if (c.copper_only.value_or(false) && !k.material) cx.needs_input("control.cable.material", "the device's maker asks for copper");
  if (k.material && *k.material != Material::copper) return judge_metal(cx, c);
  if (c.copper_only.value_or(false)) return void(cx.pass("copper conductors, as the device's maker asks for", cx.cite("control-manual"), k.material.where));
  if (!c.smallest_size) cx.not_applicable("nothing but copper is named, and the maker's smallest size is not given (control.smallest_size)");
}

}  // namespace

extern const Check check_control_conductor{
    .id = "control-conductor",
    .title = "Metal and smallest size of control conductors",
    .family = Family::control,
    .about = "Copper-clad aluminum looks like copper and has over half as much again of its resistance; data cable with it has no listing and "
             "overheats under power. It is listed in one size of thermostat cable, which does like copper two gauges smaller. What the "
             "device's maker says of the metal and of the smallest conductor binds. The drop is worked out with the metal's own resistance "
             "by the checks of drop and length.",
    .formula = "",
    .reads = "control.cable.material, control.cable.size, control.cable.type, control.smallest_size, control.copper_only, control.manual",
    .rules = "control-manual, poe-copper, control-copper-clad, control-aluminum",
    .run = run};

}  // namespace pullproof
