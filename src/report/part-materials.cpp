// The material list: what the runs of the case take, with the allowance said.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "derive/laying.hpp"
#include "derive/line.hpp"
#include "derive/wiring.hpp"
#include "job/words.hpp"
#include "report/parts.hpp"

namespace pullproof::report {
namespace {

using doc::Spans;

/// Lines of the list, those for the same thing added up.
class Materials {
 public:
  void add(const std::string& what, double amount, std::string_view unit, const std::string& where) {
    const auto same = std::find_if(lines_.begin(), lines_.end(), [&](const Line& l) { return l.what == what; });
    Line& line = same != lines_.end() ? *same : lines_.emplace_back(Line{what, 0, std::string(unit), {}});
    line.amount += amount;
    if (line.where.find(where) == std::string::npos) line.where += fmt::format("{}{}", line.where.empty() ? "" : ", ", where);
  }
  doc::Table table_of() const {
    doc::Table t = table("What the runs of this job take", {{"What"}, {"How much", doc::Table::Align::end}, {"Where"}});
    for (const Line& l : lines_)
      t.rows.push_back({plain(l.what), plain(fmt::format("{}{}{}", number_text(std::ceil(l.amount - slack), 0), l.unit.empty() ? "" : " ", l.unit)), plain(l.where)});
    return t;
  }

 private:
  struct Line {
    std::string what;
    double amount;
    std::string unit, where;
  };
  std::vector<Line> lines_;
};

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(','), text.size());
    std::string_view w = text.substr(0, end);
    while (w.starts_with(' ')) w.remove_prefix(1);
    while (w.ends_with(' ')) w.remove_suffix(1);
    if (!w.empty()) out.emplace_back(w);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out;
}

/// Whether the case gives the lengths of its runs in metres, most of them.
bool in_metres(const Case& job) {
  int metres = 0;
  const auto see = [&](const Given<Length>& l) {
    if (l) metres += l.text.ends_with('m') ? 1 : -1;
  };
  for (const Raceway& r : job.raceways) see(r.length);
  for (const Cable& k : job.cables) see(k.length);
  for (const Control& c : job.controls) see(c.length);
  return metres > 0;
}

/// Works the list out; what cannot be is said below it.
class Taking {
 public:
  Taking(const Source& source, Context& cx)
      : s_(source), cx_(cx), more_(1 + cx.parameter("material-list", "percent", units::percent)),
        unit_(in_metres(source.job) ? units::metre : units::foot),
        stick_(cx.parameter("material-list", in_metres(source.job) ? "metric-stick" : "stick", units::foot)) {}

  void run() {
    for (const Circuit& c : s_.job.circuits) apart(name_of(c), [&] { wires(c); });
    for (const Raceway& r : s_.job.raceways) apart(fmt::format("raceway {}", *r.name), [&] { raceway(r); });
    for (const Cable& k : s_.job.cables) apart(fmt::format("cable {}", *k.name), [&] { cable(k); });
    for (const Control& c : s_.job.controls) apart(name_of(c), [&] { control(c); });
    for (const Box& b : s_.job.boxes) list_.add(fmt::format("box {}{}", b.kind.value_or("as described"), b.size ? fmt::format(" {}", *b.size) : ""), 1, "", std::string(*b.name));
    for (const Circuit& c : s_.job.circuits) devices(c);
  }
  doc::Table table_of() const { return list_.table_of(); }
  const std::vector<std::string>& unknown() const { return unknown_; }
  double percent() const { return (more_ - 1) * 100; }
  std::string stick() const { return fmt::format("{} {}", number_text(shown(stick_), 1), unit_.name); }
  std::string_view whole_units() const { return unit_.name == units::foot.name ? "feet" : "metres"; }

 private:
  template <class F>
  void apart(const std::string& subject, F&& f) {
    try {
      f();
    } catch (const Stop& stop) {
      unknown_.push_back(fmt::format("{}: {}", subject, stop.message));
    } catch (const std::exception& e) {
      unknown_.push_back(fmt::format("{}: {}", subject, e.what()));
    }
  }

