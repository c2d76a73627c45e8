#include "calc/load.hpp"
#include "derive/load.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// Figures of one load that say the same thing twice: within a share of one another, or one of them is wrong.
void agree(Context& cx, const Traced<Current>& given, const Traced<Current>& other, std::string_view from, Where where) {
  const auto apart = cx.apply(calc::apart, units::percent, cx.cite("load-agreement"), given, other);
  const auto most = cx.parameter("load-agreement", "percent", "difference that rounding explains", "p", units::percent);
  Finding& f = cx.recommend(apart, Must::at_most, most, cx.cite("load-agreement"), where);
  f.message = cx.text("the nameplate's {} A and the {} A of its {} {}", number_text(raw(given.value), 2), number_text(raw(other.value), 2), from,
                      f.verdict == Verdict::pass ? "agree" : "contradict one another");
  if (f.verdict != Verdict::pass) f.change = "read the nameplate again: voltage, current, power and power factor belong together";
}

void run(Context& cx, const Circuit& c) {
  const derive::Line line = derive::line_of(cx, c);
  const Load& l = c.load;
  const auto current = derive::load_current(cx, c, line);
  const Citation plate = cx.cite("nameplate");
  const auto& source = cx.working().steps()[current.step];
  cx.pass(cx.text("{} {} A{}", source.name, number_text(raw(current.value), 2), source.kind == Step::Kind::given ? ", as given" : ", worked out"),
          plate, l.where, current.step);

  if (l.power && l.apparent_power) {
    const auto p = cx.given("power", "P", l.power, units::watt);
    const auto s = cx.given("apparent power", "S", l.apparent_power, units::volt_ampere);
    Finding& f = cx.require(p, Must::at_most, s, plate, l.power.where);
    if (f.verdict == Verdict::fail) f.change = "read the nameplate again: watts are never more than volt-amperes";
  }
  if (l.current && (l.apparent_power || l.power)) {
    Circuit without = c;
    without.load.current.present = false;
    const auto other = derive::load_current(cx, without, line);
    agree(cx, current, other, l.apparent_power ? "volt-amperes" : l.power_factor ? "watts and power factor" : "watts at power factor 1",
          l.current.where);
  }
  if (l.minimum_circuit_ampacity && (l.current || l.apparent_power || l.power)) {
    const auto marked = cx.given("marked minimum circuit ampacity", "MCA", l.minimum_circuit_ampacity, units::ampere);
    Finding& f = cx.require(current, Must::at_most, marked, cx.cite("marked-minimum"), l.minimum_circuit_ampacity.where);
    if (f.verdict == Verdict::fail) f.change = "read the nameplate again: the minimum circuit ampacity has the load in it";
  }
  if (l.continuous_current) {
    const auto part = cx.given("continuous part", "C", l.continuous_current, units::ampere);
    Finding& f = cx.require(part, Must::at_most, current, plate, l.continuous_current.where);
    if (f.verdict == Verdict::fail) f.change = "read the nameplate again: the continuous part belongs to the whole load";
  }
  if (l.maximum_device && l.minimum_circuit_ampacity && !at_least(*l.maximum_device, *l.minimum_circuit_ampacity))
    cx.advise("the marked maximum device is below the marked minimum circuit ampacity", "read the nameplate again, or ask its maker",
              cx.cite("marked-maximum"), l.maximum_device.where);
}

}  // namespace

extern const Check check_load_current{
    .id = "load-current",
    .title = "Load current",
    .family = Family::load,
    .about = "Everything is sized from the current of the load. It is taken from the nameplate: amperes, else volt-amperes over "
             "the voltage, else watts over the voltage and the power factor, else the marked minimum circuit ampacity. Figures that "
             "contradict one another are pointed out, since one of them was read wrong: amperes against watts, a minimum circuit "
             "ampacity below the load, a continuous part above the whole.",
    .formula = "I = S / V, I = P / (V * pf); three phases: over sqrt(3)",
    .reads = "circuit.voltage, circuit.phases, load.current, load.power, load.apparent_power, load.power_factor, "
             "load.continuous_current, load.minimum_circuit_ampacity, load.maximum_device",
    .rules = "nameplate, load-agreement, marked-minimum, marked-maximum, supply-voltage",
    .run = run};

}  // namespace pullproof
