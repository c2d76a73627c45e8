#include "job/link.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace pullproof {

std::string source_line(const Case& c, const Where& where) {
  std::string_view text = c.text;
  for (std::uint32_t n = 1; n < where.line; ++n) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  std::string_view line = text.substr(0, std::min(text.find('\n'), text.size()));
  if (line.ends_with('\r')) line.remove_suffix(1);
  return std::string(line);
}

namespace {

class Linker {
 public:
  Linker(Case& c, Diagnostics& d) : case_(c), diagnostics_(d) {}

  void run() {
    std::map<std::string_view, const Raceway*> raceways;
    std::map<std::string_view, const Cable*> cables;
    std::map<std::string_view, const Circuit*> circuits;
    std::map<std::string_view, Where> ways, controls;
    for (const Raceway& r : case_.raceways)
      if (named(r.name, r.where, "raceway", ways)) raceways[r.name.value] = &r;
    for (const Cable& r : case_.cables)
      if (named(r.name, r.where, "cable", ways)) cables[r.name.value] = &r;
    std::map<std::string_view, Where> circuit_names;
    for (const Circuit& r : case_.circuits)
      if (named(r.name, r.where, "circuit", circuit_names)) circuits[r.name.value] = &r;
    for (const Control& r : case_.controls) named(r.name, r.where, "control", controls);

    for (const Cable& c : case_.cables)
      if (c.inside && !raceways.contains(*c.inside)) dangling(c.inside, "raceway", raceways);
    const auto path = [&](std::vector<Stretch>& stretches) {
      std::set<std::string_view> once;
      for (Stretch& s : stretches) {
        if (!s.in) {
          if (!s.in.where) complain(s.where, "this stretch does not say what it is in", "write { in = \"...\" }");
          continue;
        }
        if (const auto r = raceways.find(*s.in); r != raceways.end()) s.raceway = r->second;
        else if (const auto k = cables.find(*s.in); k != cables.end()) s.cable = k->second;
        else dangling(s.in, "raceway or cable", ways);
        if (!once.insert(*s.in).second) complain(s.in.where, fmt::format("'{}' is in this path twice", *s.in));
      }
    };
    for (Circuit& c : case_.circuits) {
      path(c.path);
      share(c.ground, c, circuits);
      for (Stretch& s : c.path) share(s.ground, c, circuits);
      for (const auto* apart : {&c.neutral_path, &c.ground_path})
        for (const Given<std::string_view>& name : *apart)
          if (name && *name != "outside" && !ways.contains(*name)) dangling(name, "raceway or cable", ways);
      if (!c.fed_by) continue;
      const auto f = circuits.find(*c.fed_by);
      if (f == circuits.end()) dangling(c.fed_by, "circuit", circuits);
      else if (f->second->role.value_or(CircuitRole::branch) != CircuitRole::feeder)
        complain(c.fed_by.where, fmt::format("circuit '{}' is no feeder", *c.fed_by), "give it role = \"feeder\"");
      else c.feeder = f->second;
    }
    for (Circuit& c : case_.circuits) {
      std::set<const Circuit*> seen{&c};
      for (const Circuit* f = c.feeder; f != nullptr; f = f->feeder)
        if (!seen.insert(f).second) {
          complain(c.fed_by.where, "these feeders feed one another in a ring");
          c.feeder = nullptr;
          break;
        }
    }
    dwelling_from_occupancy(case_.supply);
    std::map<std::string_view, Where> boxes;
    for (Box& b : case_.boxes) {
      named(b.name, b.where, "box", boxes);
      for (BoxEntry& e : b.entries) {
        if (!e.in) {
          if (!e.in.where) complain(e.where, "this entry does not say what enters", "write { in = \"...\" }");
          continue;
        }
        if (const auto r = raceways.find(*e.in); r != raceways.end()) e.raceway = r->second;
        else if (const auto k = cables.find(*e.in); k != cables.end()) e.cable = k->second;
        else dangling(e.in, "raceway or cable", ways);
      }
    }
    for (Control& c : case_.controls) {
      path(c.path);
      for (const Stretch& s : c.path)
        if (s.cable != nullptr) complain(s.in.where, fmt::format("'{}' is a power cable; a control cable runs in raceways", *s.in));
      c.served = circuit(c.serves, circuits);
      c.source.feeder = circuit(c.source.fed_by, circuits);
      for (ControlEnclosure& e : c.enclosures) e.circuit = circuit(e.power, circuits);
      if (!c.supports.raceway) continue;
      const auto r = raceways.find(*c.supports.raceway);
      if (r == raceways.end()) dangling(c.supports.raceway, "raceway", raceways);
      else c.supports.held_by = r->second;
    }
  }

