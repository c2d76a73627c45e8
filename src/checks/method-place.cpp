#include <algorithm>

#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// One thing that the place demands: a column of the tables, and how a person says it.
struct Demand {
  std::string_view topic, words;
};

/// What the place of a raceway, or of a cable by itself or in a raceway, demands of it.
std::vector<Demand> demands(Context& cx, const Way& w) {
  const Raceway* around = derive::raceway_around(cx, w);
  const auto has = [&](Place::Word p) { return w.has(p) || (around != nullptr && Way(*around).has(p)); };
  const bool ground = derive::buried(w) || (around != nullptr && derive::buried(Way(*around)));
  const bool outside = has(Place::outdoors) || has(Place::rooftop);
  std::vector<Demand> out;
  const auto add = [&](bool needed, std::string_view topic, std::string_view words) {
    if (needed) out.push_back({topic, words});
  };
  if (around != nullptr) {  // the raceway meets sun, damage and earth; the cable meets the water in it
    add(ground, "wet", "in a raceway underground, which is wet inside");
    add(!ground && (outside || has(Place::wet)), "wet", "in a raceway outdoors or in a wet place, which is wet inside");
    add(!ground && !outside && has(Place::damp), "damp", "where it is damp");
  } else {
    add(ground, "buried", "in the ground");
    add(outside, "outdoors", "outdoors");
    add(has(Place::wet), "wet", "where it is wet");
    add(has(Place::damp) && !outside, "damp", "where it is damp");
    add(has(Place::sunlight) || (outside && !has(Place::concealed)), "sunlight", "in the sun");
    add(has(Place::damage) || has(Place::severe_damage), "damage",
        has(Place::severe_damage) ? "where it can be damaged severely" : "where it can be damaged");
  }
  add(!ground && !outside, "indoors", "indoors");
  add(has(Place::concealed), "concealed", "concealed");
  add(has(Place::exposed), "exposed", "exposed");
  add(has(Place::corrosive), "corrosive", "where it is corrosive");
  add(!ground && !outside && !has(Place::wet) && !has(Place::damp), "dry", "where it is dry");
  return out;
}

/// Kinds that may be there without any condition, to point to.
std::string_view instead(Context& cx, const Way& w, const std::vector<Demand>& all) {
  const auto t = cx.table(w.raceway != nullptr ? "raceway-types" : "cable-types");
  const bool bends = w.raceway != nullptr && derive::flexible(cx, *w.raceway);
  const bool cord = w.cable != nullptr && derive::is_cord(cx, *w.cable);
  constexpr std::size_t most = 4;
  std::size_t found = 0;
  std::string names;
  for (std::size_t row = 0; row < t.rows() && found < most; ++row) {
    const bool like = w.raceway != nullptr ? (t.cell(row, "flexible").text() == "yes") == bends : (t.cell(row, "cord").text() == "yes") == cord;
    const bool good = std::all_of(all.begin(), all.end(), [&](const Demand& d) {
      return !t.has_column(d.topic) || t.cell(row, d.topic).yes() || (d.topic == "damage" && t.cell(row, d.topic).text() == "severe");
    });
    if (!like || !good) continue;
    names += fmt::format("{}{}", names.empty() ? "" : ", ", t.cell(row, std::size_t{0}).text());
    ++found;
  }
  if (!names.empty()) return cx.text("use {}", names);
  return w.raceway != nullptr ? "use a kind that its article permits there, or take another way"
                              : "pull wire that is listed for the place through a raceway that is permitted there";
}

