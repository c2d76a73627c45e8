#include "derive/service.hpp"

#include <vector>

#include "calc/service.hpp"
#include "derive/load.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

using Kind = ServiceLoadKind;

/// A load on the service, from the case's list or from one of its circuits.
struct Item {
  Kind kind = Kind::appliance;
  Traced<Power> power;  ///< of all units together
  double units = 1;
  bool added = false;
};

Kind kind_of(Context& cx, const Circuit& c) {
  const std::string_view name = c.load.appliance.value_or("");
  if (name == "range" || name == "wall oven" || name == "cooktop") return Kind::range;
  if (name == "clothes dryer") return Kind::dryer;
  if (name == "vehicle charger") return Kind::charger;
  if (name == "heat pump" || name == "mini-split") return Kind::heat_pump;
  if (name == "electric space heater" || name == "air handler with strip heat") return Kind::electric_heat;
  const std::string_view kind = circuit_kind(cx, c);
  return kind == "cooling" ? Kind::cooling : kind == "motor" ? Kind::motor : Kind::appliance;
}

class ServiceSum {
 public:
  ServiceSum(Context& cx, const Supply& supply) : cx_(cx), service_(supply.service) {
    gather();
  }

  Traced<Power> optional() {
    const auto general = general_loads();
    const auto d = blocks("optional-dwelling", general);
    return with(d, heating_choice());
  }

  /// With new heat or cooling the larger of the two stands outside the blocks; else all of it is inside.
  Traced<Power> existing() {
    bool new_hvac = false;
    for (const Item& i : items_) new_hvac = new_hvac || (i.added && is_hvac(i.kind));
    auto general = general_loads();
    if (new_hvac) {
      const auto d = blocks("existing-dwelling-hvac", general);
      return with(d, larger_hvac());
    }
    if (cx_.flag("existing-dwelling", "include-existing-hvac"))
      if (const auto hvac = larger_hvac()) {
        cx_.choose("existing heat and cooling", "sources differ on whether they count here: the larger is taken in", cx_.cite("existing-dwelling"));
        general = add(general, *hvac);
      }
    return blocks("existing-dwelling", general);
  }

  Traced<Power> standard() {
    std::optional<Traced<Power>> total;
    const auto lighting = dwelling_circuits();
    const auto t = cx_.table("lighting-demand");
    Power low{};
    for (std::size_t r = 0; r < t.rows(); ++r) {
      const auto high = cx_.cell(t, r, "through", "end of the step", "h", units::volt_ampere);
      const auto k = cx_.cell(t, r, "percent", "share in the step", "k", units::percent);
      if (!(lighting.value > low)) break;
      const auto l = cx_.working().choice("start of the step", "l", low, units::volt_ampere, "end of the step before", {});
      total = plus(total, cx_.apply(calc::demand_step, units::volt_ampere, cx_.cite("dwelling-lighting"), *k, lighting, *high, l));
      low = high->value;
    }
    total = plus(total, appliances_in_part());
    total = plus(total, dryers());
    total = plus(total, ranges());
    for (const Item& i : items_)
      if (i.kind == Kind::charger) total = plus(total, charger(i));
    for (const Item& i : items_)
      if (i.kind == Kind::motor) total = plus(total, i.power);
    total = plus(total, larger_hvac());
    total = plus(total, motor_share());
    return *total;
  }

  /// What is new with this job, at its nameplate.
  Traced<Power> added() {
    std::optional<Traced<Power>> total;
    for (const Item& i : items_)
      if (i.added) total = plus(total, i.power);
    if (!total) cx_.needs_input("circuit", "nothing is added: no branch circuit and no load with added = true");
    return *total;
  }

 private:
  static bool is_hvac(Kind k) {
    return k == Kind::cooling || k == Kind::heat_pump || k == Kind::heat_pump_supplement || k == Kind::electric_heat;
  }

  void gather() {
    for (const ServiceLoad& l : service_.loads) {
      cx_.need(l.power, "supply.service.load.power", "it is part of the sum");
      Item i{l.kind.value_or(Kind::appliance), {}, l.units.value_or(1), l.added.value_or(false)};
      const std::string_view name = l.name.value_or("load");
      i.power = cx_.given(cx_.text("{}", name), "p", l.power, units::volt_ampere);
      if (i.units > 1) {
        const auto n = cx_.given("how many", "n", l.units, units::count);
        i.power = cx_.apply(calc::load_of_units, units::volt_ampere, {}, n, i.power);
      }
      items_.push_back(i);
    }
    for (const Circuit& c : cx_.job().circuits) {
      if (c.role.value_or(CircuitRole::branch) == CircuitRole::feeder) continue;
      Context quiet = cx_.scratch();
      const Line line = line_of(quiet, c);
      const Traced<Current> current = load_current(quiet, c, line);
      const double phases = line.phases == 3 ? std::sqrt(3.0) : 1;
      const Power va = c.load.apparent_power ? *c.load.apparent_power : c.load.power ? *c.load.power : phases * (current.value * line.volts);
      Item i{kind_of(cx_, c), {}, 1, true};
      i.power = cx_.working().choice(cx_.text("new load of circuit {}", *c.name), "p", va, units::volt_ampere, "as its circuit has it", {});
      items_.push_back(i);
      for (const Share& s : c.also_feeds) shared(c, line, s);
    }
  }

