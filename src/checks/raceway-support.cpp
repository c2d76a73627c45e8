#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The row of a table keyed by kind and trade size; nothing where the kind is not fastened at all.
std::optional<std::size_t> row_of(const code::TableRef& t, const Raceway& r) { return t.find(*r.type, r.size->label()); }

/// What a row of the table of supports wants, as an instruction.
std::string_view wanted(Context& cx, const code::TableRef& t, std::size_t row) {
  return cx.text("fasten it within {} in of each end and every {} ft", number_text(t.cell(row, "first").number().value_or(0), 1),
                 number_text(t.cell(row, "interval").number().value_or(0), 1));
}

bool short_piece(const Context& cx, const Raceway& r) {
  return r.nipple.value_or(false) && r.length && cx.has_rule("support-short") && cx.listed("support-short", "raceways", *r.type) &&
         at_most(*r.length, cx.parameter("support-short", "length", units::inch));
}

/// Lies in earth or concrete, or only protects: nothing to fasten.
bool lies(const Raceway& r) {
  return derive::buried(Way(r)) || r.more.encased.value_or(false) || r.sleeve.value_or(false);
}

/// Whether nothing is said of how it is held though it would have to be.
bool silent(const Context& cx, const Raceway& r) {
  if (r.laid.supports.where || !r.type || !r.size || lies(r) || short_piece(cx, r)) return false;
  const auto t = cx.edition().table("support");
  return t && row_of(*t, r);
}

