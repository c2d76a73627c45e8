#include <algorithm>

#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool outside(const Way& w) { return w.has(Place::outdoors) || w.has(Place::rooftop) || w.has(Place::wet); }

void run(Context& cx, const Box& b) {
  const BoxSite& s = b.site;
  if (!s.place) {
    const bool entry = std::any_of(b.entries.begin(), b.entries.end(), [](const BoxEntry& e) {
      return (e.raceway != nullptr && outside(Way(*e.raceway))) || (e.cable != nullptr && outside(Way(*e.cable)));
    });
    if (entry) cx.needs_input("box.place", "something that comes from a wet place enters it");
    return void(cx.not_applicable("nothing says that it is where it is wet"));
  }
  const bool wet = s.place->has(Place::outdoors) || s.place->has(Place::rooftop) || s.place->has(Place::wet);
  if (!wet) return void(cx.not_applicable("it is not where it is wet"));
  const Citation cite = cx.cite("box-wet");
  const auto t = cx.table("enclosure-types");
  std::string good;
  for (std::size_t r = 0; r < t.rows(); ++r)
    if (t.cell(r, "outdoors").yes()) good += fmt::format("{}{}", good.empty() ? "" : ", ", t.cell(r, std::size_t{0}).text());
  cx.need(s.enclosure, "box.enclosure", cx.text("where it is wet it is one of these: {}", good));
  const auto row = t.find(*s.enclosure);
  if (!row) cx.needs_input("box.enclosure", cx.text("'{}' is no type of the table; outdoors these are: {}", *s.enclosure, good));
  if (t.cell(*row, "outdoors").yes()) cx.pass(cx.text("enclosure {} keeps the weather out", *s.enclosure), cite, s.enclosure.where);
  else cx.fail(cx.text("enclosure {} is for dry places", *s.enclosure), cx.text("use one of these: {}", good), cite, s.enclosure.where);
  if (!s.air_gap) return;
  const auto have = cx.given("air behind it", "g", s.air_gap, units::inch);
  const auto least = cx.parameter("wet-enclosure", "gap", "air that it needs behind it", "gmin", units::inch);
  Finding& f = cx.require(have, Must::at_least, least, cx.cite("wet-enclosure"), s.air_gap.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("space it {} off the wall", cx.parameter_text("wet-enclosure", "gap"));
}

}  // namespace

extern const Check check_box_wet{
    .id = "box-wet",
    .title = "Box or enclosure in the wet",
    .family = Family::boxes,
    .about = "A box or cabinet outdoors or in another wet place keeps the water out: weatherproof, or of a type that is made for rain (3R, 4X ...). "
             "Behind a metal cabinet there are 1/4 in of air.",
    .formula = "g >= gmin",
    .reads = "box.place, box.enclosure, box.air_gap, box.entries, raceway.place, cable.place",
    .rules = "box-wet, enclosure-types, wet-enclosure",
    .run = run};

}  // namespace pullproof
