#include <fmt/format.h>

#include "engine/run.hpp"
#include "job/link.hpp"

namespace pullproof {
namespace {

class Fitter {
 public:
  Fitter(const Case& job, const code::Edition& edition, Diagnostics& d) : job_(job), edition_(edition), diagnostics_(d) {}

  void run() {
    for (const Raceway& r : job_.raceways) {
      if (r.type && known("raceway-types", r.type, "raceway type") && r.size) size_of_raceway(r);
      for (const Other& o : r.also) {
        if (!o.cable.value_or(false)) wire_type(o.type, o.size);
        else if (o.type && !has("cable-types-control", *o.type)) known("cable-types", o.type, "cable type");
      }
    }
    for (const Cable& c : job_.cables) {
      const bool good = !c.type || known("cable-types", c.type, "cable type");
      if (good && c.insulation) known("insulation", c.insulation, "insulation type");
      conductor(c.size);
      conductor(c.ground);
    }
    for (const Circuit& c : job_.circuits) {
      wires(c.wire, c.ground, {}, {});
      for (const Stretch& s : c.path) wires(s.wire, s.ground, c.wire, c.ground);
      if (c.load.appliance && edition_.table("appliances") && !outside(*c.load.appliance))
        known("appliances", c.load.appliance, "appliance");
    }
    for (const Control& c : job_.controls) {
      control_size(c.cable.size);
      control_size(c.cable.common_size);
      if (c.bus.kind) known("buses", c.bus.kind, "bus or link");
      known_device(c.load);
      for (const ControlLoad& l : c.also) known_device(l);
      // Class 1 runs are building wire, fixture wire or power cable.
      if (c.cable.type && !has("insulation", *c.cable.type) && !has("fixture-wire", *c.cable.type) && !has("cable-types", *c.cable.type) &&
          edition_.table("cable-types-control"))
        known("cable-types-control", c.cable.type, "control cable type");
    }
  }

 private:
  void complain(const Where& w, std::string message, std::string note = {}) {
    diagnostics_.add({job_.file, w.line, w.column, std::max<std::uint32_t>(1, w.length), std::move(message),
                      std::move(note), source_line(job_, w)});
  }

  /// Whether the name is of something that the scope check answers for.
  bool outside(std::string_view appliance) const {
    const auto t = edition_.table("outside-scope");
    for (std::size_t r = 0; t && r < t->rows(); ++r)
      if (appliance.find(t->cell(r, "word").text()) != std::string_view::npos) return true;
    return false;
  }

  void control_size(const Given<ConductorSize>& size) {
    if (!size || size->metric() || has("small-gauge", size->label()) || has("conductor-properties", size->label())) return;
    complain(size.where, fmt::format("no resistance is known for {}", size->label()), "control conductors run from 26 AWG up");
  }

  void known_device(const ControlLoad& l) {
    if (l.device) known("control-devices", l.device, "control device");
  }

  bool has(std::string_view table, std::string_view key) const {
    const auto t = edition_.table(table);
    return t && t->find(key);
  }

  bool known(std::string_view table, const Given<std::string_view>& name, std::string_view what) {
    const auto t = edition_.table(table);
    if (!t || t->find(*name)) return t.has_value();
    std::vector<std::string_view> names;
    for (std::size_t r = 0; r < t->rows(); ++r) names.push_back(t->cell(r, std::size_t{0}).text());
    const std::string_view near = nearest(*name, names);
    complain(name.where, fmt::format("'{}' is no {} known to {}", *name, what, edition_.title()),
             near.empty() ? fmt::format("known: {}", fmt::join(names, ", ")) : fmt::format("did you mean '{}'?", near));
    return false;
  }

  void size_of_raceway(const Raceway& r) {
    const auto t = edition_.table("raceway-dimensions");
    if (!t || r.inside_diameter || t->find(*r.type, r.size->label())) return;
    std::vector<std::string_view> sizes;
    for (std::size_t i = 0; i < t->rows(); ++i)
      if (t->cell(i, std::size_t{0}).text() == *r.type) sizes.push_back(t->cell(i, std::size_t{1}).text());
    complain(r.size.where, fmt::format("{} has no trade size {} in {}", *r.type, r.size->label(), t->clause()),
             fmt::format("sizes there: {}; or give inside_diameter", fmt::join(sizes, ", ")));
  }

  bool conductor(const Given<ConductorSize>& size) {
    if (!size || has("conductor-properties", size->label())) return true;
    complain(size.where, fmt::format("{} is no conductor size of the tables", size->label()),
             size->metric() ? "power conductors are sized in AWG or kcmil here" : "14 AWG through 4/0 AWG and 250 kcmil through 2000 kcmil, in their steps");
    return false;
  }

  void wire_type(const Given<std::string_view>& type, const Given<ConductorSize>& size) {
    const bool good = conductor(size);
    if (!type) return;
    if (has("fixture-wire", *type)) return;
    if (!known("insulation", type, "insulation type") || !size || !good) return;
    const auto t = edition_.table("insulation");
    const auto row = t->find(*type);
    const auto least = ConductorSize::parse(t->cell(*row, "smallest").text());
    const auto most = ConductorSize::parse(t->cell(*row, "largest").text());
    if ((least && *size < *least) || (most && *size > *most))
      complain(size.where, fmt::format("{} is not made in {} ({} lists {} through {})", *type, size->label(), t->clause(),
                                       t->cell(*row, "smallest").text(), t->cell(*row, "largest").text()));
  }

  /// What a stretch leaves out is the circuit's; a stretch that says nothing was judged with its circuit.
  void wires(const Wire& w, const Ground& g, const Wire& circuits_wire, const Ground& circuits_ground) {
    const auto either = [](const auto& own, const auto& circuits) { return own ? own : circuits; };
    if (w.type || w.size) wire_type(either(w.type, circuits_wire.type), either(w.size, circuits_wire.size));
    if (g.type || g.size) wire_type(either(g.type, circuits_ground.type), either(g.size, circuits_ground.size));
  }

  const Case& job_;
  const code::Edition& edition_;
  Diagnostics& diagnostics_;
};

}  // namespace

void fit_to_edition(const Case& job, const code::Edition& edition, Diagnostics& diagnostics) {
  Fitter(job, edition, diagnostics).run();
}

}  // namespace pullproof
