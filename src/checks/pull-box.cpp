#include <map>

#include "calc/box.hpp"
#include "derive/box.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

using derive::Incoming;

/// The raceways with large conductors in one row of one wall.
struct Row {
  Length largest{}, all{};
};

Length trade_size(Context& cx, const BoxEntry& e) {
  if (e.raceway == nullptr) cx.not_covered("large conductors in a cable: the box is sized by the raceway that would hold them", cx.cite("pull-box"));
  const TradeSize size = cx.need(e.raceway->size, "raceway.size", "the box is sized by it");
  return Length::from_value(size.nominal_inches() * 0.0254);
}

bool opposite(Wall a, Wall b) {
  return (a == Wall::left && b == Wall::right) || (a == Wall::right && b == Wall::left) || (a == Wall::top && b == Wall::bottom) ||
         (a == Wall::bottom && b == Wall::top);
}

struct Side {
  const Given<Length>* length;
  std::string_view key;
};
Side across(const Box& b, Wall w) {
  switch (w) {
    case Wall::left:
    case Wall::right: return {&b.width, "box.width"};
    case Wall::top:
    case Wall::bottom: return {&b.height, "box.height"};
    case Wall::back: break;
  }
  return {&b.depth, "box.depth"};
}

void judge(Context& cx, const Box& b, Wall w, const Traced<Length>& least, std::string_view rule) {
  const Side side = across(b, w);
  cx.need(*side.length, side.key, "the box is sized by it");
  const auto given = cx.given(cx.text("{} of the box", side.key.substr(4)), "L", *side.length, units::inch);
  Finding& f = cx.require(given, Must::at_least, least, cx.cite(rule));
  if (f.verdict == Verdict::fail) f.change = cx.text("use a box with a {} of at least {} in", side.key.substr(4), number_text(units::inch.show(least.value), 3));
}

Traced<Length> trade_step(Context& cx, Length t, std::string_view name) {
  return cx.working().choice(name, "t", t, units::inch, "trade size", {});
}

/// A circuit that goes straight on from one wall to the other without a splice.
void straight(Context& cx, const Box& b, const BoxEntry& e, Length larger) {
  const auto k = cx.parameter("pull-straight", "ratio", "times the largest raceway", "k", units::count);
  const auto least = cx.apply(calc::straight_length, units::inch, cx.cite("pull-straight"), k, trade_step(cx, larger, "largest raceway"));
  judge(cx, b, *e.wall, least, "pull-straight");
}

void angle(Context& cx, const Box& b, Wall w, const Row& row) {
  const auto k = cx.parameter("pull-angle", "ratio", "times the largest raceway of the row", "k", units::count);
  const auto t = trade_step(cx, row.largest, "largest raceway of the row");
  const auto s = cx.working().choice("other raceways of the row", "s", row.all - row.largest, units::inch, "their trade sizes added", {});
  judge(cx, b, w, cx.apply(calc::angle_length, units::inch, cx.cite("pull-angle"), k, t, s), "pull-angle");
}

void entries_apart(Context& cx, const Box& b, Length larger) {
  cx.need(b.apart, "box.apart", "entries of the same conductors keep a distance");
  const auto k = cx.parameter("pull-entries", "ratio", "times the larger raceway", "k", units::count);
  const auto least = cx.apply(calc::entry_distance, units::inch, cx.cite("pull-entries"), k, trade_step(cx, larger, "larger raceway"));
  const auto given = cx.given("distance between the entries", "L", b.apart, units::inch);
  Finding& f = cx.require(given, Must::at_least, least, cx.cite("pull-entries"));
  if (f.verdict == Verdict::fail) f.change = cx.text("move the entries {} in apart", number_text(units::inch.show(least.value), 3));
}

void run(Context& cx, const Box& b) {
  const auto smallest = ConductorSize::parse(cx.parameter_text("pull-box", "smallest"));
  std::vector<Incoming> large;
  for (const Incoming& i : derive::incoming(cx, b))
    if (smallest && i.size >= *smallest) large.push_back(i);
  if (large.empty()) {
    cx.not_applicable(cx.text("no conductor of {} or larger enters it", smallest ? smallest->label() : "that size"), cx.cite("pull-box"));
    return;
  }
  if (b.marked_for_conductors.value_or(false)) {
    cx.pass("listed and marked for its conductors", cx.cite("pull-marked"), b.marked_for_conductors.where);
    return;
  }
  for (const Incoming& i : large) cx.need(i.entry->wall, "box.entries.wall", "the pull is straight or at an angle by it");
  std::map<const Circuit*, std::vector<const BoxEntry*>> ways;
  for (const Incoming& i : large) ways[i.circuit].push_back(i.entry);
  std::map<const BoxEntry*, bool> at_angle;
  for (const Circuit& c : cx.job().circuits) {  // in the order of the case
    const auto way = ways.find(&c);
    if (way == ways.end()) continue;
    const auto& e = way->second;
    const bool pulled_through = b.passes_through.value_or(false) && e.size() == 2;
    Length larger{};
    for (const BoxEntry* x : e) larger = std::max(larger, trade_size(cx, *x));
    if (pulled_through && opposite(*e[0]->wall, *e[1]->wall)) {
      straight(cx, b, *e[0], larger);
      continue;
    }
    for (const BoxEntry* x : e) at_angle[x] = true;
    if (pulled_through) entries_apart(cx, b, larger);
  }
  std::map<std::pair<Wall, double>, Row> rows;  // every raceway of a row adds to it, those of straight pulls too
  for (const BoxEntry& e : b.entries) {
    if (!e.wall || e.raceway == nullptr || !e.raceway->size) continue;
    Row& row = rows[{*e.wall, e.row.value_or(1)}];
    const Length t = trade_size(cx, e);
    row.all += t;
    row.largest = std::max(row.largest, t);
  }
  for (const auto& [key, row] : rows) {
    const bool any = std::any_of(b.entries.begin(), b.entries.end(), [&, wall = key.first, at = key.second](const BoxEntry& e) {
      return at_angle.contains(&e) && *e.wall == wall && e.row.value_or(1) == at;
    });
    if (any) angle(cx, b, key.first, row);
  }
}

}  // namespace

extern const Check check_pull_box{
    .id = "pull-box",
    .title = "Size of a pull box",
    .family = Family::boxes,
    .about = "Large conductors need room to be pulled and bent without damage. From the size that the rule names, a box is sized by "
             "the trade sizes of its raceways: a straight pull by its length, an angle or U pull and a splice by the distance from "
             "each entry to the opposite wall, with the other raceways of the row added, and the entries of the same conductors by "
             "the distance between them. Which it is follows from the walls of the entries and from whether the conductors pass "
             "through unspliced.",
    .formula = "straight: L >= k * t; angle: L >= k * t + s; between entries: L >= k * t",
    .reads = "box.entries, box.entries.wall, box.entries.row, box.passes_through, box.width, box.height, box.depth, box.apart, "
             "box.marked_for_conductors, raceway.size, circuit.path, wire.size",
    .rules = "pull-box, pull-straight, pull-angle, pull-entries, pull-marked",
    .run = run};

}  // namespace pullproof
