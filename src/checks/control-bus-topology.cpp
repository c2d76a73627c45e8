#include "calc/signal.hpp"
#include "derive/bus.hpp"
#include "derive/control.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// A bus of one kind, and how strictly its standard is meant.
class Judge {
 public:
  Judge(Context& cx, const Control& c, const derive::BusKind& kind) : cx_(cx), c_(c), bus_(c.bus), kind_(kind) {}

  void run() {
    nodes();
    topology();
    terminations();
    stubs();
    cable();
  }

 private:
  std::string_view name() const { return *bus_.kind; }
  void wrong(bool binds, std::string_view message, std::string_view change, const Citation& cite, Where where) {
    if (binds) cx_.fail(message, change, cite, where);
    else cx_.advise(message, change, cite, where);
  }
  template <class Q>
  Finding& hold(bool binds, const Traced<Q>& has, const Traced<Q>& limit, const Citation& cite, Where where) {
    return binds ? cx_.require(has, Must::at_most, limit, cite, where) : cx_.recommend(has, Must::at_most, limit, cite, where);
  }

  void nodes() {
    const auto table = kind_.number("nodes"), loads = kind_.number("unit-loads");
    if (!table && !loads && !bus_.maximum_nodes) return;
    cx_.need(bus_.nodes, "control.bus.nodes", "each device loads the bus");
    const auto n = cx_.given("devices on the bus", "n", bus_.nodes, units::count);
    if (bus_.maximum_nodes) {
      Finding& f = cx_.require(n, Must::at_most, cx_.given(derive::by_the_manual(cx_, c_, "devices that their maker permits"), "nx", bus_.maximum_nodes, units::count), cx_.cite("control-manual"), bus_.nodes.where);
      if (f.verdict == Verdict::fail) f.change = "put some of them on another bus, or part it by a repeater";
      return;
    }
    if (table) {
      const auto most = *cx_.cell(kind_.table, kind_.row, "nodes", cx_.text("devices that {} permits", name()), "nx", units::count);
      Finding& f = hold(kind_.binds, n, most, kind_.cite, bus_.nodes.where);
      if (f.verdict != Verdict::pass) f.change = "put some of them on another bus";
      return;
    }
    const auto each = bus_.unit_load ? cx_.given("unit load of one device", "ul", bus_.unit_load, units::ratio)
                                     : cx_.assume("unit load of one device", "ul", 1.0, units::ratio, "control.bus.unit_load is not given: each device is taken as one unit load", kind_.cite);
    const auto all = cx_.apply(calc::signal::unit_loads, units::ratio, kind_.cite, n, each);
    const auto most = *cx_.cell(kind_.table, kind_.row, "unit-loads", cx_.text("unit loads that {} permits", name()), "ux", units::ratio);
    Finding& f = hold(kind_.binds, all, most, kind_.cite, bus_.nodes.where);
    if (f.verdict != Verdict::pass) f.change = "give the unit load of the devices by their data sheet (control.bus.unit_load), or part the bus by a repeater";
  }

  void topology() {
    cx_.need(bus_.topology, "control.bus.topology", "how the devices hang on the cable decides whether signals come back as echoes");
    const std::string_view has = word(*bus_.topology);
    if (bus_.any_topology.value_or(false)) return void(cx_.pass(derive::by_the_manual(cx_, c_, cx_.text("a {} is permitted by the devices' maker", has)), cx_.cite("control-manual"), bus_.any_topology.where));
    const std::string_view takes = kind_.cell("topologies");
    if (takes.find(has) != std::string_view::npos) return void(cx_.pass(cx_.text("{} may be wired as a {}", name(), has), kind_.cite, bus_.topology.where));
    wrong(kind_.binds, cx_.text("the bus is wired as a {}; {} takes: {}", has, name(), takes), "loop it from device to device, with a repeater or hub where branches cannot be avoided",
          kind_.cite, bus_.topology.where);
  }

