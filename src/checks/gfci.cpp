#include <algorithm>
#include <string>
#include <vector>

#include "derive/gfci.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

using derive::GfciDemand;
using State = GfciDemand::State;

/// A piece of equipment that protects from ground faults.
struct Protector {
  std::string_view where;
  bool in_supply = true;
  GfciClass kind = GfciClass::a;
  Where at;
  bool reachable = true;
};

std::vector<Protector> protectors(const Circuit& c, std::optional<Connection> connection) {
  std::vector<Protector> out;
  const auto add = [&](const Given<bool>& has, std::string_view where, bool in_supply, const Given<GfciClass>& kind, const Given<bool>& reach) {
    if (has.value_or(false)) out.push_back({where, in_supply, kind.value_or(GfciClass::a), has.where, reach.value_or(true)});
  };
  add(c.breaker.gfci, "at the breaker", true, c.breaker.gfci_class, {});
  for (const Circuit* f = c.feeder; f != nullptr; f = f->feeder) add(f->breaker.gfci, "at the breaker of the feeder", true, f->breaker.gfci_class, {});
  add(c.disconnect.gfci, "at the disconnect", true, c.disconnect.gfci_class, c.disconnect.readily_accessible);
  if (connection != Connection::hard_wired) add(c.receptacle.gfci, "at the receptacle", true, {}, c.receptacle.readily_accessible);
  add(c.load.gfci, "in the appliance or its cord", false, {}, {});
  return out;
}

bool does(const Protector& p, const GfciDemand& d) {
  if (!p.in_supply && d.of_supply) return false;
  switch (p.kind) {
    case GfciClass::a: return true;
    case GfciClass::c: return d.class_c || d.special_purpose || d.equipment;
    case GfciClass::d:
    case GfciClass::e: return d.special_purpose || d.equipment;
    case GfciClass::equipment: return d.equipment;
  }
  return false;
}

/// Whether the case says of anything that it does not protect.
bool denied(const Circuit& c) {
  const auto no = [](const Given<bool>& g) { return g && !*g; };
  return no(c.breaker.gfci) || no(c.disconnect.gfci) || no(c.receptacle.gfci) || no(c.load.gfci);
}

std::string_view said(Context& cx, const GfciDemand& d) {
  return d.cite.clause.empty() ? d.reason : cx.text("{}: {}", d.cite.clause, d.reason);
}

std::string_view change_for(Context& cx, const GfciDemand& d, std::optional<Connection> connection) {
  if (d.equipment) return "use a breaker with ground-fault protection of equipment (breaker.gfci = true, gfci_class = \"equipment\")";
  return cx.text("use a Class A ground-fault breaker (breaker.gfci = true){}{}",
                 connection == Connection::hard_wired ? ", or such a device in the circuit (disconnect.gfci = true)" : ", or a ground-fault receptacle (receptacle.gfci = true)",
                 d.of_supply ? "" : ", or an appliance or cord that has it (load.gfci = true)");
}

/// All reasons of one kind, each with its section.
std::string_view reasons(Context& cx, const std::vector<GfciDemand>& all, State state) {
  std::string out;
  for (const GfciDemand& d : all)
    if (d.state == state) out += (out.empty() ? "" : "; ") + std::string(said(cx, d));
  return cx.texts().keep(out);
}