 private:
  using Circuits = std::map<std::string_view, const Circuit*>;
  /// The circuit of that name, with a complaint where there is none; null where no name is given.
  const Circuit* circuit(const Given<std::string_view>& name, const Circuits& circuits) {
    if (!name) return nullptr;
    const auto at = circuits.find(*name);
    if (at != circuits.end()) return at->second;
    dangling(name, "circuit", circuits);
    return nullptr;
  }

  void complain(const Where& w, std::string message, std::string note = {}) {
    if (diagnostics_.full()) return diagnostics_.add({});  // counted alone
    diagnostics_.add({case_.file, w.line, w.column, std::max<std::uint32_t>(1, w.length), std::move(message),
                      std::move(note), source_line(case_, w)});
  }

  /// What an occupancy says of dwellings need not be said twice.
  static void dwelling_from_occupancy(Supply& s) {
    if (!s.occupancy || s.dwelling) return;
    const Occupancy o = *s.occupancy;
    s.dwelling = {o == Occupancy::one_family || o == Occupancy::two_family || o == Occupancy::multifamily, true, s.occupancy.where, s.occupancy.text};
  }

  /// Another circuit's grounding wire: that circuit has one of its own.
  void share(Ground& g, const Circuit& own, const std::map<std::string_view, const Circuit*>& circuits) {
    if (!g.shared_with) return;
    const auto f = circuits.find(*g.shared_with);
    const auto borrows = [](const Circuit& c) {
      return c.ground.shared_with || std::any_of(c.path.begin(), c.path.end(), [](const Stretch& s) { return s.ground.shared_with.present; });
    };
    if (f == circuits.end()) dangling(g.shared_with, "circuit", circuits);
    else if (f->second == &own || borrows(*f->second))
      complain(g.shared_with.where, fmt::format("'{}' has no grounding wire of its own to share", *g.shared_with));
    else if (g.size) complain(g.size.where, "a wire of its own and another circuit's: one of the two");
    else g.shared = f->second;
  }

  bool named(const Given<std::string_view>& name, const Where& where, std::string_view what,
             std::map<std::string_view, Where>& seen) {
    if (!name) {
      nameless_ = true;
      if (!name.where) complain(where, fmt::format("this {} has no name", what), "write name = \"...\"");
      return false;
    }
    const auto [at, fresh] = seen.try_emplace(*name, name.where);
    if (!fresh) complain(name.where, fmt::format("there is a {} already, on line {}", quoted(*name), at->second.line));
    return fresh;
  }

  template <class Map>
  void dangling(const Given<std::string_view>& name, std::string_view what, const Map& known) {
    if (nameless_) return;  // it may be meant for something whose name cannot be read
    if (diagnostics_.full()) return diagnostics_.add({});
    std::vector<std::string_view> names;
    for (const auto& [n, x] : known) names.push_back(n);
    constexpr std::size_t many = 300;
    const std::string_view near = names.size() > many ? std::string_view{} : nearest(*name, names);
    std::string note;
    if (!near.empty()) note = fmt::format("did you mean '{}'?", near);
    else if (names.size() > 12) note = fmt::format("there are {} others", names.size());
    else if (!names.empty()) note = fmt::format("there is: {}", fmt::join(names, ", "));
    complain(name.where, fmt::format("no {} is called {}", what, quoted(*name)), std::move(note));
  }

  Case& case_;
  Diagnostics& diagnostics_;
  bool nameless_ = false;
};

}  // namespace

void link_names(Case& c, Diagnostics& diagnostics) { Linker(c, diagnostics).run(); }

}  // namespace pullproof