  /// What shares a circuit is a load too, but for lighting and receptacles, which the floor area stands for.
  void shared(const Circuit& c, const Line& line, const Share& s) {
    if (s.kind && (*s.kind == ShareKind::lighting || *s.kind == ShareKind::portable)) return;
    cx_.need(s.current, "circuit.also_feeds.current", "it is part of the service's load");
    const Kind kind = s.kind && *s.kind == ShareKind::air_conditioning ? Kind::cooling : s.motor.value_or(false) ? Kind::motor : Kind::appliance;
    Item i{kind, {}, 1, true};
    const double phases = line.phases == 3 ? std::sqrt(3.0) : 1;
    i.power = cx_.working().choice(cx_.text("{}, on circuit {}", s.name ? *s.name : "another load", *c.name), "p", phases * (*s.current * line.volts),
                                   units::volt_ampere, "as its circuit has it", {});
    items_.push_back(i);
  }

  Traced<Power> add(const Traced<Power>& a, const Traced<Power>& b) {
    return cx_.apply(calc::load_sum, units::volt_ampere, {}, a, b);
  }
  std::optional<Traced<Power>> plus(const std::optional<Traced<Power>>& sum, const std::optional<Traced<Power>>& more) {
    if (!more) return sum;
    return sum ? add(*sum, *more) : more;
  }
  Traced<Power> with(const Traced<Power>& sum, const std::optional<Traced<Power>>& more) { return more ? add(sum, *more) : sum; }

  /// Lighting by the floor area, and the small-appliance and laundry circuits.
  Traced<Power> dwelling_circuits() {
    cx_.need(service_.floor_area, "supply.service.floor_area", "the general lighting goes by it");
    const auto area = cx_.given("floor area", "a", service_.floor_area, units::square_foot);
    const auto f = cx_.parameter("dwelling-lighting", "va-per-square-foot", "VA for each ft²", "f", units::count);
    auto total = cx_.apply(calc::load_of_area, units::volt_ampere, cx_.cite("dwelling-lighting"), area, f);
    const double circuits = cx_.need(service_.small_appliance_circuits, "supply.service.small_appliance_circuits", "each counts") +
                            cx_.need(service_.laundry_circuits, "supply.service.laundry_circuits", "each counts");
    const auto n = cx_.working().choice("small-appliance and laundry circuits", "n", circuits, units::count, "as given", {});
    const auto each = cx_.parameter("dwelling-circuits-load", "power", "load of each circuit", "p", units::volt_ampere);
    return add(total, cx_.apply(calc::load_of_units, units::volt_ampere, cx_.cite("dwelling-circuits-load"), n, each));
  }

  /// Everything but heat and cooling, at its nameplate.
  Traced<Power> general_loads() {
    auto total = dwelling_circuits();
    for (const Item& i : items_)
      if (!is_hvac(i.kind)) total = add(total, i.kind == Kind::charger ? *charger(i) : i.power);
    return total;
  }

  std::optional<Traced<Power>> charger(const Item& i) {
    const code::RuleRef rule = cx_.rule("vehicle-charger-load");
    if (rule["least"].blank()) return i.power;
    const auto least = cx_.parameter("vehicle-charger-load", "least", "least load of a charger", "l", units::volt_ampere);
    return cx_.apply(calc::load_at_least, units::volt_ampere, cx_.cite("vehicle-charger-load"), i.power, least);
  }

  Traced<Power> blocks(std::string_view rule, const Traced<Power>& t) {
    const auto first = cx_.parameter(rule, "first", "first block", "b", units::volt_ampere);
    const auto share = cx_.parameter(rule, "percent", "share of the rest", "k", units::percent);
    return cx_.apply(calc::first_block, units::volt_ampere, cx_.cite(rule), t, first, share);
  }

  std::optional<Traced<Power>> sum_of(Kind kind) {
    std::optional<Traced<Power>> total;
    for (const Item& i : items_)
      if (i.kind == kind) total = plus(total, i.power);
    return total;
  }

