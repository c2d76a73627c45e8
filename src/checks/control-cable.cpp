#include <fmt/format.h>

#include "derive/control.hpp"
#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// A part of the run in surroundings of one kind: a raceway on its path, or what lies outside of raceways.
struct Space {
  std::string_view name;
  const Stretch* stretch = nullptr;  ///< null outside of raceways
  bool metal = false;                ///< a metal raceway
  std::uint64_t words = 0;           ///< of its place
  bool wet = false, damp = false;
  Where where;
  bool has(Place::Word w) const { return (words & w) != 0; }
};

std::vector<Space> spaces_of(Context& cx, const Control& c) {
  std::vector<Space> spaces;
  for (const Stretch& s : c.path) {
    if (s.raceway == nullptr) continue;
    Space space{cx.text("in '{}'", *s.in), &s, false, s.raceway->place.value_or({}).words, false, false, s.in.where};
    const Moisture moisture = derive::moisture_in(cx, s).moisture;
    space.wet = moisture == Moisture::wet;
    space.damp = moisture == Moisture::damp;
    const auto types = cx.table("raceway-types");
    if (const auto row = s.raceway->type ? types.find(*s.raceway->type) : std::nullopt)
      space.metal = types.cell(*row, "metallic").text() != "nonmetallic";
    spaces.push_back(space);
  }
  if (derive::wholly_in_raceway(c)) return spaces;
  if (!c.place && spaces.empty())
    cx.assume("place", "control.place is not given: the run is taken as indoors and dry, in no air-handling space and no vertical shaft between floors");
  if (c.place || spaces.empty()) {
    Space outside{"outside of raceways", nullptr, false, c.place.value_or({}).words, false, false, c.place.where};
    // Under a roof outdoors is damp where the case says so; without a word it is wet.
    outside.damp = outside.has(Place::damp) && !outside.has(Place::underground);
    outside.wet = !outside.damp && (outside.has(Place::wet) || outside.has(Place::outdoors) || outside.has(Place::rooftop) || outside.has(Place::underground));
    spaces.push_back(outside);
  }
  return spaces;
}

/// The type that a space asks for, by class; a key of the rule of needed types.
std::string_view needed_type(Context& cx, int klass, const Space& s) {
  const std::string_view where = s.has(Place::plenum) ? "-plenum" : s.has(Place::riser) ? "-riser" : "";
  return cx.parameter_text("control-cable-needed", cx.text("class{}{}", klass, where));
}

/// "use CL2P, or one of CMP, CL3P in its place".
std::string_view use_instead(Context& cx, std::string_view needed) {
  const auto t = cx.table("cable-substitution");
  std::vector<std::string_view> others;
  for (std::size_t r = 0; r < t.rows(); ++r)
    if (t.cell(r, "needed").text() == needed) others.push_back(t.cell(r, "used").text());
  if (others.empty()) return cx.text("use {}", needed);
  return cx.text("use {}, or {}{} in its place", needed, others.size() > 1 ? "one of " : "", fmt::join(others, ", "));
}

/// What is found about one space: nothing when it is in order.
class SpaceJudge {
 public:
  SpaceJudge(Context& cx, const Control& c, int klass, const code::TableRef& types, std::size_t row)
      : cx_(cx), c_(c), klass_(klass), types_(types), row_(row) {}

  void judge(const Space& s) {
    const std::size_t before = cx_.findings();
    damp(s);
    wet(s);
    sunlight(s);
    spread_of_fire(s);
    if (cx_.findings() == before) pass(s);
  }

 private:
  std::string_view cell(std::string_view column) const { return types_.cell(row_, column).text(); }
  std::string_view type() const { return *c_.cable.type; }
  Where at(const Space& s) const { return s.where ? s.where : c_.cable.type.where; }

  void wet(const Space& s) {
    if (!s.wet || c_.cable.wet.value_or(false)) return;
    const Citation cite = cx_.cite("control-wet");
    constexpr std::string_view change = "use a cable that is listed and marked for wet places, and say so with control.cable.wet";
    if (cell("wet") == "listed" && !c_.cable.wet) {
      Stop stop;
      stop.message = cx_.text("control.cable.wet is not given: {} may be {}, where it is wet, only if it is marked for wet places", type(), s.name);
      stop.missing = "control.cable.wet";
      stop.cite = cite;
      stop.where = at(s);
      cx_.stopped(stop);
    } else if (cell("wet") != "yes") {
      cx_.fail(cx_.text("{} is not for wet places, and it is wet {}", type(), s.name), change, cite, at(s));
    }
  }

