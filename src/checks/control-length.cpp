#include "calc/control.hpp"
#include "derive/control.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void judge_length(Context& cx, const Control& c) {
  const Unit<Length> unit = derive::units_of(c).length;
  const auto length = derive::run_length(cx, c);
  const auto limit = cx.given(derive::by_the_manual(cx, c, "longest run that the maker allows"), "Lx", c.maximum_length, unit);
  Finding& f = cx.require(length, Must::at_most, limit, cx.cite("control-manual"), c.maximum_length.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("shorten the run to {}, or use a device that allows more", c.maximum_length.text);
}

void judge_resistance(Context& cx, const Control& c) {
  const derive::Loop loop = derive::loop_of(cx, c);
  const auto limit = cx.given(derive::by_the_manual(cx, c, "loop resistance that the maker allows"), "Rx", c.maximum_loop_resistance, units::ohm);
  Finding& f = cx.require(loop.resistance, Must::at_most, limit, cx.cite("control-manual"), c.maximum_loop_resistance.where);
  const auto longest = cx.apply(calc::control::longest_of_resistance, derive::units_of(c).length, {}, limit, loop.own, loop.common);
  const std::string_view size = derive::smallest_size(cx, c, [&](ResistancePerLength r) {
    return at_most(loop.length.value * (r + (loop.alike ? r : loop.common.value)), limit.value);
  });
  const std::string_view far = derive::length_text(cx, c, longest.value);
  const std::string_view here = size.empty() ? std::string_view("no size of control cable would do for this length")
                                             : cx.text("{} would do for this length", size);
  f.beside = cx.choose("smallest size", here, cx.cite("control-sizes"), {longest.step});
  if (f.verdict == Verdict::pass) f.message = cx.text("{}; this cable would do for {}, and {}", f.message, far, here);
  else f.change = cx.text("this cable does for {} at most; {}", far, here);
}

/// A remote whose maker's limit is not given is held against one that is known, as advice.
bool judge_remote(Context& cx, const Control& c) {
  if (c.served == nullptr || !c.served->load.appliance || c.cable.conductors.value_or(2) != 2) return false;
  if (!cx.has_rule("control-length") || !cx.listed("control-length", "appliances", *c.served->load.appliance)) return false;
  const code::RuleRef rule = cx.rule("control-length");
  const auto lengths = rule.list("lengths");
  const std::size_t controllers = std::min(1 + c.also.size(), lengths.size());
  const code::CellRef cell = lengths[controllers - 1];
  const Unit<Length> unit = derive::units_of(c).length;
  const auto limit = cx.working().constant(cx.text("longest run of one maker's remote, controllers: {}", 1 + c.also.size()), "Lx",
                                           Length::from_value(read_quantity(cell.text(), Dimension::length).si), unit,
                                           cx.edition().cite(rule, cell));
  const auto length = derive::run_length(cx, c);
  constexpr std::string_view change = "read the longest run and the smallest conductor in the manual of this remote; give control.maximum_length";
  Finding& f = cx.recommend(length, Must::at_most, limit, cx.cite("control-length"), c.length.where);
  if (f.verdict == Verdict::advice) f.change = change;
  const auto smallest = ConductorSize::parse(cx.parameter_text("control-length", "smallest"));
  if (c.cable.size && smallest && *c.cable.size < *smallest)
    cx.advise(cx.text("{} is smaller than the {} of one maker's remote", c.cable.size->label(), smallest->label()), change,
              cx.cite("control-length"), c.cable.size.where);
  return true;
}

void judge_path(Context& cx, const Control& c) {
  const auto path = derive::path_length(c);
  if (!path || !c.length || at_most(*path, *c.length)) return;
  const Unit<Length> unit = derive::units_of(c).length;
  cx.advise(cx.text("the run is given as {}, but its raceways are {} {} together", c.length.text, number_text(unit.show(*path), 1), unit.name),
            "give control.length from the source to the device, with the ends outside of raceways", cx.cite("control-path"), c.length.where);
}

void run(Context& cx, const Control& c) {
  const std::size_t before = cx.findings();
  judge_path(cx, c);
  if (c.maximum_length) judge_length(cx, c);
  if (c.maximum_loop_resistance) judge_resistance(cx, c);
  if (c.maximum_length || c.maximum_loop_resistance || judge_remote(cx, c) || cx.findings() > before) return;
  cx.not_applicable("its maker's limit is not given (control.maximum_length or control.maximum_loop_resistance); read the manual for one");
}

}  // namespace

extern const Check check_control_length{
    .id = "control-length",
    .title = "Length of the control run",
    .family = Family::control,
    .about = "Makers of remotes, thermostats and sensors say how far they may be, or how much resistance the loop may have; their word "
             "binds and beats any general rule, for the device's timing and signal may fail long before its supply does. The run is held "
             "against both. A remote of an on-demand gas water heater without its maker's word is held against one maker's, as advice.",
    .formula = "L <= Lx; R = 2 * L * r <= Rx",
    .reads = "control.length, control.path, control.cable, control.maximum_length, control.maximum_loop_resistance, control.manual, control.serves, control.also",
    .rules = "control-manual, control-length, control-path, control-sizes, control-power-limit, small-gauge, metric-conductors, "
             "conductor-properties, conductor-material, copper-temperature, control-temperature, control-stranding",
    .run = run};

}  // namespace pullproof