  double shown(Length l) const { return unit_.show(l); }

  void wire(const std::string& what, std::string_view color, double count, const Given<Length>& length, const std::string& where) {
    if (count > 0) list_.add(color.empty() ? what : fmt::format("{}, {}", what, color), count * shown(*length) * more_, unit_.name, where);
  }

  void wires(const Circuit& c) {
    const derive::Line line = derive::line_of(cx_, c);
    const std::vector<std::string> hots = words_of(c.wire.hot.value_or({}));
    for (const Stretch& st : c.path) {
      if (st.raceway == nullptr) continue;
      const derive::Conductors k = derive::conductors_on(cx_, c, st);
      const Given<Length>& length = derive::length_of(cx_, st);
      const std::string what = fmt::format("wire {} {}{}{}", k.size->label(), word(k.material), k.type.empty() ? "" : " ", k.type);
      const int grounded = line.conductors() - line.hots;
      for (int i = 0; i < line.hots; ++i) {
        const bool each = static_cast<int>(hots.size()) == line.hots;
        wire(what, each ? hots[static_cast<std::size_t>(i)] : hots.empty() ? "ungrounded" : hots.front(), k.sets, length, name_of(c));
      }
      wire(what, c.wire.neutral && *c.wire.neutral != "none" ? *c.wire.neutral : std::string_view("neutral"), grounded * k.sets, length, name_of(c));
      const derive::GroundOn g = derive::ground_on(cx_, c, st);
      if (!g.wire || g.shared != nullptr || !g.size) continue;
      const std::string ground = fmt::format("wire {} {}{}{}", g.size->label(), word(g.material), g.type.empty() || g.bare ? "" : " ", g.bare ? std::string_view{} : g.type);
      // One in each raceway, where sets in parallel are spread over several.
      wire(ground, g.bare ? "bare" : c.ground.color.value_or("green"), st.raceway->alike.value_or(1), length, name_of(c));
    }
  }

  /// Straps by the case's distances, else by the edition's: one within the first distance of each end, and between
  /// those none farther apart than the interval. Bends and offsets take more.
  double straps(const Raceway& r) {
    const Supports& held = r.laid.supports;
    const auto t = cx_.table("support");
    const auto row = t.find(*r.type, r.size->label());
    if (!row || held.none.value_or(false) || derive::buried(Way(r)) || r.more.encased.value_or(false) || r.sleeve.value_or(false)) return 0;
    const auto limit = [&](std::string_view column, const Unit<Length>& unit) { return unit.of(t.cell(*row, column).number().value_or(0)); };
    const Length first = held.from_box ? *held.from_box : limit("first", units::inch);
    const Length interval = held.every ? *held.every : limit("interval", units::foot);
    if (!(raw(interval) > 0)) return 0;
    const double between = shown(*r.length) - 2 * shown(first);
    if (between <= 0) return 1;
    return 2 + std::max(0.0, std::ceil(between / shown(interval) - slack) - 1);
  }

  void raceway(const Raceway& r) {
    cx_.need(r.type, "raceway.type", "it says what to buy");
    cx_.need(r.size, "raceway.size", "it says what to buy");
    cx_.need(r.length, "raceway.length", "it says how much");
    const std::string kind = fmt::format("{} {}", *r.type, r.size->label()), where = fmt::format("raceway {}", *r.name);
    const double alike = r.alike.value_or(1);
    if (derive::flexible(cx_, r)) {
      list_.add(kind, shown(*r.length) * more_ * alike, unit_.name, where);
    } else {
      const double sticks = std::ceil(shown(*r.length) / shown(stick_) - slack);
      list_.add(fmt::format("{}, sticks of {}", kind, stick()), sticks * alike, "", where);
      if (sticks > 1) list_.add(fmt::format("{} couplings", kind), (sticks - 1) * alike, "", where);
    }
    list_.add(fmt::format("{} connectors", kind), 2 * alike, "", where);
    if (const double n = straps(r) * alike; n > 0) list_.add(fmt::format("{} straps", kind), n, "", where);
  }