  /// The tables of types say nothing of damp places.
  void damp(const Space& s) {
    if (!s.damp || c_.cable.wet.value_or(false)) return;
    cx_.assume("damp place", cx_.text("it is damp {}: {} is taken as fit for damp places, which its mark or data sheet has to say; what is marked for wet places is", s.name, type()),
               cx_.cite("control-wet"));
  }

  void sunlight(const Space& s) {
    if (s.stretch != nullptr || !s.has(Place::sunlight) || c_.cable.sunlight.value_or(false) || cell("sunlight") == "yes") return;
    cx_.fail(cx_.text("{} is not marked as resistant to sunlight, and it lies in the sun", type()),
             "use a cable marked as resistant to sunlight (control.cable.sunlight), or a raceway", cx_.cite("control-wet"), at(s));
  }

  void spread_of_fire(const Space& s) {
    if (s.has(Place::plenum)) conditional(s, "plenum", "a space that moves air", cx_.cite("control-plenum"));
    if (s.has(Place::riser)) conditional(s, "riser", "a shaft between floors", cx_.cite("control-cable-location"));
    if (s.has(Place::plenum) || s.has(Place::riser)) return;
    if (s.stretch != nullptr) {
      if (cell("raceway") != "yes") refuse(s, "may not run in raceways", cx_.cite("control-cable-location"));
      return;
    }
    if (cell("general") == "yes") return;
    limited_use(s);
  }

  /// Plenums and risers: the type as such, or any type in a metal raceway.
  void conditional(const Space& s, std::string_view column, std::string_view what, const Citation& cite) {
    const std::string_view may = cell(column);
    if (may == "yes") return;
    if (may == "raceway" && s.stretch != nullptr && s.metal) return;
    if (may == "raceway" && column == "riser" && s.stretch == nullptr && cx_.job().supply.dwelling.value_or(false)) {
      cx_.advise(cx_.text("{} may run in {} only of a one- or two-family dwelling", type(), what),
                 use_instead(cx_, needed_type(cx_, klass_, s)), cite, at(s));
      return;
    }
    cx_.fail(cx_.text("{} may not be in {}{}", type(), what, may == "raceway" ? " but in a metal raceway that suits it" : ""),
             use_instead(cx_, needed_type(cx_, klass_, s)), cite, at(s));
  }

  /// X types outside of raceways: thin in a dwelling, or exposed for a short length.
  void limited_use(const Space& s) {
    const Citation cite = cx_.cite("control-cable-limited");
    if (cx_.job().supply.dwelling.value_or(false) && cell("dwelling") == "thin") {
      cx_.need(c_.cable.diameter, "control.cable.diameter", cx_.text("{} may run in a dwelling if it is thin", type()));
      const auto limit = cx_.parameter("control-cable-limited", "diameter", "diameter below which it may run there", "Dx", units::inch);
      const auto has = cx_.given("diameter of the cable", "D", c_.cable.diameter, units::inch);
      if (at_least(has.value, limit.value))  // "less than": at the limit it is not thin
        refuse(s, cx_.text("of {} is not thinner than {} in", c_.cable.diameter.text, number_text(units::inch.show(limit.value), 3)), cite);
      return;
    }
    if (s.has(Place::exposed) && cell("exposed") == "short") {
      const auto length = derive::run_length(cx_, c_);
      const auto limit = cx_.parameter("control-cable-limited", "exposed-length", "length that it may be exposed", "Lx", units::foot);
      Finding& f = cx_.require(length, Must::at_most, limit, cite, at(s));
      if (f.verdict == Verdict::fail) f.change = use_instead(cx_, needed_type(cx_, klass_, s));
      return;
    }
    refuse(s, "is for raceways, for dwellings and for short exposed lengths alone", cite);
  }

  void refuse(const Space& s, std::string_view why, const Citation& cite) {
    cx_.fail(cx_.text("{} {}", type(), why), use_instead(cx_, needed_type(cx_, klass_, s)), cite, at(s));
  }

  void pass(const Space& s) {
    const std::string_view needed = needed_type(cx_, klass_, s);
    const auto substitutes = cx_.table("cable-substitution");
    if (const auto sub = substitutes.find(needed, type())) {
      cx_.pass(cx_.text("{} may run {}: it stands for {}", type(), s.name, needed), cx_.edition().cite(substitutes), at(s));
      return;
    }
    cx_.pass(cx_.text("{} may run {}", type(), s.name), cx_.edition().cite(types_, row_, types_.column("general")), at(s));
  }

