#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

bool lies(const Context& cx, const Cable& k) { return derive::buried(Way(k)) || derive::raceway_around(cx, Way(k)) != nullptr; }

bool silent(const Context& cx, const Cable& k) {
  if (k.laid.supports.where || !k.type || lies(cx, k)) return false;
  const auto t = cx.edition().table("cable-support");
  return t && t->find(*k.type);
}

/// Armored cable of large or many conductors has no distance from the box.
bool first_binds(const Context& cx, const Cable& k) {
  if (!cx.has_rule("support-mc") || !cx.listed("support-mc", "types", *k.type)) return true;
  const auto size = ConductorSize::parse(cx.parameter_text("support-mc", "size"));
  if (k.size && size && *k.size > *size) return false;
  return !k.conductors || at_most(*k.conductors, cx.parameter("support-mc", "count", units::count));
}

void staples(Context& cx, const Cable& k) {
  const Supports& s = k.laid.supports;
  if (!cx.has_rule("cable-staples") || !cx.listed("cable-staples", "types", *k.type)) return;
  if (s.on_edge.value_or(false))
    cx.fail("a flat cable is stapled on its edge", "staple it flat", cx.cite("cable-staples"), s.on_edge.where);
  if (!s.per_staple) return;
  const auto have = cx.given("cables under one staple", "n", s.per_staple, units::count);
  const auto most = cx.parameter("cable-staples", "count", "cables that staples are commonly listed for", "nmax", units::count);
  Finding& f = cx.require(have, Must::at_most, most, cx.cite("cable-staples"), s.per_staple.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("put at most {} under one staple, or use stackers listed for more", number_text(most.value, 0));
}

/// An unfastened end to the equipment. True when that settles it.
bool hangs_free(Context& cx, const Cable& k, const code::TableRef& t, std::size_t row, Citation cite) {
  const Supports& s = k.laid.supports;
  if (!s.unfastened) return false;
  const auto have = cx.given("unfastened length", "L", s.unfastened, units::foot);
  std::optional<Traced<Length>> most;
  if (s.accessible_ceiling.value_or(false) && cx.listed("cable-ceiling", "types", *k.type)) {
    most = cx.parameter("cable-ceiling", "length", "length that may hang free in an accessible ceiling", "Lmax", units::foot);
    cite = cx.cite("cable-ceiling");
  } else {
    most = cx.cell(t, row, "flexible", "length that may hang free where it has to flex", "Lmax", units::foot);
  }
  if (!most) {
    cx.fail(cx.text("{} hang free, and {} may not", s.unfastened.text, *k.type), "fasten it up to the box", cite, s.unfastened.where, have.step);
    return true;
  }
  Finding& f = cx.require(have, Must::at_most, *most, cite, s.unfastened.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("fasten it so that at most {} hang free", shown(cx.working().steps()[most->step]));
  return !s.every && !s.from_box;
}

void run(Context& cx, const Cable& k) {
  const Supports& s = k.laid.supports;
  if (lies(cx, k)) return void(cx.not_applicable("it lies in the ground or in a raceway: nothing to fasten"));
  derive::type_of(cx, Way(k));
  const auto t = cx.table("cable-support");
  const auto row = t.find(*k.type);
  if (!row && derive::is_cord(cx, k)) return void(cx.not_applicable("a cord is not fastened to the building"));
  if (!row) cx.not_covered(cx.text("no distances are known for {}", *k.type), cx.edition().cite(t));
  derive::held_by_the_wrong_thing(cx, Way(k));
  Citation cite = cx.edition().cite(t, *row, t.column("interval"));
  cite.clause = t.cell(*row, "clause").text();
  if (s.fished.value_or(false) && cx.listed("support-fished", "cables", *k.type))
    return void(cx.pass("fished where nothing can be fastened, which its article permits", cite, s.fished.where));
  const std::string_view wants = cx.text("within {} in of each box and every {} ft", number_text(t.cell(*row, "first").number().value_or(0), 1),
                                         number_text(t.cell(*row, "interval").number().value_or(0), 1));
  if (s.none.value_or(false)) return void(cx.fail("nothing holds it", cx.text("fasten it {}", wants), cite, s.none.where));
  if (!s.where) {
    const auto lacks = [&](const Cable& other) { return silent(cx, other); };
    const auto& all = cx.job().cables;
    if (!derive::asks_for_all(all, k, lacks)) return void(cx.not_applicable("how it is held is asked for once, at the first cable of this case"));
    // How it will be held is not known before the pull: what is wanted is said, and nothing is taken as done.
    return void(cx.advise(cx.text("nothing is said of how it is held (cable.supports){}", derive::others_that_lack(all, k, lacks)),
                          cx.text("fasten {} {}", *k.type, wants), cite));
  }
  staples(cx, k);
  if (hangs_free(cx, k, t, *row, cite)) return;
  const auto interval = cx.cell(t, *row, "interval", "distance that supports may be apart", "Ls,max", units::foot);
  if (s.every) {
    const auto have = cx.given("distance between supports", "Ls", s.every, units::foot);
    Finding& f = cx.require(have, Must::at_most, *interval, cite, s.every.where);
    if (f.verdict == Verdict::fail) f.change = cx.text("support it at least every {}", shown(cx.working().steps()[interval->step]));
  }
  if (s.from_box && first_binds(cx, k)) {
    const auto have = cx.given("distance to the first support", "Lb", s.from_box, units::inch);
    auto most = cx.cell(t, *row, "first", "distance that it may be from the box", "Lb,max", units::inch);
    Citation first = cite;
    if (s.unclamped_box.value_or(false) && cx.listed("support-nm-box", "types", *k.type)) {
      most = cx.parameter("support-nm-box", "length", "distance that it may be from a box without clamp", "Lb,max", units::inch);
      first = cx.cite("support-nm-box");
    }
    Finding& f = cx.require(have, Must::at_most, *most, first, s.from_box.where);
    if (f.verdict == Verdict::fail) f.change = cx.text("fasten it within {} of the box", shown(cx.working().steps()[most->step]));
  }
  if (!s.every && !(k.length && at_most(*k.length, interval->value)))
    cx.needs_input("cable.supports.every", cx.text("{} is fastened {}", *k.type, wants));
  if (!s.from_box && first_binds(cx, k)) cx.needs_input("cable.supports.from_box", cx.text("{} is fastened {}", *k.type, wants));
  if (cx.findings() == 0) cx.pass(cx.text("{} long: no longer than supports may be apart", k.length.text), cite, k.length.where);
}

}  // namespace

extern const Check check_cable_support{
    .id = "cable-support",
    .title = "Cable is fastened and supported",
    .family = Family::cables,
    .about = "A cable that hangs or is held too far from the box pulls on its splices and gets caught. Each kind has a largest distance "
             "between staples or straps and from the box to the first one; a box without a clamp wants it nearer. Armored cable may "
             "hang free for a few feet where it has to flex or within an accessible ceiling. Flat cable is not stapled on its edge, "
             "and no more cables go under a staple than it is listed for. Pipes, ducts and ceiling grids hold nothing.",
    .formula = "Ls <= Ls,max; Lb <= Lb,max; L <= Lmax",
    .reads = "cable.type, cable.size, cable.conductors, cable.length, cable.supports, cable.place, cable.inside",
    .rules = "cable-support, support-fished, support-nm-box, support-mc, cable-ceiling, cable-staples, fastened-to",
    .run = run};

}  // namespace pullproof