void judge(Context& cx, const Circuit& c, const GfciDemand& d, const std::vector<Protector>& have, std::optional<Connection> connection) {
  const StepId why = cx.choose("ground-fault rule", d.reason, d.cite);
  for (const Protector& p : have) {
    if (!does(p, d)) continue;
    if (!p.reachable) {
      cx.fail(cx.text("the ground-fault device {} is not readily accessible", p.where), "put it where it can be tested and reset without moving anything",
              cx.cite("gfci-device-access"), p.at, why);
      return;
    }
    cx.pass(cx.text("protected {}, as it has to be: {}", p.where, d.reason), d.cite, p.at, why);
    return;
  }
  const std::string_view change = change_for(cx, d, connection);
  if (have.empty() && !denied(c)) {
    Stop stop{Verdict::needs_input, cx.text("breaker.gfci is not given, and ground-fault protection is required: {}", d.reason), "breaker.gfci", change, {}, d.cite, {}};
    throw stop;
  }
  std::string_view instead;
  if (!have.empty()) {
    const Protector& p = have.front();
    instead = !p.in_supply ? ", and that in the appliance does not count here" : ", and the device is not of a class that protects people";
  }
  cx.fail(cx.text("no ground-fault protection{}: {}", instead, d.reason), change, d.cite, have.empty() ? c.breaker.gfci.where : have.front().at, why);
}

void run(Context& cx, const Circuit& c) {
  if (derive::is_feeder(c)) {
    cx.not_applicable("a feeder: its branch circuits are looked at");
    return;
  }
  const auto all = derive::gfci_demands(cx, c);
  const auto connection = derive::connection_of(cx, c);
  const auto have = protectors(c, connection);
  const auto first = [&](State s) { return std::find_if(all.begin(), all.end(), [&](const GfciDemand& d) { return d.state == s; }); };
  if (first(State::asked) != all.end()) {
    // Each rule may want it elsewhere; what is met by all of them is said once.
    const auto unmet = std::find_if(all.begin(), all.end(), [&](const GfciDemand& d) {
      return d.state == State::asked && std::none_of(have.begin(), have.end(), [&](const Protector& p) { return does(p, d); });
    });
    judge(cx, c, unmet != all.end() ? *unmet : *first(State::asked), have, connection);
    return;
  }
  const auto sure = std::find_if(have.begin(), have.end(), [](const Protector& p) { return p.in_supply && p.kind == GfciClass::a; });
  if (sure != have.end()) {
    cx.pass(cx.text("protected {}, whether or not a rule asks for it here", sure->where), all.front().cite, sure->at);
    return;
  }
  if (const auto o = first(State::open); o != all.end()) throw Stop{Verdict::needs_input, o->reason, o->key, {}, {}, o->cite, {}};
  if (const auto u = first(State::not_covered); u != all.end()) throw Stop{Verdict::not_covered, u->reason, {}, {}, {}, u->cite, {}};
  cx.not_applicable(cx.text("no rule asks for ground-fault protection here: {}", reasons(cx, all, State::free)), all.front().cite);
}

}  // namespace

extern const Check check_gfci{
    .id = "gfci",
    .title = "Ground-fault protection of people",
    .family = Family::people,
    .about = "A ground-fault device opens at a few milliamperes to ground, before they kill. Who has to be protected hangs on the "
             "edition, the building, the place, the voltage and rating, whether it is a receptacle or hard-wired, what appliance "
             "it is, and for some exceptions on the day of the permit. The answer names the rule that asks for it and whether "
             "the protection sits where that rule wants it, or says of each rule why it does not ask. Lighting outlets, boat "
             "hoists and receptacles for alarms are not looked at.",
    .formula = "",
    .reads = "supply.dwelling, supply.occupancy, date, adopted_tias, circuit.voltage, circuit.phases, breaker.rating, breaker.gfci, "
             "breaker.gfci_class, disconnect.gfci, disconnect.gfci_class, disconnect.class_c_label, disconnect.readily_accessible, "
             "receptacle.gfci, receptacle.place, receptacle.rating, receptacle.readily_accessible, receptacle.sink_distance, "
             "receptacle.through_cabinet_door, load.appliance, load.connection, load.place, load.gfci, load.public_use, "
             "load.replacement, load.power_conversion",
    .rules = "gfci-places, gfci-limits, gfci-measure, gfci-appliances, gfci-appliance-supply, gfci-outdoor-outlet, "
             "gfci-vehicle-charger, gfci-floor-heating, heating-cable-protection, gfci-device-access, interim-amendments, appliances",
    .run = run};

}  // namespace pullproof
