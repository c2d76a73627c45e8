#include "derive/working_space.hpp"

#include "job/words.hpp"

namespace pullproof::derive {
namespace {

constexpr std::string_view rule = "working-space";

std::string_view column_of(Opposite o) {
  switch (o) {
    case Opposite::nothing: return "clear";
    case Opposite::grounded: return "grounded";
    case Opposite::live: return "live";
  }
  return {};
}

/// A finding that fails where the space is required, and advises where it is good practice.
template <class Q>
void hold(Context& cx, const SpaceOf& s, const Traced<Q>& have, const Traced<Q>& need, const Citation& cite, Where where, std::string_view change) {
  Finding& f = s.binding ? cx.require(have, Must::at_least, need, cite, where) : cx.recommend(have, Must::at_least, need, cite, where);
  if (f.verdict == Verdict::fail || f.verdict == Verdict::advice) f.change = change;
}

std::string_view feet_text(Context& cx, Length l) { return cx.text("{} ft", number_text(units::foot.show(l), 2)); }

/// The greater of the rule's figure and the equipment's own.
Traced<Length> least(Context& cx, std::string_view parameter, std::string_view name, std::string_view symbol, const Unit<Length>& unit,
                     const Given<Length>& equipment, std::string_view of) {
  const auto need = cx.parameter(rule, parameter, name, symbol, unit);
  return equipment && *equipment > need.value ? cx.given(of, symbol, equipment, unit) : need;
}

Traced<Length> depth_needed(Context& cx, const SpaceOf& s) {
  const auto t = cx.table(rule);
  const auto row = t.band("through", raw(s.to_ground));
  if (!row) cx.not_covered("no depth is listed for this voltage to ground", cx.edition().cite(t));
  const auto at = [&](Opposite o) { return t.cell(*row, column_of(o)).number(); };
  const bool alike = at(Opposite::nothing) == at(Opposite::grounded) && at(Opposite::grounded) == at(Opposite::live);
  if (!alike) cx.need(s.space->opposite, cx.text("{}.opposite", s.key), "the depth goes by what faces the equipment");
  const Opposite o = s.space->opposite.value_or(Opposite::nothing);
  const auto need = cx.cell(t, *row, column_of(o), "depth that is needed", "Dn", units::foot);
  if (!need) cx.not_covered("no depth is listed", cx.edition().cite(t));
  return *need;
}

}  // namespace

void judge_working_space(Context& cx, const SpaceOf& s) {
  const WorkingSpace& w = *s.space;
  const Citation general = s.cite.clause.empty() ? cx.cite(rule) : s.cite;
  cx.need(w.depth, cx.text("{}.depth", s.key), "room to work in front of it");
  const auto depth_limit = depth_needed(cx, s);
  hold(cx, s, cx.given("depth of the working space", "D", w.depth, units::foot), depth_limit,
       s.cite.clause.empty() ? cx.edition().cite(cx.table(rule)) : s.cite, w.depth.where, cx.text("keep {} clear in front of it", feet_text(cx, depth_limit.value)));
  if (w.width) {
    const auto need = least(cx, "width", "width that is needed", "Wn", units::inch, w.equipment_width, "width of the equipment");
    hold(cx, s, cx.given("width of the working space", "W", w.width, units::inch), need, general, w.width.where,
         cx.text("keep a width of {} in clear", number_text(units::inch.show(need.value), 1)));
  }
  if (w.height) {
    const auto need = least(cx, "height", "height that is needed", "Hn", units::foot, w.equipment_height, "height of the equipment");
    hold(cx, s, cx.given("height of the working space", "H", w.height, units::foot), need, general, w.height.where,
         cx.text("keep {} clear from the floor up", feet_text(cx, need.value)));
  }
  if (w.door_opens) {
    const auto need = cx.parameter(rule, "door", "angle that is needed", "An", units::degree);
    hold(cx, s, cx.given("angle that the door opens", "A", w.door_opens, units::degree), need, general, w.door_opens.where,
         "let its door open a right angle");
  }
  if (w.storage.value_or(false)) {
    constexpr std::string_view message = "things are kept in the working space", change = "keep it empty: it is no place to store things";
    if (s.binding) cx.fail(message, change, s.cite.clause.empty() ? cx.cite("working-space-clear") : s.cite, w.storage.where);
    else cx.advise(message, change, cx.cite("working-space-clear"), w.storage.where);
  }
  if (!w.width || !w.height)
    cx.assume("working space", cx.text("{} gives no {}: taken as large enough", s.key, w.width ? "height" : w.height ? "width" : "width or height"), general);
}

}  // namespace pullproof::derive
