// A plan written down as a case.
#include <fmt/format.h>

#include <algorithm>

#include "core/text.hpp"
#include "job/measure.hpp"
#include "starter/draft.hpp"
#include "starter/plan.hpp"

namespace pullproof::starter {
namespace {

bool has(std::string_view text, std::string_view word) { return text.find(word) != std::string_view::npos; }

/// "rated" volts of the plan, 0 when it cannot be read.
double volts(const Plan& p) { return read_quantity(p.voltage, Dimension::voltage).si; }

class Writer {
 public:
  Writer(const code::Edition& edition, const Plan& p) : edition_(edition), p_(p), cable_(is_cable(edition, p.method)) {}

  std::string run() {
    head();
    supply();
    if (cable_) cable();
    else raceway();
    if (!p_.whip.empty()) whip();
    circuit();
    control();
    return d_.take();
  }

 private:
  static constexpr std::string_view run_name = "run", whip_name = "whip";

  void head() {
    if (p_.asked) {
      d_.remark("Written by `pullproof new` from your answers. Check it with `pullproof check` and the name of this file.");
    } else {
      d_.remark("A first case, to be made yours: put the figures of the nameplate and of the place where you");
      d_.remark("stand in place of these. Then run `pullproof check` and the name of this file.");
    }
    d_.remark("A line that begins with # is not known yet, or not needed: take the # away to say it.");
    d_.remark("`pullproof keys` lists everything that a case may say.");
    d_.table({}, {});
    d_.text("edition", p_.edition, "the code edition that your town adopted");
    if (p_.date.empty()) d_.open("date", "2026-11-25");
    else d_.plain("date", p_.date);
    d_.table("[job]", "job");
    d_.text("title", p_.title);
    if (p_.site.empty()) d_.open("site", "\"Lot 14, Pine Cove\"");
    else d_.text("site", p_.site);
  }

  void supply() {
    d_.table("[supply]", "supply");
    d_.text("system", p_.system);
    d_.plain("dwelling", p_.dwelling == "yes" ? "true" : "false");
    if (p_.available_fault.empty()) d_.open("available_fault", "\"9.2 kA\"", "fault current available at the panel: ask the utility");
    else d_.text("available_fault", p_.available_fault);
    d_.open("openings_closed", "true");
  }

  void where(std::string_view route) {
    d_.text("place", route);
    d_.text("ambient", p_.ambient);
  }

  void supports(std::string_view path, std::string_view table, std::string_view type, std::string_view size) {
    if (has(p_.route, "underground") && path != "whip") return;
    const auto t = edition_.table(table);
    if (!t) return;
    const auto row = t->keys() == 2 ? t->find(type, size) : t->find(type);
    if (!row) return;
    const auto every = t->cell(*row, "interval").number(), first = t->cell(*row, "first").number();
    if (!every || !first) return;
    d_.plain("supports", fmt::format("{{ every = \"{} ft\", from_box = \"{} in\" }}", number_text(*every, 2), number_text(*first, 2)),
             "what holds it: the most that the book allows");
  }

  void buried() {
    if (!has(p_.route, "underground")) return;
    d_.text("cover", p_.cover);
    d_.text("under", "ground");
  }

  void raceway() {
    d_.table("[[raceway]]", "raceway");
    d_.text("name", run_name);
    d_.text("type", p_.method, "EMT, PVC-40, LFMC and others");
    d_.text("size", p_.raceway);
    d_.text("length", p_.length);
    where(p_.route);
    d_.text("bends", "180°");
    supports("raceway", "support", p_.method, p_.raceway);
    buried();
    if (has(p_.route, "wet") && !has(p_.route, "underground")) {
      d_.plain("drains", "true");
      if (p_.method == "EMT") d_.text("fittings", "raintight");
    }
    if (has(p_.route, "underground")) d_.plain("sealed", "true");
    if (has(p_.route, "wet") && has(p_.method, "PVC")) d_.plain("sunlight_resistant", "true");
  }

