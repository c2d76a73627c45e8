#include <algorithm>

#include "derive/fill.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

std::string_view called(Context& cx, const Raceway& r) {
  return r.size ? cx.text("{} {}", *r.type, r.size->label()) : cx.text("{} of {} inside", *r.type, r.inside_diameter.text);
}

/// The smallest trade size that would do, in words, as a step to be shown with the answer.
StepId smallest(Context& cx, const Raceway& r, const derive::Contents& contents, bool nipple, std::string_view& label) {
  const auto size = derive::smallest_size(cx, contents, *r.type, nipple);
  label = size.value_or(std::string_view{});
  return cx.choose("smallest trade size that would do", size ? cx.text("{} {}", *r.type, *size) : cx.text("none of {}", *r.type), cx.cite("fill"));
}

bool counted_by_table(Context& cx, const Raceway& r) {
  return r.size && cx.has_rule("flex-small-fill") && r.size->label() == cx.parameter_text("flex-small", "size") &&
         cx.listed("flex-small-fill", "types", *r.type);
}

/// The smallest flexible conduit has counts of its own.
void small_flex(Context& cx, const Raceway& r, const derive::Contents& contents) {
  const auto t = cx.table("flex-small");
  const auto no_count = [&] {
    cx.not_covered(cx.text("{} has a count for insulated conductors of one size and kind only, and not for what is in here", t.clause()),
                   cx.edition().cite(t));
  };
  const derive::Content* first = nullptr;
  for (const auto& p : contents.parts)
    if (p.part != derive::Part::ground) {
      if (first == nullptr) first = &p;
      if (p.group.empty() || p.group != first->group || p.size.value != first->size.value) no_count();
    }
  std::string_view column;
  for (const std::string_view c : {"rfh-2", "tf", "thhn", "fep"})
    if (first != nullptr && cx.listed("flex-small-fill", c, first->group)) column = c;
  const auto row = column.empty() ? std::nullopt : t.find(first->size->label());
  if (!row) no_count();
  const bool outside = cx.listed("flex-small-fill", "outside", *r.type);
  if (!outside)
    cx.assume("fittings", cx.text("whether the fittings of '{}' sit inside or outside the conduit is not given: taken as inside, where fewer fit", *r.name),
              cx.edition().cite(t));
  double besides = cx.parameter("flex-small-fill", "grounding-count", units::count), count = 0;
  for (const auto& p : contents.parts) {
    const bool free = p.part == derive::Part::ground && besides > 0 && p.size && p.size.value <= first->size.value;
    if (free) --besides;
    else count += p.count.value;
  }
  const auto most = cx.cell(t, *row, cx.text("{}-{}", column, outside ? "outside" : "inside"), cx.text("most conductors of {}", first->size->label()), "N", units::count);
  if (!most) no_count();
  const auto n = cx.working().choice("conductors in the raceway", "n", count, units::count, "one grounding conductor of their size comes besides", cx.cite("flex-small-fill"));
  Finding& f = cx.require(n, Must::at_most, *most, cx.edition().cite(t), r.size.where);
  f.message = cx.text("{} conductors of {} in {}: {} are permitted", number_text(count, 0), first->size->label(), called(cx, r), number_text(most->value, 0));
  if (f.verdict == Verdict::fail) f.change = "use a larger trade size, or take conductors out";
}

/// The table prints areas beside its diameters, rounded: where they would decide otherwise, the inspector may too.
void printed_area(Context& cx, const Raceway& r, const derive::Fill& fill, Finding& f) {
  if (r.inside_diameter || fill.most) return;
  const auto t = cx.table("raceway-dimensions");
  const std::string column = fmt::format("fill-{}", number_text(fill.percent.value * 100, 0));
  if (!t.has_column(column)) return;
  const auto printed = t.cell(cx.row(t, *r.type, r.size->label()), column).number();
  if (!printed || at_most(fill.used.value, units::square_inch.of(*printed)) == fill.good) return;
  if (!fill.good)
    f.change = cx.text("{}; the rounded area that the table prints, {} in², would just hold them: ask the inspector", f.change, number_text(*printed, 4));
  else
    cx.advise(cx.text("the conductors are over the rounded area that the table prints, {} in²", number_text(*printed, 4)),
              "ask the inspector which area holds, or use a larger trade size", cx.edition().cite(t), r.size.where, fill.used.step);
}