  /// Whether echoes have died down long before a bit is read, so that missing resistors do no harm.
  bool slow_and_short() {
    if (kind_.cell("short") != "yes" || !bus_.bit_rate || !(c_.length || !c_.path.empty())) return false;
    const auto length = derive::bus_length(cx_, c_);
    const auto delay = cx_.parameter("bus-short", "delay-ns", "delay of a line, ns in a metre", "d", units::ratio);
    const auto k = cx_.apply(calc::signal::echo, units::percent, cx_.cite("bus-short"), length, delay, cx_.given("bit rate", "f", bus_.bit_rate, units::kilobit));
    return at_most(k.value, cx_.parameter("bus-short", "percent", units::percent));
  }

  void terminations() {
    const auto wanted = kind_.number("terminations");
    if (!wanted) return;
    const double n = *wanted;
    const std::string_view ohms = kind_.number("termination") ? cx_.text(" of {} ohm", number_text(*kind_.number("termination"), 0)) : std::string_view{};
    const std::string_view count = cx_.text("terminating resistors: {}; {} takes {}", bus_.terminations ? bus_.terminations.text : std::string_view("none given"), name(), number_text(n, 0));
    if (n == 0) {
      if (bus_.terminations.value_or(0) > 0)
        wrong(kind_.binds, cx_.text("terminating resistors: {}; {} takes none", bus_.terminations.text, name()), "take them out", kind_.cite, bus_.terminations.where);
      return;
    }
    cx_.need(bus_.terminations, "control.bus.terminations", cx_.text("{} takes a resistor{} at each of its two ends", name(), ohms));
    const double has = *bus_.terminations;
    if (has > n) {
      wrong(kind_.binds, cx_.text("{}, and more of them load the drivers", count),
            cx_.text("leave one{} at each end, and switch off the others, inside devices as well", ohms), kind_.cite, bus_.terminations.where);
    } else if (has < n) {
      const bool harmless = slow_and_short();
      wrong(kind_.binds && !harmless, cx_.text("{}{}", count, harmless ? ", and it is short and slow enough to work without" : ", and signals come back from an open end"),
            cx_.text("put one{} at each end", ohms), harmless ? cx_.cite("bus-short") : kind_.cite, bus_.terminations.where);
    } else if (bus_.termination_at_ends && !*bus_.termination_at_ends) {
      wrong(kind_.binds, "the terminating resistors are not at the two ends", cx_.text("put one{} at each end", ohms), kind_.cite, bus_.termination_at_ends.where);
    } else {
      if (!bus_.termination_at_ends) cx_.assume("ends", "control.bus.termination_at_ends is not given: the resistors are taken to be at the two ends of the trunk");
      cx_.pass(cx_.text("{} terminating resistors, one at each end", number_text(n, 0)), kind_.cite, bus_.terminations.where);
    }
    if (bus_.termination && kind_.number("termination") && std::abs(raw(*bus_.termination) / *kind_.number("termination") - 1) > cx_.parameter("bus-short", "resistor", units::percent))
      cx_.advise(cx_.text("terminating resistors of {}, and {} takes some{}", bus_.termination.text, name(), ohms), "match them to the cable's impedance", kind_.cite, bus_.termination.where);
  }