  void cable(const Cable& k) {
    cx_.need(k.type, "cable.type", "it says what to buy");
    cx_.need(k.length, "cable.length", "it says how much");
    std::string what = fmt::format("cable {}{}{}", *k.type, k.size ? " " : "", k.size ? k.size->label() : std::string_view{});
    if (k.conductors) what += fmt::format(", {} conductors", number_text(*k.conductors, 0));
    if (k.ground) what += fmt::format(" and {} ground", k.ground->label());
    list_.add(what, shown(*k.length) * more_, unit_.name, fmt::format("cable {}", *k.name));
  }

  void control(const Control& c) {
    cx_.need(c.length, "control.length", "it says how much");
    std::string what = fmt::format("control cable {}{}{}", c.cable.type.value_or({}), c.cable.type && c.cable.size ? " " : "", c.cable.size ? c.cable.size->label() : std::string_view{});
    if (c.cable.conductors) what += fmt::format(", {} conductors", number_text(*c.cable.conductors, 0));
    list_.add(what, shown(*c.length) * more_, unit_.name, name_of(c));
  }

  void devices(const Circuit& c) {
    const Breaker& b = c.breaker;
    if (b.rating) {
      std::string what = fmt::format("{} {}", b.kind ? word(*b.kind) : std::string_view("breaker"), b.rating.text);
      if (b.poles) what += fmt::format(", {} poles", number_text(*b.poles, 0));
      if (b.gfci.value_or(false)) what += ", ground-fault protection";
      if (b.afci.value_or(false)) what += ", arc-fault protection";
      list_.add(what, 1, "", name_of(c));
    }
    const Disconnect& d = c.disconnect;
    const bool own = d.kind && *d.kind != DisconnectKind::none && *d.kind != DisconnectKind::plug && *d.kind != DisconnectKind::unit_switch && *d.kind != DisconnectKind::breaker;
    if (own) list_.add(fmt::format("disconnect: {}{}{}", word(*d.kind), d.rating ? fmt::format(" {}", d.rating.text) : "", d.enclosure ? fmt::format(", enclosure {}", *d.enclosure) : ""), 1, "", name_of(c));
    if (c.receptacle.where) list_.add(fmt::format("receptacle{}{}", c.receptacle.rating ? " " : "", c.receptacle.rating ? c.receptacle.rating.text : std::string_view{}), std::max(1.0, c.receptacle.count.value_or(1)), "", name_of(c));
  }

  const Source& s_;
  Context& cx_;
  double more_;
  Unit<Length> unit_;
  Length stick_;
  Materials list_;
  std::vector<std::string> unknown_;
};

}  // namespace

void add_materials(Part& out, const Source& s) {
  out.heading(3, "Materials", "materials");
  Reckoning reckoning(s, "materials");
  try {
    Taking taking(s, reckoning.context());
    taking.run();
    out.paragraph(fmt::format("Wire, cable and flexible conduit with {}% more than the runs, rounded up to whole {}; conduit in sticks of {}. Straps by the distances of the case, "
                              "else of the rules, for a straight run: bends and offsets take more. Fittings, bushings, wire connectors, labels and what the appliance brings are not in it.",
                              number_text(taking.percent(), 0), taking.whole_units(), taking.stick()));
    out.add(taking.table_of());
    for (const std::string& line : taking.unknown()) out.paragraph(fmt::format("Not in the list: {}", line), doc::Role::warn);
  } catch (const Stop& stop) {
    out.paragraph(fmt::format("No list: {}", stop.message), doc::Role::warn);
  }
}

}  // namespace pullproof::report