void run(Context& cx, const Raceway& r) {
  if (r.sleeve.value_or(false)) {
    cx.not_applicable("a sleeve that only protects has no limit", cx.cite("fill-sleeve"));
    return;
  }
  const derive::Contents contents = derive::contents_of(cx, r);
  if (contents.parts.empty()) {
    cx.not_applicable("nothing of this case runs in it");
    return;
  }
  cx.need(r.type, "raceway.type", "it decides how much room there is");
  if (counted_by_table(cx, r)) {
    small_flex(cx, r, contents);
    return;
  }
  const bool nipple = derive::is_fill_nipple(cx, r);
  std::string_view best;
  const StepId would_do = smallest(cx, r, contents, nipple, best);
  if (!r.size && !r.inside_diameter)
    cx.needs_input("raceway.size", best.empty() ? "no size of this type would do" : cx.text("the smallest that would do is {}", best));
  const auto inside = derive::inside_of(cx, r);
  const derive::Fill fill = derive::fill_of(cx, contents, inside, nipple);
  const Citation cite = cx.cite(nipple ? "fill-nipple" : fill.most ? "fill-same-size" : "fill");
  const Where where = r.size ? r.size.where : r.inside_diameter.where;
  Finding& f = fill.most ? cx.require(fill.count, Must::at_most, *fill.most, cite, where)
                         : cx.require(fill.used, Must::at_most, fill.allowed, cite, where);
  f.beside = would_do;
  const std::string share = brief_number(fill.share.value * 100, fill.percent.value * 100);
  const std::string_view things = contents.count == 1 ? "1 conductor fills" : cx.text("{} conductors fill", number_text(contents.count, 0));
  f.message = fill.most && contents.count > 1
                  ? cx.text("{} {}% of {}: all alike, {} would fit", things, share, called(cx, r), number_text(fill.most->value, 0))
                  : cx.text("{} {}% of {}: {}% is allowed", things, share, called(cx, r), number_text(fill.percent.value * 100, 1));
  if (f.verdict == Verdict::fail)
    f.change = best.empty() ? cx.text("no size of {} would do: take conductors out", *r.type) : cx.text("use trade size {}, or take conductors out", best);
  printed_area(cx, r, fill, f);
}

}  // namespace

extern const Check check_raceway_fill{
    .id = "raceway-fill",
    .title = "Raceway fill",
    .family = Family::raceways,
    .about = "An overfull raceway scrapes the insulation off the wire that is pulled in, and keeps in its heat. Everything that runs in "
             "it counts with its insulation: the conductors of each circuit and the neutral, once for each set in parallel, its "
             "grounding wire, spares, and each cable as one conductor of its outside diameter. The sum of the areas is held against a "
             "share of the inside that depends on how many there are; conductors all alike are counted instead, and a quotient that "
             "ends in a large fraction counts as one more. The inside area is computed from the inside diameter, the area of a "
             "conductor is the printed one. Fill is not in step with the number: two large conductors may be too many where three fit.",
    .formula = "sum of n * A1 <= p * pi / 4 * D * D; all alike: n <= floor(p * pi / 4 * D * D / A1 + 1 - r)",
    .reads = "raceway.type, raceway.size, raceway.inside_diameter, raceway.nipple, raceway.length, raceway.sleeve, raceway.alike, raceway.also, "
             "circuit.path, wire.size, wire.type, wire.parallel, wire.compact, wire.covering, wire.diameter, ground.size, ground.type, "
             "ground.bare, ground.diameter, ground.shared_with, cable.inside, cable.diameter, control.path, control.cable.diameter",
    .rules = "fill, fill-percent, fill-nipple, fill-same-size, fill-bare, fill-cable, fill-actual, fill-sleeve, raceway-dimensions, "
             "raceway-types, conductor-dimensions, compact-dimensions, compact-conductors, conductor-properties, insulation, "
             "fixture-wire, flex-small, flex-small-fill",
    .run = run};

}  // namespace pullproof