  void stubs() {
    const bool branched = bus_.stub_length.present;
    if (bus_.maximum_stub) {
      cx_.need(bus_.stub_length, "control.bus.stub_length", "the devices' maker bounds the branches");
      Finding& f = cx_.require(cx_.given("longest branch", "Ls", bus_.stub_length, units::metre), Must::at_most,
                               cx_.given(derive::by_the_manual(cx_, c_, "branch that the devices' maker permits"), "Lsx", bus_.maximum_stub, units::metre), cx_.cite("control-manual"), bus_.stub_length.where);
      if (f.verdict == Verdict::fail) f.change = "loop the trunk through the device instead of branching off to it";
      return;
    }
    const auto lengths = cx_.table("bus-lengths");
    if (kind_.by_rate && !bus_.bit_rate && !branched) return;  // 'control-bus-length' asks for the bit rate
    const auto row = derive::bus_lengths(cx_, c_, kind_, lengths);
    const bool limited = row && lengths.cell(*row, "stub").number();
    if (!branched) {
      if (limited) cx_.assume("branches", "control.bus.stub_length is not given: the trunk is taken to loop from device to device, without branches");
      return;
    }
    if (!limited) return void(cx_.advise(cx_.text("no length of a branch is known for {} at this bit rate", name()), "keep branches as short as can be, or read the devices' manual (control.bus.maximum_stub)",
                                         kind_.cite, bus_.stub_length.where));
    Citation cite = cx_.edition().cite(lengths, *row, lengths.column("stub"));
    cite.clause = kind_.cite.clause;
    Finding& f = hold(lengths.cell(*row, "stub-binds").yes(), cx_.given("longest branch", "Ls", bus_.stub_length, units::metre),
                      *cx_.cell(lengths, *row, "stub", "usual limit of a branch at this bit rate", "Lsx", units::metre), cite, bus_.stub_length.where);
    if (f.verdict != Verdict::pass) f.change = "loop the trunk through the device instead of branching off to it";
  }

  void property(std::string_view column, const Given<bool>& has, std::string_view key, std::string_view what, bool implied) {
    if (kind_.cell(column) != "yes") return;
    if (!has && implied) return;
    cx_.need(has, key, cx_.text("{} asks for {}", name(), what));
    if (*has) return;
    cx_.advise(cx_.text("{} asks for {}, and this cable is none", name(), what), cx_.text("use {}", what), cx_.cite("bus-cable"), has.where);
  }
  void cable() {
    const bool data = c_.cable.type && cx_.has_rule("poe-copper") && cx_.listed("poe-copper", "types", *c_.cable.type);
    property("twisted", c_.cable.twisted, "control.cable.twisted", "a cable of twisted pairs", data);
    property("shielded", c_.cable.shielded, "control.cable.shielded", "a shielded cable", false);
  }

  Context& cx_;
  const Control& c_;
  const Bus& bus_;
  const derive::BusKind& kind_;
};

void run(Context& cx, const Control& c) {
  if (!derive::carries_bus(c)) return void(cx.not_applicable("no bus or data link of this run is described (control.bus)"));
  const derive::BusKind kind = derive::bus_kind(cx, c);
  const Bus& b = c.bus;
  if (kind.cell("topologies").empty() && !b.maximum_nodes && !b.maximum_stub && !b.any_topology) {
    cx.advise("how this link is laid out and ended is in its manual alone", "read the manual, and give control.bus.maximum_nodes, maximum_stub or any_topology by it",
              cx.cite("control-manual"), b.kind.where);
    return;
  }
  Judge(cx, c, kind).run();
}

}  // namespace

extern const Check check_control_bus_topology{
    .id = "control-bus-topology",
    .title = "Layout and ends of a bus",
    .family = Family::control,
    .about = "Fast signals come back as echoes from every open end and every branch, and each device loads the bus. So most buses loop from "
             "device to device, have a resistor at each of their two ends and nowhere else, keep branches short, and take only so many "
             "devices. A star or a third resistor works on the bench and fails in the house. What the maker of the devices says beats the "
             "standard of the bus. Polarity, addresses and the grounding of shields are not looked at.",
    .formula = "n <= nx; n * ul <= ux; Ls <= Lsx",
    .reads = "control.bus, control.manual, control.length, control.path, control.cable.type, control.cable.twisted, control.cable.shielded",
    .rules = "buses, bus-lengths, bus-short, bus-cable, poe-copper, control-manual, control-path",
    .run = run};

}  // namespace pullproof