  std::optional<Traced<Power>> at_choice(const std::optional<Traced<Power>>& p, std::string_view choice) {
    if (!p) return std::nullopt;
    const auto t = cx_.table("optional-heating");
    const auto k = cx_.cell(t, cx_.row(t, choice), "percent", cx_.text("share of {}", choice), "k", units::percent);
    return cx_.apply(calc::load_share, units::volt_ampere, cx_.edition().cite(t), *k, *p);
  }

  /// The largest of the heating and cooling choices of the optional method.
  std::optional<Traced<Power>> heating_choice() {
    std::optional<Traced<Power>> best = at_choice(sum_of(Kind::cooling), "air conditioning");
    const auto larger = [&](const std::optional<Traced<Power>>& p) {
      if (p) best = best ? cx_.apply(calc::load_larger, units::volt_ampere, cx_.edition().cite(cx_.table("optional-heating")), *best, *p) : p;
    };
    const auto pump = sum_of(Kind::heat_pump), supplement = sum_of(Kind::heat_pump_supplement);
    if (pump && supplement) larger(plus(at_choice(pump, "heat pump compressor"), at_choice(supplement, "heat pump supplement")));
    else larger(at_choice(pump, "heat pump without supplement"));
    double heaters = 0;
    for (const Item& i : items_)
      if (i.kind == Kind::electric_heat) heaters += i.units;
    constexpr double many = 4;
    larger(at_choice(sum_of(Kind::electric_heat), heaters >= many ? "electric heat of four units or more" : "electric heat under four units"));
    return best;
  }

  /// Of heat and cooling, which do not run together, the larger; a heat pump runs in both.
  std::optional<Traced<Power>> larger_hvac() {
    auto heat = plus(plus(sum_of(Kind::electric_heat), sum_of(Kind::heat_pump)), sum_of(Kind::heat_pump_supplement));
    auto cool = plus(sum_of(Kind::cooling), sum_of(Kind::heat_pump));
    if (!heat || !cool) return heat ? heat : cool;
    return cx_.apply(calc::load_larger, units::volt_ampere, cx_.cite("noncoincident"), *heat, *cool);
  }

  /// Fixed appliances, in part where there are enough of them.
  std::optional<Traced<Power>> appliances_in_part() {
    const auto total = sum_of(Kind::appliance);
    double count = 0;
    for (const Item& i : items_)
      if (i.kind == Kind::appliance) count += i.units;
    if (!total || count < cx_.parameter("appliance-demand", "count", units::count)) return total;
    const auto k = cx_.parameter("appliance-demand", "percent", "share of the fixed appliances", "k", units::percent);
    return cx_.apply(calc::load_share, units::volt_ampere, cx_.cite("appliance-demand"), k, *total);
  }

  std::optional<Traced<Power>> dryers() {
    std::optional<Traced<Power>> total;
    double count = 0;
    for (const Item& i : items_) {
      if (i.kind != Kind::dryer) continue;
      count += i.units;
      auto least = cx_.parameter("dryer-load", "least", "least load of a dryer", "l", units::volt_ampere);
      if (i.units > 1) {
        const auto n = cx_.working().choice("how many", "n", i.units, units::count, "as given", {});
        least = cx_.apply(calc::load_of_units, units::volt_ampere, {}, n, least);
      }
      total = plus(total, cx_.apply(calc::load_at_least, units::volt_ampere, cx_.cite("dryer-load"), i.power, least));
    }
    if (!total) return total;
    const auto t = cx_.table("dryers");
    const auto row = t.band("through", count);
    if (!row || !(t.cell(*row, "percent-each").number().value_or(1) == 0))
      cx_.not_covered("so many dryers are no single dwelling", cx_.edition().cite(t));
    const auto k = cx_.cell(t, *row, "percent", "demand of the dryers", "k", units::percent);
    return cx_.apply(calc::load_share, units::volt_ampere, cx_.edition().cite(t), *k, *total);
  }