/// Judges one demand. False when nothing was reported because it is met.
bool falls_short(Context& cx, const Way& w, const Demand& d, const std::vector<Demand>& all) {
  const std::string_view said = derive::permission(cx, w, d.topic);
  const Citation cite = derive::section(cx, w, d.topic);
  const std::string_view type = derive::type_of(cx, w);
  const Where where = w.type().where;
  const Laying& l = w.laid();
  const auto fails = [&](std::string_view message, std::string_view change) {
    cx.fail(message, change, cite, where);
    return true;
  };
  /// A mark or measure that a key tells of.
  const auto only_with = [&](const Given<bool>& mark, std::string_view name, std::string_view what) {
    if (!mark) cx.needs_input(derive::key(cx, w, name), cx.text("{} may be {} only {}", type, d.words, what));
    if (*mark) return false;
    return fails(cx.text("{} is {}, but not {}", type, d.words, what), cx.text("{}, or {}", what, instead(cx, w, all)));
  };
  if (said == "yes" || said == "severe") return false;
  if (said == "not severe") {
    if (!w.has(Place::severe_damage)) return false;
    return fails(cx.text("{} may not be where it can be damaged severely", type), instead(cx, w, all));
  }
  if (said == "listed") {
    if (d.topic == "buried") return only_with(l.direct_burial, "direct_burial", "where listed and marked for direct burial");
    if (d.topic == "outdoors") return only_with(l.outdoor_rated, "outdoor_rated", "where listed and marked for outdoors");
    if (!l.sunlight_resistant && l.outdoor_rated.value_or(false)) return false;  // outdoor listing includes the sun
    return only_with(l.sunlight_resistant, "sunlight_resistant", "where marked sunlight resistant");
  }
  if (said == "conditional") return only_with(l.corrosion_protected, "corrosion_protected", "with corrosion protection that suits the place");
  if (said == "encased") return only_with(w.raceway->more.encased, "encased", "encased in concrete");
  if (said == "indoors" && !w.has(Place::outdoors) && !w.has(Place::rooftop)) return false;
  if (said == "emerging" && w.cable->more.riser.type) return false;
  if (said == "emerging")
    return fails(cx.text("{} may be {} only where it comes out of the ground and ends", type, d.words),
                 "protect it by a raceway up to where it ends (cable.riser), or use another method");
  return fails(cx.text("{} may not be {}", type, d.words), instead(cx, w, all));
}

void run(Context& cx, const Way& w) {
  derive::type_of(cx, w);
  if (!w.place() && !derive::buried(w) && derive::raceway_around(cx, w) == nullptr)
    cx.assume("place", cx.text("the place of '{}' is not given: taken as indoors and dry", *w.name()));
  const std::vector<Demand> all = demands(cx, w);
  bool short_of = false, not_outdoors = false;
  std::optional<Stop> asks;
  for (const Demand& d : all) {
    if (not_outdoors && (d.topic == "sunlight" || d.topic == "wet")) continue;  // said already
    try {
      const bool fails = falls_short(cx, w, d, all);
      short_of = short_of || fails;
      not_outdoors = not_outdoors || (fails && d.topic == "outdoors");
    } catch (const Stop& stop) {
      if (!asks) asks = stop;
    }
  }
  if (asks) cx.stopped(*asks);
  if (short_of || asks) return;
  std::string words;
  std::string_view topic;
  for (const Demand& d : all) {
    if (d.topic == "indoors" || d.topic == "dry") continue;
    if (topic.empty()) topic = d.topic;
    words += fmt::format("{}{}", words.empty() ? "" : ", ", d.words);
  }
  if (words.empty()) words = "indoors, where it is dry";
  cx.pass(cx.text("{} may be {}", derive::type_of(cx, w), words), derive::section(cx, w, topic.empty() ? "dry" : topic), w.place().where);
}

}  // namespace

extern const Check check_method_place{
    .id = "method-place",
    .title = "Raceway or cable suits its place",
    .family = Family::places,
    .about = "Each raceway and cable has an article that says where it may be: in wet places, outdoors, in the sun, in the ground, "
             "concealed, where it can be damaged, where it is corrosive. The place of each is held against the table of its kind; "
             "what may be there only with a mark or a protection asks for it. A raceway outdoors or in the ground is wet inside, "
             "so a cable in it must be for wet places. Spaces for air are another check.",
    .formula = "",
    .reads = "raceway.type, raceway.place, raceway.outdoor_rated, raceway.sunlight_resistant, raceway.direct_burial, "
             "raceway.corrosion_protected, raceway.encased, cable.type, cable.place, cable.inside, cable.riser",
    .rules = "raceway-types, cable-types, raceway-sections, cable-sections",
    .run = run};

}  // namespace pullproof
