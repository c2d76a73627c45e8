// Schedules: conductors and what they run in, overcurrent devices, control runs, the load on the service.
#include <fmt/format.h>

#include <cmath>

#include "derive/line.hpp"
#include "derive/load.hpp"
#include "derive/wiring.hpp"
#include "job/words.hpp"
#include "report/parts.hpp"
#include "report/steps.hpp"
#include "report/summary.hpp"

namespace pullproof::report {
namespace {

using doc::Role;
using doc::Spans;
using Align = doc::Table::Align;

template <class T>
std::string text_of(const Given<T>& g) { return std::string(g ? g.text : std::string_view{}); }
std::string text_of(const Given<std::string_view>& g) { return std::string(g.value_or({})); }

/// The parts that are there, one space between them.
std::string joined(std::initializer_list<std::string_view> parts, std::string_view between = " ") {
  std::string s;
  for (const std::string_view p : parts)
    if (!p.empty()) s += fmt::format("{}{}", s.empty() ? "" : between, p);
  return s;
}

std::string way_text(const Stretch& st) {
  if (st.raceway != nullptr) {
    const double alike = st.raceway->alike.value_or(1);
    return joined({alike > 1 ? fmt::format("{} ×", number_text(alike, 0)) : std::string{}, text_of(st.raceway->type), st.raceway->size ? st.raceway->size->label() : std::string_view{}});
  }
  return st.cable == nullptr ? std::string{} : joined({"cable", text_of(st.cable->type), st.cable->inside ? fmt::format("in '{}'", *st.cable->inside) : std::string{}});
}

Spans length_text(const Stretch& st) {
  if (st.raceway != nullptr) return as_written(st.raceway->length);
  return st.cable != nullptr ? as_written(st.cable->length) : Spans{};
}

Spans place_text(const Stretch& st) {
  const Given<Place>& p = derive::place_of(st);
  return as_written(p);
}

Spans conductors_text(const Source& s, const Circuit& c, const Stretch& st) {
  std::string why;
  const auto text = reckon(s, name_of(c), why, [&](Context& cx) {
    const derive::Line line = derive::line_of(cx, c);
    const derive::Conductors k = derive::conductors_on(cx, c, st);
    std::string t = fmt::format("{} × {} {}", number_text(line.conductors() * k.sets, 0), k.size->label(), word(k.material));
    if (!k.type.empty()) t += fmt::format(" {}", k.type);
    if (st.cable == nullptr) {
      const std::string colors = joined({text_of(c.wire.hot), line.neutral ? text_of(c.wire.neutral) : std::string{}}, ", ");
      if (!colors.empty()) t += fmt::format("; {}", colors);
    }
    return t;
  });
  return text ? plain(*text) : plain(why, Role::faint);
}

Spans ground_text(const Source& s, const Circuit& c, const Stretch& st) {
  std::string why;
  const auto text = reckon(s, name_of(c), why, [&](Context& cx) -> std::string {
    const derive::GroundOn g = derive::ground_on(cx, c, st);
    if (g.shared != nullptr) return fmt::format("that of {}", name_of(*g.shared));
    if (g.raceway) return "the raceway";
    if (!g.wire) return st.cable != nullptr ? "none, or its armor" : "none";
    return joined({g.size ? g.size->label() : std::string_view{}, word(g.material), g.bare ? "bare" : std::string_view{}, st.cable == nullptr ? text_of(c.ground.color) : std::string{}});
  });
  return text ? plain(*text) : plain(why, Role::faint);
}

std::string from_to(const Source& s, const Circuit& c) {
  std::string from = c.feeder != nullptr ? name_of(*c.feeder) : s.job.supply.name ? std::string(*s.job.supply.name) : std::string("the supply");
  const std::string to = c.role.value_or(CircuitRole::branch) == CircuitRole::feeder ? std::string("a further panel") : c.load.appliance ? std::string(*c.load.appliance) : std::string("its load");
  return fmt::format("{}, from {} to {}", name_of(c), from, to);
}

void conductor_schedule(Part& out, const Source& s) {
  out.heading(3, "Conductors, conduit and cable", "conductors");
  bool any = false;
  for (const Circuit& c : s.job.circuits) {
    doc::Table t = table(from_to(s, c), {{"Stretch"}, {"Raceway or cable"}, {"Length", Align::end, true}, {"Place"}, {"Conductors"}, {"Ground"}});
    for (const Stretch& st : c.path)
      t.rows.push_back({plain(derive::name_of(st)), plain(way_text(st)), length_text(st), place_text(st), conductors_text(s, c, st), ground_text(s, c, st)});
    any = any || !t.rows.empty();
    out.add(std::move(t));
  }
  doc::Table controls = table("Control runs", {{"Run"}, {"Source"}, {"Cable"}, {"Length", Align::end, true}, {"Path"}, {"Feeds"}});
  for (const Control& c : s.job.controls) {
    std::string path;
    for (const Stretch& st : c.path) path += fmt::format("{}{}", path.empty() ? "" : ", ", derive::name_of(st));
    if (path.empty()) path = text_of(c.place);
    const std::string source = joined({c.source.control_class ? fmt::format("Class {}", number_text(*c.source.control_class, 0)) : std::string{}, text_of(c.source.voltage), text_of(c.source.rating)}, ", ");
    const std::string cable = joined({c.cable.size ? c.cable.size->label() : std::string_view{}, c.cable.conductors ? fmt::format("{} conductors", number_text(*c.cable.conductors, 0)) : std::string{}, text_of(c.cable.type)}, ", ");
    const std::string feeds = joined({text_of(c.load.name), text_of(c.load.current), text_of(c.load.apparent_power), c.serves ? fmt::format("for {}", *c.serves) : std::string{}}, ", ");
    controls.rows.push_back({plain(*c.name), plain(source), plain(cable), as_written(c.length), plain(path), plain(feeds)});
  }
  any = any || !controls.rows.empty();
  out.add(std::move(controls));
  if (!any) out.paragraph("The case describes no run.");
}

std::string protection_text(const Circuit& c) {
  const std::string gfci = c.breaker.gfci.value_or(false) ? c.breaker.gfci_class ? fmt::format("ground fault, class {}", word(*c.breaker.gfci_class)) : std::string("ground fault") : std::string{};
  return joined({gfci, c.breaker.afci.value_or(false) ? "arc fault" : std::string_view{}}, ", ");
}

std::string load_text(const Source& s, const Circuit& c) {
  std::string why;
  const auto amperes = reckon(s, name_of(c), why, [&](Context& cx) {
    return derive::drawn_current(cx, c, derive::line_of(cx, c)).value;
  });
  return amperes ? fmt::format("{} A", number_text(raw(*amperes), 2)) : std::string{};
}

/// Spaces of the panel before and after, where the case says how many are free.
void spaces(Part& out, const Source& s) {
  const Given<double>& free = s.job.supply.panel.free_spaces;
  if (!free) return;
  double taken = 0;
  for (const Circuit& c : s.job.circuits) {
    if (c.feeder != nullptr || c.load.replacement.value_or(false)) continue;
    std::string why;
    const auto poles = c.breaker.poles ? std::optional<double>(*c.breaker.poles)
                                       : reckon(s, name_of(c), why, [&](Context& cx) { return double(derive::line_of(cx, c).hots); });
    if (!poles) return out.paragraph(fmt::format("Free pole spaces before this job: {}. How many {} takes is not known: {}", number_text(*free, 0), name_of(c), why));
    taken += c.breaker.tandem.value_or(false) ? *poles / 2 : *poles;
  }
  out.paragraph(taken <= *free ? fmt::format("Free pole spaces of the panel: {} before this job, {} after it.", number_text(*free, 0), number_text(*free - taken, 1))
                               : fmt::format("Free pole spaces of the panel: {}. This job takes {}.", number_text(*free, 0), number_text(taken, 1)));
}

void device_schedule(Part& out, const Source& s) {
  if (s.job.circuits.empty()) return;
  out.heading(3, "Overcurrent devices and panel directory", "devices");
  doc::Table t = table("Devices of this job", {{"Circuit"}, {"Panel position", Align::end, true}, {"Device"}, {"Poles", Align::end, true}, {"Interrupting", Align::end, true},
                                               {"Protects from"}, {"Load", Align::end, true}, {"For the panel directory"}});
  for (const Circuit& c : s.job.circuits) {
    const std::string device = joined({text_of(c.breaker.rating), c.breaker.kind ? word(*c.breaker.kind) : std::string_view("breaker"), c.breaker.tandem.value_or(false) ? "tandem" : std::string_view{}, text_of(c.breaker.model)}) +
                               (c.breaker.terminals ? fmt::format(", terminals {}", c.breaker.terminals.text) : std::string{});
    const bool feeder = c.role.value_or(CircuitRole::branch) == CircuitRole::feeder;
    const std::string what = feeder ? fmt::format("feeder {}", *c.name) : c.load.appliance ? std::string(*c.load.appliance) : std::string(*c.name);
    t.rows.push_back({plain(*c.name), as_written(c.number), plain(device), c.breaker.poles ? plain(number_text(*c.breaker.poles, 0)) : Spans{}, as_written(c.breaker.interrupting),
                      plain(protection_text(c)), plain(load_text(s, c)), plain(joined({what, text_of(c.load.place)}, ", "))});
  }
  out.add(std::move(t));
  spaces(out, s);
}

std::string_view yes_or_no(const Given<bool>& g) { return !g ? std::string_view{} : *g ? "yes" : "no"; }

void disconnect_schedule(Part& out, const Source& s) {
  doc::Table t = table("What turns the equipment off", {{"Circuit"}, {"Disconnect"}, {"Rating", Align::end, true}, {"Poles", Align::end, true}, {"Enclosure"}, {"In sight"}, {"Can be locked open"}});
  for (const Circuit& c : s.job.circuits) {
    const Disconnect& d = c.disconnect;
    if (!d.where || !d.kind) continue;
    t.rows.push_back({plain(*c.name), plain(word(*d.kind)), as_written(d.rating), d.poles ? plain(number_text(*d.poles, 0)) : Spans{}, as_written(d.enclosure),
                      plain(yes_or_no(d.within_sight)), plain(yes_or_no(d.lockable))});
  }
  if (t.rows.empty()) return;
  out.heading(3, "Disconnects", "disconnects");
  out.add(std::move(t));
}

void load_sheet(Part& out, const Source& s) {
  const Service& service = s.job.supply.service;
  if (!service.where) return;
  out.heading(3, "Load on the service", "load-sheet");
  bool any = false;
  for (const Finding& f : s.report.findings) {
    if (f.check != "service-load" || f.sheet >= s.report.sheets.size()) continue;
    const Working& w = s.report.sheets[f.sheet].working;
    out.paragraph(fmt::format("{}: {}", name(f.verdict), f.message), Role::strong);
    out.add(working_table(s.report, w, steps_behind(w, f), "Load on the service, line by line"));
    any = true;
  }
  if (!any) out.paragraph("The load on the service was not worked out.");
}

}  // namespace

void add_schedules(Part& out, const Source& s) {
  out.heading(2, "Schedules", "schedules");
  conductor_schedule(out, s);
  device_schedule(out, s);
  disconnect_schedule(out, s);
  load_sheet(out, s);
}

}  // namespace pullproof::report