  Context& cx_;
  const Control& c_;
  int klass_;
  const code::TableRef& types_;
  std::size_t row_;
};

/// Insulation against what the class asks for and what the source gives.
void judge_insulation(Context& cx, const Control& c, const Traced<Voltage>& needs, const Citation& cite) {
  const auto has = derive::cable_insulation(cx, c);
  const Where where = c.cable.insulation ? c.cable.insulation.where : c.cable.type.where;
  Finding& f = cx.require(has, Must::at_least, needs, cite, where);
  if (f.verdict == Verdict::fail) f.change = "use a cable insulated for that voltage";
  const bool top = c.source.maximum_voltage.present;
  if (!top && !c.source.voltage) return;
  const auto v = top ? cx.given("highest voltage of the source", "Vx", c.source.maximum_voltage, units::volt)
                     : cx.working().given("voltage of the source", "Vs", c.source.voltage->volts, units::volt, c.source.voltage.text, c.source.voltage.where);
  Finding& g = cx.require(has, Must::at_least, v, cite, where);
  if (g.verdict == Verdict::fail) g.change = "use a cable insulated for that voltage";
}

/// A flexible cord: no fixed wiring, unless it joins something that moves. Returns whether that settles it.
bool judge_cord(Context& cx, const Control& c) {
  const auto uses = cx.table("cord-uses");
  const auto not_for = [&](std::string_view use, Where where) {
    const std::size_t row = cx.row(uses, use);
    Citation cite = cx.edition().cite(uses, row, uses.column("clause"));
    cite.clause = uses.cell(row, "clause").text();
    cx.fail(cx.text("{} is a flexible cord, which may not be used {}", *c.cable.type, uses.cell(row, "text").text()),
            "use a listed control cable; a cord only joins what moves (control.moves)", cite, where);
    return true;
  };
  if (!c.path.empty()) return not_for("raceway", c.path.front().in.where);
  if (!c.moves.value_or(false)) return not_for("fixed wiring", c.cable.type.where);
  if (c.place && (c.place->has(Place::concealed) || c.place->has(Place::attic) || c.place->has(Place::underground))) return not_for("concealed", c.place.where);
  return false;
}

/// Building wire, fixture wire and power cable: the methods of Class 1, which Class 2 may use too.
void judge_power_method(Context& cx, const Control& c, int klass) {
  const std::string_view type = *c.cable.type;
  const auto cables = cx.table("cable-types");
  const auto cable = cables.find(type);
  if (!cable && c.path.empty()) cx.needs_input("control.path", cx.text("{} conductors run in raceway", type));
  if (cable && cables.cell(*cable, "cord").yes() && judge_cord(cx, c)) return;
  const std::string_view rule = klass == 1 && c.reclassified.value_or(false) ? "control-reclassified" : "class1-size";
  if (klass == 1) {
    judge_insulation(cx, c, cx.parameter(rule, "insulation", "insulation of Class 1 conductors", "Ux", units::volt), cx.cite(rule));
  }
  const auto wire = cx.table("insulation");
  const auto row = wire.find(cable ? cables.cell(*cable, "insulation").text() : type);
  const std::size_t before = cx.findings();
  for (const Space& s : spaces_of(cx, c)) {
    const bool may = cable ? cables.cell(*cable, "wet").yes() : row && !wire.cell(*row, "wet").blank();
    if (!s.wet || may || c.cable.wet.value_or(false)) continue;
    cx.fail(cx.text("{} is not for wet places, and it is wet {}", type, s.name), "use a type that is listed for wet places", cx.cite("control-wet"), s.where);
  }
  if (cx.findings() == before)
    cx.pass(cx.text("{} is a wiring method for power, which a control run may use", type), cx.cite("control-power-methods"), c.cable.type.where);
}

/// The type's own sizes and the heat around it.
void judge_make(Context& cx, const Control& c, const code::TableRef& types, std::size_t row) {
  if (c.cable.size && cx.has_rule("control-pltc") && cx.listed("control-pltc", "types", *c.cable.type)) {
    const auto least = ConductorSize::parse(cx.parameter_text("control-pltc", "smallest")), most = ConductorSize::parse(cx.parameter_text("control-pltc", "largest"));
    if (least && most && (*c.cable.size < *least || *c.cable.size > *most))
      cx.fail(cx.text("{} is made in {} through {}, not in {}", *c.cable.type, least->label(), most->label(), c.cable.size->label()),
              "read the mark on the cable", cx.cite("control-pltc"), c.cable.size.where);
  }
  const auto rated = types.cell(row, "temperature").number();
  for (const Stretch& s : c.path) {
    if (!rated || s.raceway == nullptr || !s.raceway->ambient || at_most(s.raceway->ambient->celsius, *rated)) continue;
    cx.advise(cx.text("it gets {} around '{}', and {} is rated for {} °C at the least", s.raceway->ambient.text, *s.in, *c.cable.type, number_text(*rated, 0)),
              "read the temperature that the cable is marked for", cx.cite("control-cable-listing"), s.in.where);
  }
}

