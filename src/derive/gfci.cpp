#include "derive/gfci.hpp"

#include <algorithm>
#include <charconv>

#include "job/words.hpp"

namespace pullproof::derive {
namespace {

using State = GfciDemand::State;

std::string_view amperes(Context& cx, Current i) { return cx.text("{} A", number_text(raw(i), 1)); }
std::string_view volts(Context& cx, Voltage v) { return cx.text("{} V", number_text(raw(v), 1)); }

GfciDemand asked(std::string_view reason, const Citation& cite) { return {State::asked, reason, {}, cite}; }
GfciDemand free_of(std::string_view reason, const Citation& cite) { return {State::free, reason, {}, cite}; }
GfciDemand open(std::string_view key, std::string_view reason, const Citation& cite) { return {State::open, reason, key, cite}; }

/// What a rule says, where looking may come to a missing key or to a rule that nobody has seen.
template <class F>
GfciDemand demand(F&& look) {
  try {
    return look();
  } catch (const Stop& stop) {
    if (stop.verdict == Verdict::needs_input) return open(stop.missing, stop.message, stop.cite);
    if (stop.verdict == Verdict::not_covered) return {State::not_covered, stop.message, {}, stop.cite};
    throw;
  }
}

/// A limit of a rule, nothing when the edition has none.
template <class Q>
std::optional<Q> limit(const Context& cx, std::string_view rule, std::string_view key, const Unit<Q>& unit) {
  if (cx.rule(rule)[key].blank()) return std::nullopt;
  return cx.parameter(rule, key, unit);
}

Current circuit_rating(Context& cx, const Circuit& c) {
  return cx.need(c.breaker.rating, "breaker.rating", "the rule ends at a rating of the circuit");
}

bool near_sink(const Context& cx, const Receptacle& r) {
  if (!r.sink_distance || !at_most(*r.sink_distance, cx.parameter("gfci-measure", "distance", units::foot))) return false;
  return !r.through_cabinet_door.value_or(false) || cx.flag("gfci-measure", "through-cabinet-doors");
}

/// Why the limits of an occupancy leave a receptacle out; empty when they do not.
std::string_view beyond_limits(Context& cx, const ReceptacleAt& r, std::string_view occupancy) {
  const auto t = cx.table("gfci-limits");
  const auto row = t.find(occupancy, r.phases == 3 ? "three" : "single");
  if (!row) return "three-phase receptacles are not meant";
  const auto at = [&](std::string_view column) { return t.cell(*row, column).number(); };
  // A 240 V circuit has 250 V receptacles, a 120 V circuit 125 V ones.
  if (const auto through = at("through"); through && raw(r.volts) > *through)
    return cx.text("{} is over the {} V that are meant", volts(cx, r.volts), number_text(*through, 1));
  if (const auto most = at("to-ground"); most && !at_most(raw(r.to_ground), *most))
    return cx.text("{} to ground is over {} V", volts(cx, r.to_ground), number_text(*most, 1));
  if (const auto most = at("amps")) {
    if (!r.rating) cx.needs_input(r.rating_key, "the rule ends at a rating of the receptacle");
    if (!at_most(raw(*r.rating), *most)) return cx.text("{} is over {} A", amperes(cx, *r.rating), number_text(*most, 1));
  }
  return {};
}

Date read_day(std::string_view text) {
  const auto number = [&](std::size_t at, std::size_t n) {
    int v = 0;
    if (text.size() >= at + n) std::from_chars(text.data() + at, text.data() + at + n, v);
    return v;
  };
  return {number(0, 4), number(5, 2), number(8, 2)};
}

bool adopted(const Context& cx, std::string_view tia) {
  const auto& all = cx.job().adopted_tias;
  return std::any_of(all.begin(), all.end(), [&](const auto& g) { return g && *g == tia; });
}

/// An exception for heating and cooling equipment that ends on a day.
struct Exception {
  bool holds = false;
  std::string_view note;  ///< why it does or does not
};

Exception exception_until(Context& cx, std::string_view what, std::string_view kind) {
  const code::RuleRef rule = cx.rule("gfci-outdoor-outlet");
  const std::string_view until = rule[cx.text("{}-until", kind)].text(), tia = rule[cx.text("{}-tia", kind)].text();
  if (until.empty()) return {};
  if (!tia.empty() && !adopted(cx, tia))
    return {false, cx.text("{} would exempt {} until {} where it is adopted (adopted_tias)", tia, what, until)};
  if (!permit_before(cx, until)) return {false, cx.text("the exception for {} ended on {}", what, until)};
  if (!tia.empty()) {
    const auto t = cx.table("interim-amendments");
    const auto row = t.find(tia);
    const std::string_view from = row ? t.cell(*row, "effective").text() : std::string_view{};
    if (!from.empty() && permit_before(cx, from)) return {false, cx.text("{} took effect on {}, after the permit", tia, from)};
  }
  return {true, cx.text("{} is exempt until {}, and the permit is of {}{}{}", what, until, cx.job().date.text, tia.empty() ? "" : ", by ", tia)};
}

Exception hvac_exception(Context& cx, const Circuit& c) {
  const std::string_view hvac = appliance_word(cx, c, "hvac");
  if (hvac.empty()) return {};
  Exception first;
  if (c.load.power_conversion.value_or(hvac == "power conversion")) {
    first = exception_until(cx, "variable-speed cooling equipment", "power-conversion");
    if (first.holds) return first;
  }
  const Exception second = exception_until(cx, "listed heating and cooling equipment", "hvac");
  return second.holds || first.note.empty() ? second : Exception{false, cx.text("{}; {}", first.note, second.note)};
}

GfciDemand by_place(Context& cx, const Circuit& c) {
  const Citation cite = cx.cite("gfci-places");
  const auto connection = connection_of(cx, c);
  if (connection == Connection::hard_wired) return free_of("hard-wired, and only receptacles are meant", cite);
  const Given<Place>& place = outlet_place(c);
  ReceptacleAt r{&c.receptacle, &place, "load.place", {}, {}, 1, {}, "breaker.rating"};
  const Line line = line_of(cx, c);
  if (line.dc) return free_of("direct current", cite);
  r.volts = line.volts;
  r.to_ground = line.to_ground;
  r.phases = line.phases;
  if (c.receptacle.rating) r.rating = *c.receptacle.rating;
  else if (c.breaker.rating) r.rating = *c.breaker.rating;
  GfciDemand d = gfci_by_place(cx, r);
  if (!connection && d.state == State::asked) return open("load.connection", "a receptacle there has to be protected, hard-wired equipment not", d.cite);
  return d;
}

/// Limits of the list of appliances; empty when the outlet is within them.
std::string_view beyond_appliance_limits(Context& cx, const Circuit& c) {
  const Line line = line_of(cx, c);
  if (const auto most = limit(cx, "gfci-appliances", "voltage", units::volt); most && !at_most(line.volts, *most))
    return cx.text("{} is over {}", volts(cx, line.volts), volts(cx, *most));
  if (const auto most = limit(cx, "gfci-appliances", "to-ground", units::volt); most && !at_most(line.to_ground, *most))
    return cx.text("{} to ground is over {}", volts(cx, line.to_ground), volts(cx, *most));
  if (const auto most = limit(cx, "gfci-appliances", "amps", units::ampere)) {
    const Current rating = circuit_rating(cx, c);
    if (!at_most(rating, *most)) return cx.text("{} is over {}", amperes(cx, rating), amperes(cx, *most));
  }
  return {};
}

GfciDemand by_appliance(Context& cx, const Circuit& c) {
  const auto t = cx.table("gfci-appliances");
  const Citation any = cx.cite("gfci-appliances"), supply = cx.cite("gfci-appliance-supply");
  cx.need(c.load.appliance, "load.appliance", "some appliances have to be protected wherever they are");
  const std::string_view name = *c.load.appliance;
  const auto row = t.find(appliance_word(cx, c, "gfci"));
  const auto off_list = [&] { return free_of(cx.text("{} is not on the list of appliances", name), any); };
  if (!row) return off_list();
  const std::string_view of_supply = t.cell(*row, "supply").text(), anywhere = t.cell(*row, "anywhere").text();
  if (of_supply == "dwelling" && needed_occupancy(cx) == "dwelling") return asked(cx.text("the outlet of a {} in a dwelling", name), supply);
  const bool listed = of_supply == "yes" || anywhere == "yes" || anywhere == "public";
  if (!listed) return off_list();
  if (const std::string_view why = beyond_appliance_limits(cx, c); !why.empty()) return free_of(why, any);
  if (of_supply == "yes") return asked(cx.text("{} is on the list of appliances whose supply is protected", name), supply);
  if (anywhere == "public" && !cx.need(c.load.public_use, "load.public_use", cx.text("a {} has to be protected where the public uses it", name)))
    return free_of(cx.text("the public does not use the {}", name), any);
  GfciDemand d = asked(cx.text("{} is on the list of appliances", name), any);
  d.of_supply = false;
  return d;
}

GfciDemand outdoors(Context& cx, const Circuit& c) {
  const code::RuleRef rule = cx.rule("gfci-outdoor-outlet");
  const Citation cite = cx.edition().cite(rule);
  if (!rule["required"].yes()) return free_of("this edition asks it of receptacles only", cite);
  if (needed_occupancy(cx) != "dwelling") return free_of("not at a dwelling", cite);
  const Given<Place>& place = outlet_place(c);
  cx.need(place, "load.place", "outdoor outlets of a dwelling have to be protected");
  std::string_view where = place_is(*place, "outdoors") ? "outdoors" : "";
  for (const code::CellRef& p : rule.list("places"))
    if (where.empty() && place_is(*place, p.text())) where = p.text();
  if (where.empty()) return free_of("not outdoors", cite);
  const Line line = line_of(cx, c);
  if (line.dc || line.phases != 1) return free_of("not single-phase", cite);
  if (const auto most = limit(cx, "gfci-outdoor-outlet", "to-ground", units::volt); most && !at_most(line.to_ground, *most))
    return free_of(cx.text("{} to ground is over {}", volts(cx, line.to_ground), volts(cx, *most)), cite);
  const auto most = limit(cx, "gfci-outdoor-outlet", "amps", units::ampere);
  const Current rating = circuit_rating(cx, c);
  if (most && !at_most(rating, *most)) return free_of(cx.text("{} is over {}", amperes(cx, rating), amperes(cx, *most)), cite);
  if (appliance_word(cx, c, "gfci") == "heating cable") return free_of("heating cable, which has protection of its own kind", cite);
  if (c.load.replacement.value_or(false) && !rule["replacement"].yes())
    return free_of("only the equipment is replaced, on an outlet that was there", cite);
  const Exception exception = hvac_exception(cx, c);
  if (exception.holds) return free_of(exception.note, cite);
  const std::string_view what = where == "outdoors" ? "an outdoor outlet of a dwelling" : cx.text("an outlet at a dwelling's {}", where);
  GfciDemand d = asked(cx.text("{}, {} to ground, {}{}{}", what, volts(cx, line.to_ground), amperes(cx, rating), exception.note.empty() ? "" : "; ",
                               exception.note),
                       cite);
  d.class_c = rule["class-c-allowed"].yes() && !appliance_word(cx, c, "hvac").empty() && c.disconnect.class_c_label.value_or(false);
  return d;
}

GfciDemand vehicle(Context& cx, const Circuit& c) {
  const code::RuleRef rule = cx.rule("gfci-vehicle-charger");
  const Citation cite = cx.edition().cite(rule);
  const auto connection = connection_of(cx, c);
  const bool wired_too = rule["hard-wired"].yes();
  if (!connection) return open("load.connection", wired_too ? "charging receptacles and hard-wired chargers have limits of their own"
                                                            : "charging receptacles have to be protected, hard-wired chargers not", cite);
  const Line line = line_of(cx, c);
  const auto ground = limit(cx, "gfci-vehicle-charger", wired_too ? "to-ground" : "voltage", units::volt);
  const bool low = !ground || at_most(line.to_ground, *ground);
  if (*connection == Connection::hard_wired) {
    if (!wired_too) return free_of("hard-wired, and only charging receptacles are meant", cite);
    if (low) return asked(cx.text("a hard-wired charger at {} to ground", volts(cx, line.to_ground)), cite);
    const std::string_view from = rule["special-purpose-from"].text();
    if (!from.empty() && permit_before(cx, from)) return free_of(cx.text("above {} to ground it is asked from {} on", volts(cx, *ground), from), cite);
    GfciDemand d = asked(cx.text("a hard-wired charger at {} to ground", volts(cx, line.to_ground)), cite);
    d.special_purpose = true;
    return d;
  }
  if (!wired_too && !low) return free_of(cx.text("{} to ground is over {}", volts(cx, line.to_ground), volts(cx, *ground)), cite);
  if (const auto most = limit(cx, "gfci-vehicle-charger", "amps", units::ampere)) {
    const Current rating = c.receptacle.rating ? *c.receptacle.rating : circuit_rating(cx, c);
    if (!at_most(rating, *most)) return free_of(cx.text("{} is over {}", amperes(cx, rating), amperes(cx, *most)), cite);
  }
  GfciDemand d = asked("a receptacle for charging vehicles", cite);
  d.special_purpose = !low;
  return d;
}

GfciDemand floor_heating(Context& cx, const Circuit& c) {
  const code::RuleRef rule = cx.rule("gfci-floor-heating");
  const Citation cite = cx.edition().cite(rule);
  cx.need(c.load.place, "load.place", "heated floors of bathrooms and kitchens have to be protected");
  for (const code::CellRef& p : rule.list("places"))
    if (place_is(*c.load.place, p.text())) return asked(cx.text("heating in the floor of a {}", p.text()), cite);
  return free_of("not in a bathroom or kitchen", cite);
}

GfciDemand heating_cable(Context& cx) {
  GfciDemand d = asked("heating cable has ground-fault protection of the equipment", cx.cite("heating-cable-protection"));
  d.equipment = true;
  return d;
}

}  // namespace

bool permit_before(Context& cx, std::string_view day) {
  return cx.need(cx.job().date, "date", cx.text("the day of the permit decides, since an exception ends or begins on {}", day)) < read_day(day);
}

GfciDemand gfci_by_place(Context& cx, const ReceptacleAt& r) {
  return demand([&]() -> GfciDemand {
    const Citation general = cx.cite("gfci-places");
    const auto t = cx.table("gfci-places");
    const std::string_view occupancy = needed_occupancy(cx) == "dwelling" ? "dwelling" : "other";
    cx.need(*r.place, r.key, "which receptacles have to be protected goes by the place");
    const Place& place = **r.place;
    std::string_view unlisted;
    for (std::size_t row = 0; row < t.rows(); ++row) {
      if (t.cell(row, "occupancy").text() != occupancy) continue;
      const std::string_view name = t.cell(row, "place").text(), clause = t.cell(row, "clause").text();
      if (!place_is(place, name) && !(name == "near sink" && near_sink(cx, *r.receptacle))) continue;
      if (clause.empty()) {
        unlisted = name;
        continue;
      }
      Citation cite = cx.edition().cite(t, row, t.column("clause"));
      cite.clause = clause;
      if (const std::string_view why = beyond_limits(cx, r, occupancy); !why.empty()) return free_of(why, cite);
      const auto finished = t.find(occupancy, "finished basement");
      const bool matters = !finished || t.cell(*finished, "clause").blank() || t.cell(*finished, "clause").text().empty();
      if (matters && name == "unfinished basement" && place.has(Place::basement) && !place.has(Place::unfinished_basement))
        cx.assume("place", cx.text("{} does not say whether the basement is finished: taken as unfinished", r.key), cite);
      return asked(cx.text("a receptacle {} {}", occupancy == "dwelling" ? "of a dwelling:" : "in other than a dwelling:", name), cite);
    }
    if (!unlisted.empty()) return free_of(cx.text("'{}' is not on this edition's list of places", unlisted), general);
    if (!names_area(place))
      return open(r.key, cx.text("{} is '{}': say which room or area it is, since that decides about receptacles", r.key, r.place->text), general);
    return free_of(cx.text("'{}' is none of the listed places", r.place->text), general);
  });
}

std::vector<GfciDemand> gfci_demands(Context& cx, const Circuit& c) {
  std::vector<GfciDemand> out;
  const auto add = [&](auto look) { out.push_back(demand(look)); };
  add([&] { return by_place(cx, c); });
  add([&] { return by_appliance(cx, c); });
  add([&] { return outdoors(cx, c); });
  if (appliance_word(cx, c, "disconnect") == "vehicle-charger-disconnect") add([&] { return vehicle(cx, c); });
  if (appliance_word(cx, c, "gfci") == "electric floor heating") add([&] { return floor_heating(cx, c); });
  if (appliance_word(cx, c, "gfci") == "heating cable") add([&] { return heating_cable(cx); });
  return out;
}

}  // namespace pullproof::derive
