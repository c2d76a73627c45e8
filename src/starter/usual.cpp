// What is usual for an appliance, from the tables.
#include <fmt/format.h>

#include "core/text.hpp"
#include "job/measure.hpp"
#include "starter/plan.hpp"

namespace pullproof::starter {
namespace {

bool has(std::string_view text, std::string_view word) { return text.find(word) != std::string_view::npos; }

/// The voltage of the supply that takes the place of an appliance's usual one: 208 V where there is no 240 V.
std::string voltage_of(const std::string& system, const std::string& usual) {
  const MeasuredSystem m = read_system(system);
  const double v = read_quantity(usual, Dimension::voltage).si;
  if (!m.ok || v <= 0) return usual;
  const double lines = raw(m.system.line_to_line), neutral = raw(m.system.line_to_neutral);
  constexpr double low_voltage_appliance = 130;  // between what is meant for a line and the neutral and what for two lines
  const double fitting = v < low_voltage_appliance && neutral > 0 ? neutral : lines;
  return fmt::format("{} V", number_text(fitting, 0));
}

std::string text_of(const code::TableRef& t, std::size_t row, std::string_view column) { return std::string(t.cell(row, column).text()); }

}  // namespace

std::vector<std::string_view> appliances(const code::Edition& edition) {
  std::vector<std::string_view> names;
  if (const auto t = edition.table("starters"))
    for (std::size_t r = 0; r < t->rows(); ++r) names.push_back(t->cell(r, "appliance").text());
  return names;
}

bool is_cable(const code::Edition& edition, std::string_view method) {
  const auto t = edition.table("cable-types");
  return t && t->find(method);
}

Plan plan_for(const code::Edition& edition, std::string_view appliance) {
  const auto starters = edition.table("starters"), kinds = edition.table("appliances");
  const auto row = starters ? starters->find(appliance) : std::nullopt;
  const auto kind = kinds ? kinds->find(appliance) : std::nullopt;
  if (!row || !kind) throw std::out_of_range("no such appliance");
  Plan p;
  p.edition = edition.id();
  p.appliance = appliance;
  p.voltage = text_of(*starters, *row, "voltage");
  p.nameplate = text_of(*starters, *row, "nameplate");
  p.second = text_of(*starters, *row, "second");
  p.place = text_of(*starters, *row, "place");
  p.connection = text_of(*starters, *row, "connection");
  p.neutral = starters->cell(*row, "neutral").yes();
  p.vibrates = starters->cell(*row, "vibrates").yes();
  p.control = text_of(*starters, *row, "control");
  p.kind = text_of(*kinds, *kind, "kind");
  p.service_receptacle = !kinds->cell(*kind, "service").text().empty();
  p.alone = kinds->cell(*kind, "individual").text() != "no";
  follow(edition, p, {});
  return p;
}

void follow(const code::Edition& edition, Plan& p, const std::set<std::string>& given) {
  const auto open = [&](const char* key) { return !given.contains(key); };
  const bool outside = has(p.place, "outdoors");
  if (const auto starters = edition.table("starters"); starters && open("voltage"))
    if (const auto row = starters->find(p.appliance)) p.voltage = voltage_of(p.system, text_of(*starters, *row, "voltage"));
  const auto methods = edition.table("starter-methods");
  if (open("method")) p.method = outside || p.dwelling != "yes" || p.three_phase() ? "EMT" : "NM-B";
  if (open("route")) {
    const auto row = methods ? methods->find(p.method) : std::nullopt;
    p.route = row ? text_of(*methods, *row, "place") : "indoors, dry";
  }
  const bool cable = is_cable(edition, p.method);
  if (open("whip")) p.whip = !cable && p.connection == "hard-wired" && (outside || p.vibrates) ? "4 ft" : "";
  if (open("length")) p.length = "40 ft";
  if (const auto controls = edition.table("starter-controls"); controls && open("control_length"))
    if (const auto row = controls->find(p.control)) p.control_length = text_of(*controls, *row, "length");
  if (open("title")) {
    p.title = p.appliance;
    if (!p.title.empty()) p.title[0] = static_cast<char>(p.title[0] >= 'a' && p.title[0] <= 'z' ? p.title[0] - 32 : p.title[0]);
  }
}

}  // namespace pullproof::starter
