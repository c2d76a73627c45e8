#include "answers/choices.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "job/edit.hpp"

namespace pullproof::answers {
namespace {

using Values = std::vector<std::string>;

template <class T>
bool has(const std::vector<T>& all, const T& one) { return std::find(all.begin(), all.end(), one) != all.end(); }

/// The texts of a column of the rows that fit, in their order, each once.
template <class Fits>
Values column(const code::Edition& edition, std::string_view table, std::string_view name, Fits fits) {
  Values out;
  const auto t = edition.table(table);
  if (!t || !t->has_column(name)) return out;
  for (std::size_t r = 0; r < t->rows(); ++r) {
    std::string text = toml_string(t->cell(r, name).text());
    if (fits(*t, r) && !has(out, text)) out.push_back(std::move(text));
  }
  return out;
}

/// The items of a list in a rule.
Values list(const code::Edition& edition, std::string_view rule, std::string_view parameter) {
  Values out;
  if (const auto r = edition.rule(rule))
    for (const code::CellRef& item : r->list(parameter)) out.push_back(toml_string(item.text()));
  return out;
}

Values device_ratings(const Case& job, const code::Edition& edition, std::size_t i) {
  Values out;
  const auto t = edition.table("standard-ratings");
  if (!t) return out;
  const std::string_view kind = job.circuits[i].breaker.kind.value_or(DeviceKind::breaker) == DeviceKind::fuse ? "fuse" : "breaker";
  for (std::size_t r = 0; r < t->rows(); ++r)
    if (const auto rating = t->cell(r, "rating").number(); rating && t->cell(r, kind).yes()) out.push_back(fmt::format("\"{} A\"", *rating));
  return out;
}

Values conductors(const Case&, const code::Edition& edition, std::size_t) {
  return column(edition, "conductor-properties", "size", [](const auto&, std::size_t) { return true; });
}

/// Of one material and type, so that a raceway of another keeps its own.
Values trade_sizes(const Case& job, const code::Edition& edition, std::size_t i) {
  const Raceway& raceway = job.raceways[i];
  if (!raceway.type) return {};
  return column(edition, "raceway-dimensions", "size", [&](const code::TableRef& t, std::size_t r) { return t.cell(r, "type").text() == *raceway.type; });
}

Values box_sizes(const Case& job, const code::Edition& edition, std::size_t i) {
  const Box& box = job.boxes[i];
  const auto t = edition.table("box-sizes");
  if (!t || !box.kind || box.volume) return {};
  std::vector<std::pair<double, std::string>> sizes;
  for (std::size_t r = 0; r < t->rows(); ++r)
    if (t->cell(r, "kind").text() == *box.kind) sizes.emplace_back(t->cell(r, "volume").number().value_or(0), toml_string(t->cell(r, "size").text()));
  std::stable_sort(sizes.begin(), sizes.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
  Values out;
  for (auto& [volume, size] : sizes) out.push_back(std::move(size));
  return out;
}

Values interrupting(const Case&, const code::Edition& edition, std::size_t) { return list(edition, "interrupting-ratings", "ratings"); }
Values switches(const Case& job, const code::Edition& edition, std::size_t i) {
  const Given<DisconnectKind>& kind = job.circuits[i].disconnect.kind;
  return list(edition, "switch-ratings", kind && *kind == DisconnectKind::snap_switch ? "snap" : "ratings");
}
Values receptacles(const Case&, const code::Edition& edition, std::size_t) { return list(edition, "receptacle-ratings", "ratings"); }
Values transformers(const Case&, const code::Edition& edition, std::size_t) { return list(edition, "control-transformers", "ratings"); }
/// In gauges, or in mm² for a cable that is metric now.
Values control_sizes(const Case& job, const code::Edition& edition, std::size_t i) {
  const ControlCable& cable = job.controls[i].cable;
  return list(edition, "control-sizes", cable.size && cable.size->metric() ? "metric" : "sizes");
}
Values ground_colors(const Case&, const code::Edition& edition, std::size_t) {
  Values out = list(edition, "ground-color", "colors");
  std::erase(out, "\"bare\"");
  return out;
}
Values neutral_colors(const Case&, const code::Edition& edition, std::size_t) { return list(edition, "neutral-color", "colors"); }
Values usual_hot_colors(const Case&, const code::Edition&, std::size_t) { return {"\"black\"", "\"red\"", "\"blue\""}; }
Values usual_wires(const Case&, const code::Edition&, std::size_t) { return {"\"THHN/THWN-2\"", "\"XHHW-2\""}; }
Values raceway_types(const Case&, const code::Edition& edition, std::size_t) {
  return column(edition, "raceway-types", "type", [](const auto&, std::size_t) { return true; });
}
Values control_cables(const Case&, const code::Edition& edition, std::size_t) {
  return column(edition, "cable-types-control", "type", [](const auto&, std::size_t) { return true; });
}
Values terminals(const Case&, const code::Edition&, std::size_t) { return {"\"75 °C\""}; }
Values rainproof(const Case&, const code::Edition&, std::size_t) { return {"\"3R\""}; }
Values raintight(const Case&, const code::Edition&, std::size_t) { return {"\"raintight\""}; }
Values in_use(const Case&, const code::Edition&, std::size_t) { return {"\"in use\""}; }
Values copper(const Case&, const code::Edition&, std::size_t) { return {"\"copper\""}; }
Values poles(const Case&, const code::Edition&, std::size_t) { return {"1", "2", "3"}; }
Values yes(const Case&, const code::Edition&, std::size_t) { return {"true"}; }
Values no(const Case&, const code::Edition&, std::size_t) { return {"false"}; }
Values structure(const Case&, const code::Edition&, std::size_t) { return {"\"structure\""}; }
Values chained(const Case&, const code::Edition&, std::size_t) { return {"\"daisy chain\""}; }
Values ends(const Case&, const code::Edition&, std::size_t) { return {"2", "0"}; }
/// From fast to slow, as buses are set.
Values bit_rates(const Case&, const code::Edition& edition, std::size_t) { return list(edition, "bus-rates", "rates"); }
Values small_fuses(const Case&, const code::Edition& edition, std::size_t) { return list(edition, "control-fuses", "ratings"); }
/// What the check names as enough, and nothing else.
Values limit(const Case&, const code::Edition&, std::size_t) { return {}; }

using enum Kind;

constexpr Choice choices[] = {
    {circuit, "breaker.rating", true, device_ratings},
    {circuit, "wire.size", true, conductors},
    {cable, "size", true, conductors},
    {cable, "ground", true, conductors},
    {circuit, "ground.size", true, conductors},
    {raceway, "size", true, trade_sizes},
    {box, "size", true, box_sizes},
    {circuit, "breaker.interrupting", true, interrupting},
    {circuit, "disconnect.rating", true, switches},
    {circuit, "receptacle.rating", true, receptacles},
    {control, "source.rating", true, transformers},
    {control, "cable.size", true, control_sizes},
    {circuit, "wire.hot", false, usual_hot_colors},
    {circuit, "wire.neutral", false, neutral_colors},
    {circuit, "ground.color", false, ground_colors},
    {circuit, "ground.marked", false, yes},
    {circuit, "wire.neutral_marked", false, yes},
    {circuit, "wire.white_remarked", false, yes},
    {circuit, "breaker.gfci", false, yes},
    {circuit, "breaker.afci", false, yes},
    {circuit, "breaker.handle_ties", false, yes},
    {circuit, "breaker.poles", false, poles},
    {circuit, "breaker.terminals", false, terminals},
    {circuit, "breaker.wires_per_terminal", false, limit},
    {circuit, "neutral_pigtailed", false, yes},
    {circuit, "electrode_wire", false, conductors},
    {circuit, "disconnect.marked", false, yes},
    {circuit, "disconnect.source_marked", false, yes},
    {circuit, "disconnect.lockable", false, yes},
    {circuit, "disconnect.lock_stays", false, yes},
    {circuit, "disconnect.enclosure", false, rainproof},
    {circuit, "disconnect.locked_cover", false, yes},
    {circuit, "disconnect.on_removable_panel", false, no},
    {circuit, "disconnect.over_nameplate", false, no},
    {circuit, "disconnect.working_space.depth", false, limit},
    {circuit, "disconnect.working_space.width", false, limit},
    {circuit, "disconnect.working_space.height", false, limit},
    {circuit, "disconnect.working_space.storage", false, no},
    {circuit, "receptacle.tamper_resistant", false, yes},
    {circuit, "receptacle.weather_resistant", false, yes},
    {circuit, "receptacle.cover", false, in_use},
    {circuit, "receptacle.listed_for_vehicles", false, yes},
    {circuit, "service_receptacle.tamper_resistant", false, yes},
    {circuit, "service_receptacle.weather_resistant", false, yes},
    {circuit, "service_receptacle.gfci", false, yes},
    {circuit, "service_receptacle.distance", false, limit},
    {circuit, "ground.material", false, copper},
    {circuit, "wire.type", false, usual_wires},
    {raceway, "supports.every", false, limit},
    {raceway, "supports.from_box", false, limit},
    {raceway, "supports.unfastened", false, limit},
    {raceway, "bushings", false, yes},
    {raceway, "bonding_bushing", false, yes},
    {raceway, "fittings", false, raintight},
    {raceway, "angle_connectors", false, no},
    {raceway, "nail_plate", false, yes},
    {raceway, "grommets", false, yes},
    {raceway, "drains", false, yes},
    {raceway, "sealed", false, yes},
    {raceway, "fire_stopped", false, yes},
    {raceway, "neutrals_grouped", false, yes},
    {raceway, "expansion_fitting", false, yes},
    {raceway, "expansion_travel", false, limit},
    {raceway, "cover", false, limit},
    {raceway, "below_deck", false, limit},
    {raceway, "backfill_clean", false, yes},
    {raceway, "slack", false, yes},
    {raceway, "type", false, raceway_types},
    {cable, "supports.every", false, limit},
    {cable, "supports.from_box", false, limit},
    {cable, "supports.unfastened", false, limit},
    {cable, "supports.on_edge", false, no},
    {cable, "supports.per_staple", false, limit},
    {cable, "riser.above", false, limit},
    {cable, "riser.below", false, limit},
    {cable, "nail_plate", false, yes},
    {cable, "grommets", false, yes},
    {cable, "fire_stopped", false, yes},
    {cable, "sheath_in_box", false, limit},
    {cable, "cover", false, limit},
    {cable, "below_deck", false, limit},
    {cable, "backfill_clean", false, yes},
    {cable, "slack", false, yes},
    {cable, "guard.running_board", false, yes},
    {cable, "guard.strips", false, yes},
    {box, "volume", false, limit},
    {box, "enclosure", false, rainproof},
    {box, "openings_closed", false, yes},
    {box, "grounds_joined", false, yes},
    {box, "cover", false, yes},
    {box, "fastened", false, yes},
    {box, "free_conductor", false, limit},
    {box, "free_outside", false, limit},
    {box, "air_gap", false, limit},
    {box, "width", false, limit},
    {box, "height", false, limit},
    {box, "depth", false, limit},
    {box, "apart", false, limit},
    {supply, "openings_closed", false, yes},
    {supply, "service.conductor", false, conductors},
    {supply, "panel.neutrals_per_terminal", false, limit},
    {supply, "panel.source_marked", false, yes},
    {supply, "panel.durable_labels", false, yes},
    {supply, "panel.fault_marked", false, yes},
    {supply, "panel.working_space.depth", false, limit},
    {supply, "panel.working_space.width", false, limit},
    {supply, "panel.working_space.height", false, limit},
    {supply, "panel.working_space.storage", false, no},
    {control, "cable.type", false, control_cables},
    {control, "cable.material", false, copper},
    {control, "source.primary_device", false, small_fuses},
    {control, "source.lead_length", false, limit},
    {control, "supports.by", false, structure},
    {control, "bus.topology", false, chained},
    {control, "bus.terminations", false, ends},
    {control, "bus.termination_at_ends", false, yes},
    {control, "bus.stub_length", false, limit},
    {control, "bus.bit_rate", false, bit_rates},
    {control, "cover", false, limit},
    {control, "barrier", false, yes},
    {control, "separation", false, limit},
};

/// The key as checks write it: those of circuits go without "circuit." where they are in a table of it.
std::string full(const Choice& c) { return fmt::format("{}.{}", word(c.kind), c.key); }
bool names(std::string_view token, const Choice& c) {
  const auto is = [](std::string_view of, std::string_view key) { return key == of || (key.size() > of.size() && key.starts_with(of) && key[of.size()] == '.'); };
  const auto is_whole = [&](std::string_view kind, std::string_view key) {
    return token == kind || (is(kind, token) && is(token.substr(kind.size() + 1), key));
  };
  if (is_whole(word(c.kind), c.key)) return true;
  if (c.kind == circuit) return is(token, c.key);
  // Where a circuit runs in a cable, its wire and its ground are the cable's.
  const std::string_view circuits = c.kind != cable ? std::string_view{} : c.key == "size" ? "wire.size" : c.key == "ground" ? "ground.size" : "";
  return !circuits.empty() && (is(token, circuits) || is_whole(word(circuit), circuits));
}

}  // namespace

std::span<const Choice> all_choices() { return choices; }

std::string path_of(const Choice& choice, const Part& part) {
  return part.kind == supply ? fmt::format("supply.{}", choice.key) : fmt::format("{}.{}.{}", word(part.kind), part.index, choice.key);
}

bool reads(std::string_view keys, const Choice& choice) {
  while (!keys.empty()) {
    const std::size_t end = std::min(keys.find(", "), keys.size());
    if (names(keys.substr(0, end), choice)) return true;
    keys.remove_prefix(std::min(end + 2, keys.size()));
  }
  return false;
}

bool is_missing(std::string_view key, const Choice& choice) {
  if (choice.kind == circuit && choice.key == key) return true;
  const std::string whole = full(choice);
  return whole == key || (whole == "cable.size" && key == "wire.size") || (whole == "box.size" && key == "box.volume");
}

}  // namespace pullproof::answers