  /// Household cooking by columns A, B and C of its table.
  std::optional<Traced<Power>> ranges() {
    const Power above = cx_.parameter("range-load", "above", units::watt);
    const Power b_through = cx_.parameter("range-load", "column-b-through", units::watt);
    const Power a_below = cx_.parameter("range-load", "column-a-below", units::watt);
    double count = 0;
    std::optional<Traced<Power>> total, small;
    bool all_b = true, all_a = true;
    Power largest{};
    const Power base = cx_.parameter("range-load", "base", units::watt);
    Power average_sum{};
    for (const Item& i : items_) {
      if (i.kind != Kind::range) continue;
      const Power each = i.power.value / i.units;
      if (!(each > above)) {
        small = plus(small, i.power);
        continue;
      }
      count += i.units;
      all_b = all_b && at_most(each, b_through);
      all_a = all_a && each < a_below;
      largest = std::max(largest, each);
      average_sum += i.units * std::max(each, base);
      total = plus(total, i.power);
    }
    if (!total) return small;
    const auto t = cx_.table("ranges");
    const auto row = t.band("through", count);
    if (!row || !(t.cell(*row, "c-each").number().value_or(1) == 0)) cx_.not_covered("so many ranges are no single dwelling", cx_.edition().cite(t));
    const Unit<Power> kilowatt{"kW", 1000, 3};
    const auto c = cx_.cell(t, *row, "c", "column C", "C", kilowatt);
    const auto in_va = cx_.working().choice("column C", "C", c->value, units::volt_ampere, "in VA", {});
    cx_.working().because_of(c->step);
    const auto q = cx_.parameter("range-load", "percent", "more for each kW above the base", "q", units::percent);
    const auto average = cx_.working().choice("rating, the average where they differ", "A", average_sum / count, units::volt_ampere, "with the base as the least", {});
    const auto b = cx_.parameter("range-load", "base", "base", "B", units::volt_ampere);
    auto demand = cx_.apply(calc::range_demand, units::volt_ampere, cx_.cite("range-load"), in_va, q, average, b);
    if (all_b) {
      const auto k = cx_.cell(t, *row, all_a ? "a" : "b", all_a ? "column A" : "column B", "k", units::percent);
      const auto by_share = cx_.apply(calc::load_share, units::volt_ampere, cx_.edition().cite(t), *k, *total);
      if (by_share.value < demand.value) {
        cx_.choose("columns", "small ones may take the lower of the columns", cx_.cite("range-load"), {demand.step, by_share.step});
        demand = by_share;
      }
    }
    return plus(small, demand);
  }

  /// A quarter of the largest motor on top.
  std::optional<Traced<Power>> motor_share() {
    std::optional<Traced<Power>> largest;
    for (const Item& i : items_)
      if ((i.kind == Kind::motor || i.kind == Kind::cooling || i.kind == Kind::heat_pump) && (!largest || i.power.value / i.units > largest->value))
        largest = i.power;
    if (!largest) return largest;
    const auto k = cx_.parameter("largest-motor", "percent", "more for the largest motor", "k", units::percent);
    return cx_.apply(calc::load_share, units::volt_ampere, cx_.cite("largest-motor"), k, *largest);
  }

  Context& cx_;
  const Service& service_;
  std::vector<Item> items_;
};

}  // namespace

Traced<Current> service_current(Context& cx, const Supply& supply) {
  const LoadMethod method = cx.need(supply.service.method, "supply.service.method", "each method counts in its own way");
  const System system = cx.need(supply.system, "supply.system", "the current goes by its voltage");
  ServiceSum sum(cx, supply);
  const auto volts = cx.working().choice("voltage of the service", "V", system.line_to_line, units::volt, "line to line", {});
  const auto current_of = [&](const Traced<Power>& d) {
    return system.phases == 3 ? cx.apply(calc::service_current_3ph, units::ampere, {}, d, volts)
                              : cx.apply(calc::service_current_1ph, units::ampere, {}, d, volts);
  };
  switch (method) {
    case LoadMethod::standard: return current_of(sum.standard());
    case LoadMethod::optional: {
      const Current least = cx.parameter("optional-dwelling", "service", units::ampere);
      if (supply.service.rating && *supply.service.rating < least)
        cx.needs_input("supply.service.method", cx.text("the optional method is for services of {} A and more", number_text(raw(least), 0)));
      return current_of(sum.optional());
    }
    case LoadMethod::existing: return current_of(sum.existing());
    case LoadMethod::measured: break;
  }
  const double days = cx.parameter("measured-demand", "days-count", units::count);
  cx.need(supply.service.measured_days, "supply.service.measured_days", "a short recording does not count");
  if (*supply.service.measured_days < days)
    cx.needs_input("supply.service.measured_days", cx.text("at least {} days are recorded", number_text(days, 0)));
  if (const Given<double>& each = supply.service.measured_interval; each && *supply.service.measured_days < cx.parameter("measured-demand", "year-count", units::count) &&
                                                                    !at_most(*each, cx.parameter("measured-demand", "interval-minutes-count", units::count)))
    cx.unclear("supply.service.measured_interval", "a recording of less than a year averages over shorter times: record again, or take the highest demand of a year", each.where);
  cx.need(supply.service.measured_demand, "supply.service.measured_demand", "the method starts from it");
  const auto measured = cx.given("measured demand", "Im", supply.service.measured_demand, units::ampere);
  const auto k = cx.parameter("measured-demand", "percent", "factor for measured demand", "k", units::percent);
  const auto added = current_of(sum.added());
  return cx.apply(calc::measured_current, units::ampere, cx.cite("measured-demand"), k, measured, added);
}

}  // namespace pullproof::derive