  void cable() {
    d_.table("[[cable]]", "cable");
    d_.text("name", run_name);
    d_.text("type", p_.method);
    d_.text("size", p_.wire);
    d_.text("material", "copper");
    d_.plain("conductors", fmt::format("{}", hots() + (neutral() ? 1 : 0)));
    d_.text("ground", p_.ground);
    d_.text("length", p_.length);
    where(p_.route);
    supports("cable", "cable-support", p_.method, {});
    if (has(p_.route, "concealed")) d_.text("edge_distance", "1.5 in");
    if (has(p_.method, "NM")) d_.text("sheath_in_box", "0.5 in");
    buried();
    if (has(p_.route, "underground")) d_.plain("direct_burial", "true");
    if (has(p_.route, "outdoors")) d_.plain("sunlight_resistant", "true");
  }

  void whip() {
    const bool outside = has(p_.place, "outdoors");
    d_.table("[[raceway]]", "raceway");
    d_.text("name", whip_name, "the flexible piece at the appliance");
    d_.text("type", outside ? "LFMC" : "FMC", "flexible metal conduit");
    d_.text("size", p_.whip_size);
    d_.text("length", p_.whip);
    where(outside ? "outdoors, wet" : "indoors, dry");
    d_.text("bends", "90°");
    d_.plain("supports", "{ every = \"30 in\", from_box = \"12 in\" }", "what holds it");
    if (p_.vibrates) d_.plain("moves", "true");
    if (outside) {
      d_.plain("drains", "true");
      d_.plain("sealed", "true");
    }
  }

  /// What the circuit is called: the appliance without its kind.
  std::string_view name() const { return std::string_view(p_.appliance).substr(0, p_.appliance.find(',')); }
  bool neutral() const { return p_.neutral || (!p_.three_phase() && hots() == 1); }
  int hots() const {
    if (p_.three_phase()) return 3;
    const MeasuredSystem m = read_system(p_.system);
    const double v = volts(p_), to_neutral = m.ok ? raw(m.system.line_to_neutral) : 120;
    return to_neutral > 0 && v > 0 && v <= to_neutral * 1.06 ? 1 : 2;
  }

  void circuit() {
    d_.table("[[circuit]]", "circuit");
    d_.text("name", name());
    d_.text("voltage", p_.voltage, "voltage on the nameplate, as the supply has it");
    if (has(p_.system, "3-phase")) d_.plain("phases", p_.phases);
    std::vector<std::string> path{std::string(run_name)};
    if (!p_.whip.empty()) path.emplace_back(whip_name);
    d_.texts("path", path);
    if (p_.alone) d_.plain("individual", "true");
    d_.text("directory", fmt::format("{}, {}", name(), std::string_view(p_.place).substr(0, p_.place.find(','))), "its line in the panel's directory: what it feeds, and where");
    breaker();
    load();
    wire();
    if (p_.connection == "cord and plug") receptacle();
    disconnect();
    if (p_.service_receptacle) {
      d_.table("[circuit.service_receptacle]", "circuit.service_receptacle");
      d_.text("distance", "15 ft");
      d_.plain("gfci", "true");
      if (has(p_.place, "outdoors")) {
        d_.plain("weather_resistant", "true");
        d_.text("cover", "in use");
      }
      if (p_.dwelling == "yes") d_.plain("tamper_resistant", "true");
    }
  }

  void breaker() {
    d_.table("[circuit.breaker]", "circuit.breaker");
    d_.text("rating", p_.breaker);
    if (hots() > 1) d_.plain("poles", fmt::format("{}", hots()));
    d_.text("interrupting", p_.interrupting.empty() ? "10 kA" : p_.interrupting);
    if (p_.gfci == "yes") d_.plain("gfci", "true");
    else d_.open("gfci", "true");
    if (p_.afci == "yes") d_.plain("afci", "true");
    d_.open("terminals", "\"75 °C\"");
  }

  void load() {
    d_.table("[circuit.load]", "circuit.load");
    d_.text("appliance", p_.appliance, "what it is: `pullproof rules show appliances`");
    nameplate();
    d_.text("place", p_.place);
    d_.text("connection", p_.connection);
    if (hots() > 1) d_.plain("needs_neutral", p_.neutral ? "true" : "false");
    if (p_.vibrates) d_.plain("vibrates", "true");
    d_.open("terminals", "\"75 °C\"");
    d_.open("continuous", "true");
    if (p_.connection == "cord and plug") d_.plain("cord_permitted", "true");
  }

