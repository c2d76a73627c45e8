#include <algorithm>

#include "derive/load.hpp"
#include "derive/sharing.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The rule that asks for a circuit of its own here; empty where none does.
std::string_view rule_for(Context& cx, const Circuit& c) {
  const std::string_view rule = derive::appliance_word(cx, c, "individual-rule");
  if (rule == "vehicle-charger-circuit") {
    const derive::Line line = derive::line_of(cx, c);
    const bool small = at_most(line.volts, cx.parameter(rule, "voltage", units::volt)) &&
                       at_most(derive::load_current(cx, c, line).value, cx.parameter(rule, "current", units::ampere));
    return small ? "" : rule;
  }
  if (rule == "hood-circuit") {
    const auto connection = derive::connection_of(cx, c);
    if (!connection) cx.needs_input("load.connection", "a hood that is plugged in needs a circuit of its own, a hard-wired one not");
    return *connection == Connection::plug ? rule : "";
  }
  return rule;
}

bool belongs(const Share& s) { return s.kind && (*s.kind == ShareKind::auxiliary || *s.kind == ShareKind::air_conditioning); }

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  const std::string_view usual = derive::appliance_word(cx, c, "individual");
  if (usual.empty()) {
    cx.not_applicable("no appliance is named");
    return;
  }
  const bool shared = derive::shared(cx, c);
  std::string_view rule;
  if (shared || !derive::appliance_word(cx, c, "individual-rule").empty()) rule = rule_for(cx, c);
  if (rule.empty()) {
    if (usual == "yes" && shared) {
      cx.advise(cx.text("a {} usually has a circuit of its own, by its instructions", *c.load.appliance), "look up its instructions, or give it one",
                cx.cite("instructions"), c.load.appliance.where);
      return;
    }
    cx.not_applicable(cx.text("no rule asks for a circuit of its own for this {}", *c.load.appliance));
    return;
  }
  const Citation cite = cx.cite(rule);
  if (!shared) {
    if (!c.individual) cx.assume("circuit of its own", "circuit.individual is not given: the circuit is taken to feed nothing else", cite);
    cx.pass("it has a circuit of its own", cite, c.individual.where);
    return;
  }
  if (rule == "central-heating") {
    if (c.also_feeds.empty()) cx.needs_input("circuit.also_feeds", "only what belongs to the heating plant, and its air conditioning, may share its circuit");
    const auto stranger = std::find_if(c.also_feeds.begin(), c.also_feeds.end(), [](const Share& s) { return !belongs(s); });
    if (stranger == c.also_feeds.end()) {
      cx.pass("only what belongs to the heating plant shares its circuit", cite, c.also_feeds.front().where);
      return;
    }
    cx.need(stranger->kind, "circuit.also_feeds.kind", "only what belongs to the heating plant may share its circuit");
    cx.fail(cx.text("{} shares the circuit of the {}", stranger->name ? *stranger->name : "another load", *c.load.appliance),
            "give the heating plant a circuit of its own; pump, valve, humidifier, air cleaner and its air conditioning may be on it", cite, stranger->where);
    return;
  }
  cx.fail(cx.text("the {} shares its circuit", *c.load.appliance), "give it a circuit of its own", cite,
          c.also_feeds.empty() ? c.individual.where : c.also_feeds.front().where);
}

}  // namespace

extern const Check check_individual_circuit{
    .id = "individual-circuit",
    .title = "A circuit of its own",
    .family = Family::circuits,
    .about = "Central heating must not fail because a lamp on the same breaker did, and a charger or a plugged-in hood leaves nothing for "
             "others. Some appliances need a circuit of their own by name; for others their instructions ask for it.",
    .formula = "",
    .reads = "load.appliance, load.connection, load.current, circuit.individual, circuit.also_feeds.kind, circuit.also_feeds.name, circuit.voltage",
    .rules = "central-heating, vehicle-charger-circuit, hood-circuit, instructions, appliances",
    .run = run};

}  // namespace pullproof