/// A flexible piece that hangs free from its last fastening, or as a whole, to what it feeds. True when that settles it.
bool hangs_free(Context& cx, const Raceway& r) {
  const Supports& s = r.laid.supports;
  const auto t = cx.table("whip");
  const auto row = row_of(t, r);
  if (!row) return false;
  const bool whole = !s.unfastened && !s.every && !s.from_box;
  if (!s.unfastened && !whole) return false;
  const Given<Length>& given = s.unfastened ? s.unfastened : r.length;
  cx.need(given, "raceway.length", "how much of it may hang free depends on it");
  const auto piece = cx.given(s.unfastened ? "unfastened length" : "length without any fastening", "L", given, units::foot);
  Citation cite = derive::section(cx, Way(r), "secured");
  if (cx.listed("support-lfnc", "raceways", *r.type)) {
    const auto written = cx.parameter("support-lfnc", "length", "length from which fastening is written", "Lf", units::foot);
    if (at_most(piece.value, written.value)) {
      const auto limit = cx.cell(t, *row, "unfastened", "length that nobody questions", "Lmax", units::foot);
      cx.recommend(piece, Must::at_most, *limit, cx.cite("support-lfnc"), given.where).change =
          "its article asks for straps only on longer pieces, but some inspectors want one here: strap it, or ask";
      return true;
    }
    const auto support = cx.table("support");
    const auto wants = row_of(support, r);
    cx.fail(cx.text("{} of {} hang free; pieces over {} are fastened", given.text, *r.type, shown(cx.working().steps()[written.step])),
            wants ? wanted(cx, support, *wants) : std::string_view{}, cite, given.where, piece.step);
    return true;
  }
  const bool ceiling = s.accessible_ceiling.value_or(false);
  const auto limit = cx.cell(t, *row, ceiling ? "tap" : "unfastened", "length that may hang free", "Lmax", units::foot);
  if (!limit) {
    cx.fail(cx.text("no free length is permitted for {} {}", *r.type, r.size->label()), "strap it, or use trade size 1/2", cite, given.where, piece.step);
    return true;
  }
  if (!ceiling) {
    const auto moves = derive::moves(cx, r);
    if (!moves && at_most(piece.value, limit->value))
      cx.needs_input("raceway.moves", cx.text("without a strap {} may be {} only where it has to flex or shakes in use", *r.name, given.text));
    if (moves && !*moves) {
      const auto support = cx.table("support");
      const auto wants = row_of(support, r);
      cx.fail(cx.text("{} hang free, and it does not have to flex", given.text), wants ? wanted(cx, support, *wants) : std::string_view{}, cite,
              given.where, piece.step);
      return true;
    }
  }
  Finding& f = cx.require(piece, Must::at_most, *limit, cite, given.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("strap it so that at most {} hang free", shown(cx.working().steps()[limit->step]));
  return true;
}

void distances(Context& cx, const Raceway& r, std::size_t row) {
  const Supports& s = r.laid.supports;
  const auto t = cx.table("support");
  const bool bends = derive::flexible(cx, r);
  const auto from_rule = [&](std::string_view rule, std::string_view name, std::string_view symbol, const Unit<Length>& unit = units::foot) {
    return cx.parameter(rule, "length", name, symbol, unit);
  };
  const auto listed = [&](std::string_view rule) { return cx.has_rule(rule) && cx.listed(rule, "raceways", *r.type); };
  // The first support.
  if (s.from_box) {
    const auto have = cx.given("distance to the first support", "Lb", s.from_box, units::inch);
    auto most = cx.cell(t, row, "first", "distance that it may be from the end", "Lb,max", units::inch);
    if (s.unbroken.value_or(false) && listed("support-unbroken")) most = from_rule("support-unbroken", "distance where nothing nearer can be fastened to", "Lb,max", units::inch);
    Finding& f = cx.require(have, Must::at_most, *most, derive::section(cx, Way(r), "secured"), s.from_box.where);
    if (f.verdict == Verdict::fail)
      f.change = cx.text("fasten it within {} of every box, cabinet and fitting", shown(cx.working().steps()[most->step]));
  }
  // The next ones: a piece no longer than the interval has none.
  const bool threaded = s.threaded.value_or(false);
  auto most = cx.cell(t, row, threaded ? "threaded" : "interval", "distance that supports may be apart", "Ls,max", units::foot);
  if (!most) most = cx.cell(t, row, "interval", "distance that supports may be apart", "Ls,max", units::foot);
  if (s.riser.value_or(false) && listed("support-riser")) most = from_rule("support-riser", "distance that the ends of a riser may be apart", "Ls,max");
  if (s.through_framing.value_or(false) && !bends && listed("support-framing"))
    most = from_rule("support-framing", "distance that framing members may be apart", "Ls,max");
  if (s.every) {
    const auto have = cx.given("distance between supports", "Ls", s.every, units::foot);
    Finding& f = cx.require(have, Must::at_most, *most, derive::section(cx, Way(r), "supported"), s.every.where);
    if (f.verdict == Verdict::fail) f.change = cx.text("support it at least every {}", shown(cx.working().steps()[most->step]));
  } else if (r.length && at_most(*r.length, most->value)) {
    cx.pass(cx.text("{} long: no longer than the {} that supports may be apart", r.length.text, shown(cx.working().steps()[most->step])),
            derive::section(cx, Way(r), "supported"), r.length.where, most->step);
  } else {
    cx.needs_input("raceway.supports.every", cx.text("{} wants a support every {}", derive::described(cx, Way(r)), shown(cx.working().steps()[most->step])));
  }
  if (!s.from_box && !s.unfastened)
    cx.needs_input("raceway.supports.from_box", cx.text("the first support is to be within {} in of each end", number_text(t.cell(row, "first").number().value_or(0), 1)));
}

void run(Context& cx, const Raceway& r) {
  const Supports& s = r.laid.supports;
  if (lies(r)) return void(cx.not_applicable("it lies in the ground or in concrete, or only protects: nothing to fasten"));
  derive::type_of(cx, Way(r));
  if (short_piece(cx, r) && !r.more.concentric_knockouts.value_or(false))
    return void(cx.not_applicable("a short unbroken piece between enclosures needs no support", cx.cite("support-short")));
  cx.need(r.size, "raceway.size", "the distances depend on it");
  const auto t = cx.table("support");
  const auto row = row_of(t, r);
  if (!row) return void(cx.not_applicable(cx.text("{} is not run where it would be fastened", *r.type), cx.edition().cite(t)));
  derive::held_by_the_wrong_thing(cx, Way(r));
  if (s.fished.value_or(false)) {
    if (cx.listed("support-fished", "raceways", *r.type))
      cx.pass("fished where nothing can be fastened, which its article permits", derive::section(cx, Way(r), "secured"), s.fished.where);
    else
      cx.fail(cx.text("{} may not be fished without fastening", *r.type), "fasten it", derive::section(cx, Way(r), "secured"), s.fished.where);
    return;
  }
  if (s.none.value_or(false) && !derive::flexible(cx, r)) {
    cx.fail("nothing holds it", wanted(cx, t, *row), derive::section(cx, Way(r), "secured"), s.none.where);
    return;
  }
  if (derive::flexible(cx, r)) {
    if (!s.where) {  // only a short piece that moves can do without
      const auto whips = cx.table("whip");
      const auto w = row_of(whips, r);
      const auto tap = w ? whips.cell(*w, "tap").number() : std::nullopt;
      if (r.length && tap && at_most(*r.length, units::foot.of(*tap)) && cx.listed("support-lfnc", "raceways", *r.type) && hangs_free(cx, r)) return;
      const auto free = w ? whips.cell(*w, "unfastened").number() : std::nullopt;
      if (r.length && free && at_most(*r.length, units::foot.of(*free)) && hangs_free(cx, r)) return;
    } else if (hangs_free(cx, r)) {
      const bool rest = s.unfastened && r.length && *r.length - *s.unfastened > units::inch.of(t.cell(*row, "first").number().value_or(0));
      if (!rest && !s.every && !s.from_box) return;
      return distances(cx, r, *row);
    }
  }
  if (!s.where) {
    const auto lacks = [&](const Raceway& other) { return silent(cx, other); };
    const auto& all = cx.job().raceways;
    if (!derive::asks_for_all(all, r, lacks)) return void(cx.not_applicable("how it is held is asked for once, at the first raceway of this case"));
    std::string wants = fmt::format("{} wants a support every {} ft and within {} in of each end", derive::described(cx, Way(r)),
                                    number_text(t.cell(*row, "interval").number().value_or(0), 1), number_text(t.cell(*row, "first").number().value_or(0), 1));
    if (derive::flexible(cx, r)) wants += ", or at most the whip length unfastened where it has to flex";
    // How it will be held is not known before the pull: what is wanted is said, and nothing is taken as done.
    return void(cx.advise(cx.text("nothing is said of how it is held (raceway.supports){}", derive::others_that_lack(all, r, lacks)), cx.texts().keep(wants),
                          cx.edition().cite(t, *row, t.column("interval"))));
  }
  distances(cx, r, *row);
}

}  // namespace

extern const Check check_raceway_support{
    .id = "raceway-support",
    .title = "Raceway is fastened and supported",
    .family = Family::raceways,
    .about = "A raceway that is not held pulls its joints apart, and with them the path for fault current. Each kind has a largest "
             "distance between supports and from the box to the first one, by trade size for PVC and for threaded runs. A flexible "
             "piece may hang free for a few feet where it has to flex after installation. Short pieces between enclosures need no "
             "support, runs through framing are held by it, and some kinds may be fished through finished walls. Pipes, ducts, other raceways "
             "and the wires of a hung ceiling hold nothing.",
    .formula = "Ls <= Ls,max; Lb <= Lb,max; L <= Lmax",
    .reads = "raceway.type, raceway.size, raceway.length, raceway.supports, raceway.moves, raceway.nipple, raceway.sleeve, "
             "raceway.encased, raceway.place, load.appliance, load.vibrates",
    .rules = "support, whip, support-unbroken, support-framing, support-riser, support-short, support-fished, support-lfnc, fastened-to, raceway-sections",
    .run = run};

}  // namespace pullproof