/// People touch it with wet hands: lower voltages, or the wiring of Class 3.
void judge_wet_contact(Context& cx, const Control& c, int klass) {
  if (klass != 2 || !c.place || !(c.place->has(Place::wet) || c.place->has(Place::sink) || c.place->has(Place::bathroom)) || !c.source.voltage) return;
  const Voltage limit = cx.parameter("class2-wet", c.source.voltage->dc ? "dc" : "ac", units::volt);
  if (at_most(c.source.voltage->volts, limit)) return;
  cx.advise(cx.text("where wet contact is likely, {} is over the {} V of a Class 2 run", c.source.voltage.text, number_text(raw(limit), 0)),
            "wire it as Class 3 where people can touch it wet, or use a lower voltage", cx.cite("class2-wet"), c.place.where);
}

void run(Context& cx, const Control& c) {
  const ControlCable& k = c.cable;
  if (!k.type && !k.size && !k.insulation) {
    cx.not_applicable("nothing is given about the cable");
    return;
  }
  cx.need(k.type, "control.cable.type", "where it may run goes by its type");
  const int klass = derive::wiring_class(cx, c);
  const auto types = cx.table("cable-types-control");
  const auto row = types.find(*k.type);
  if (!row) return judge_power_method(cx, c, klass);
  const std::string_view listed = types.cell(*row, "listed").text();
  if (listed == "mark") {
    Stop stop;
    stop.message = cx.text("{} cable has its type in its mark: read whether it says CL2, CL2R or CL2P", *k.type);
    stop.missing = "control.cable.type";
    stop.where = k.type.where;
    throw stop;
  }
  if (listed == "no") {
    cx.fail(cx.text("{} is no listed cable for buildings", *k.type), use_instead(cx, needed_type(cx, klass == 3 ? 3 : 2, {})), cx.cite("control-cable-listing"), k.type.where);
    return;
  }
  if (klass == 1) {
    const std::string_view rule = c.reclassified.value_or(false) ? "control-reclassified" : "class1-size";
    cx.fail(cx.text("{} is a cable for Class 2 and 3; a Class 1 run is wired like power", *k.type),
            "use building wire in raceway or a power cable, insulated for that", cx.cite(rule), k.type.where);
    return;
  }
  judge_insulation(cx, c, cx.parameter("control-cable-listing", cx.text("class{}-insulation", klass), cx.text("insulation of a Class {} cable", klass), "Ux", units::volt),
                   cx.cite("control-cable-listing"));
  judge_make(cx, c, types, *row);
  judge_wet_contact(cx, c, klass);
  SpaceJudge judge(cx, c, klass, types, *row);
  for (const Space& s : spaces_of(cx, c)) judge.judge(s);
}

}  // namespace

extern const Check check_control_cable{
    .id = "control-cable",
    .title = "Type of the control cable",
    .family = Family::control,
    .about = "The type on the jacket says how the cable spreads fire and what its insulation stands. Each part of the run, in raceway and "
             "outside, asks for a type: plenum types where air for people moves, riser types in shafts between floors, and cable marked "
             "for wet places underground and outdoors, where raceways are wet inside. A flexible cord is no fixed wiring. Higher types stand for lower ones. Bell wire and "
             "appliance wire without a type are no building cable. Class 1 runs are wired like power.",
    .formula = "U >= Ux; U >= Vs",
    .reads = "control.cable, control.source, control.reclassified, control.path, control.place, control.length, raceway.type, raceway.place, "
             "raceway.ambient, supply.dwelling, control.moves",
    .rules = "cable-types-control, cable-substitution, control-cable-needed, control-cable-listing, control-cable-location, control-cable-limited, "
             "control-plenum, control-wet, control-pltc, control-reclassified, control-power-methods, class1-size, class2-wet, raceway-types, "
             "insulation, cable-types, cord-uses, fixture-wire, insulation-voltage",
    .run = run};

}  // namespace pullproof