  void nameplate() {
    if (p_.kind == "cooling") {
      d_.text("minimum_circuit_ampacity", p_.nameplate);
      d_.text("maximum_device", p_.second);
      d_.open("short_circuit_rating", "\"5 kA\"");
    } else if (p_.kind == "motor") {
      d_.plain("motors", fmt::format("[{{ horsepower = {}, kind = \"{}\", nameplate_current = {} }}]", quoted_toml(p_.nameplate),
                                     p_.three_phase() ? "polyphase" : "single-phase", quoted_toml(p_.second)));
    } else {
      const bool amperes = p_.nameplate.ends_with("A") && !p_.nameplate.ends_with("VA");
      d_.text(amperes ? "current" : p_.nameplate.ends_with("VA") ? "apparent_power" : "power", p_.nameplate);
    }
  }

  void wire() {
    d_.table("[circuit.wire]", "circuit.wire");
    if (!cable_ || !p_.whip.empty()) {
      d_.text("size", p_.wire);
      d_.text("material", "copper");
      d_.text("type", "THHN/THWN-2");
    }
    d_.text("hot", "black");
    d_.text("neutral", neutral() ? "white" : "none");
    if (cable_ && !neutral() && !p_.three_phase()) d_.plain("white_remarked", "true");
    if (cable_ && p_.whip.empty()) return;
    d_.table("[circuit.ground]", "circuit.ground");
    d_.text("size", p_.ground);
    d_.text("color", "green");
  }

  void receptacle() {
    const bool outside = has(p_.place, "outdoors");
    d_.table("[circuit.receptacle]", "circuit.receptacle");
    d_.text("rating", p_.receptacle);
    d_.text("kind", "single");
    d_.plain("readily_accessible", "true");
    if (outside) {
      d_.plain("weather_resistant", "true");
      d_.text("cover", "in use");
    }
    if (p_.dwelling == "yes") d_.plain("tamper_resistant", "true");
    if (has(p_.place, "kitchen")) d_.open("sink_distance", "\"9 ft\"");
  }

  void disconnect() {
    d_.table("[circuit.disconnect]", "circuit.disconnect");
    if (p_.connection == "cord and plug") return d_.text("kind", "cord and plug", "the plug turns it off");
    d_.text("kind", "switch", "breaker, switch, pull-out and others");
    d_.plain("within_sight", "true", "seen from the appliance, at most 50 ft from it");
    d_.plain("readily_accessible", "true", "reached at once, without ladder or tool");
    d_.text("rating", p_.disconnect, "its ampere rating");
    if (p_.kind == "motor") d_.text("horsepower", p_.nameplate);
    if (has(p_.place, "outdoors")) d_.text("enclosure", "3R");
    if (p_.kind == "cooling") {
      d_.plain("locked_cover", "true");
      d_.plain("working_space", "{ depth = \"36 in\", width = \"30 in\", height = \"6 ft 6 in\" }", "the room in front of it");
    }
  }

  void control() {
    const auto t = edition_.table("starter-controls");
    const auto row = t && !p_.control.empty() ? t->find(p_.control) : std::nullopt;
    if (!row) return;
    const auto cell = [&](std::string_view column) { return t->cell(*row, column).text(); };
    d_.table("[[control]]", "control");
    d_.text("name", p_.control);
    d_.text("serves", name());
    d_.text("length", p_.control_length);
    d_.text("place", "indoors, dry");
    d_.table("[control.source]", "control.source");
    d_.plain("class", "2");
    d_.text("voltage", cell("voltage"));
    d_.text("maximum_voltage", cell("highest"));
    d_.text("rating", cell("rating"));
    d_.table("[control.cable]", "control.cable");
    d_.text("size", cell("size"));
    d_.plain("conductors", number_text(t->cell(*row, "conductors").number().value_or(2), 0));
    d_.text("type", cell("type"));
    d_.text("stranding", cell("stranding"));
    d_.table("[control.load]", "control.load");
    d_.text("current", cell("current"));
    d_.text("minimum_voltage", cell("lowest"));
  }

  const code::Edition& edition_;
  const Plan& p_;
  bool cable_;
  Draft d_;
};

}  // namespace

std::string compose(const code::Edition& edition, const Plan& plan) { return Writer(edition, plan).run(); }

}  // namespace pullproof::starter
