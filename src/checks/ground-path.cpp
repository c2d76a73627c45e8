#include "derive/ground.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

std::string_view called(Context& cx, const Raceway& r) { return cx.text("{} {}", *r.type, r.size->label()); }

/// The raceways of a path that are the grounding conductor, and how it goes for them.
class Path {
 public:
  Path(Context& cx, const Circuit& c) : cx_(cx), c_(c) {}

  void run() {
    for (const Stretch& s : c_.path) stretch(s);
    mixed();
    total_length();
    if (failed_) return;
    for (const Raceway* r : may_move_)
      cx_.need(r->moves, "raceway.moves", cx_.text("where '{}' flexes or vibrates in use, as at a compressor or pump, it may not be the grounding conductor", *r->name));
    const Citation cite = cx_.cite("egc-required");
    if (raceways_.empty()) cx_.pass("a grounding wire or the armor of a cable runs along the whole way", cite);
    else cx_.pass(cx_.text("every stretch has a grounding conductor; the raceway is it in {}", names_), cite);
  }

 private:
  void fail(std::string_view message, std::string_view change, const Citation& cite, Where where) {
    cx_.fail(message, change, cite, where);
    failed_ = true;
  }

  void stretch(const Stretch& s) {
    const derive::GroundOn g = derive::ground_on(cx_, c_, s);
    const std::string_view name = derive::name_of(s);
    if (g.shared != nullptr) {
      if (g.wire) cx_.choose("shared grounding wire", cx_.text("in '{}' it is that of '{}'", name, *g.shared->name), cx_.cite("egc-shared"));
      else fail(cx_.text("the grounding wire of '{}' does not run in '{}'", *g.shared->name, name), "run a grounding wire of its own there", cx_.cite("same-raceway"), g.where);
      return;
    }
    if (g.wire) return;
    if (s.cable != nullptr) {
      if (!derive::armor_grounds(cx_, *s.cable)) cx_.needs_input("cable.ground", cx_.text("the size of the grounding conductor in '{}'", name));
      return;
    }
    const Raceway& r = *s.raceway;
    cx_.need(r.type, "raceway.type", cx_.text("'{}'", name));
    const auto types = cx_.table("raceway-types");
    const bool metal = types.cell(cx_.row(types, *r.type), "metallic").text() != "nonmetallic";
    if (!g.raceway)
      cx_.needs_input("ground.size", metal ? cx_.text("'{}' has a grounding wire, or kind = \"raceway\" where the {} is the grounding conductor", name, *r.type)
                                           : cx_.text("'{}' is {}, which needs a grounding wire in it", name, *r.type));
    raceway(r, g.where, types.cell(cx_.row(types, *r.type), "flexible").yes());
  }

  void raceway(const Raceway& r, Where where, bool flexible) {
    cx_.need(r.size, "raceway.size", cx_.text("whether '{}' may be the grounding conductor depends on it", *r.name));
    const auto t = cx_.table("egc-raceways");
    const std::size_t row = cx_.row(t, *r.type, r.size->label());
    const Citation cite = cx_.edition().cite(t, row, t.column("allowed"));
    constexpr std::string_view wire = "run a grounding wire in it";
    raceways_.push_back(&r);
    if (!names_.empty()) names_ += ", ";
    names_ += fmt::format("'{}'", *r.name);
    if (!t.cell(row, "allowed").yes()) return fail(cx_.text("{} may not be the grounding conductor", called(cx_, r)), wire, cite, where);
    if (r.listed_fittings && !*r.listed_fittings)
      return fail(cx_.text("the fittings of '{}' are not listed for grounding", *r.name), "use listed fittings, or run a grounding wire in it", cx_.cite("egc-raceways"), r.listed_fittings.where);
    if (!r.listed_fittings) cx_.assume("fittings", cx_.text("the fittings of '{}' are taken as listed for grounding", *r.name), cx_.cite("egc-raceways"));
    if (!flexible) return;
    flexible_.push_back(&r);
    if (*r.type == cx_.parameter_text("egc-lfmc-mix", "type") && !cx_.flag("egc-flexible", "stainless-core-allowed"))
      cx_.assume("core", cx_.text("the core of '{}' is taken as ordinary steel: with one of stainless steel a wire is needed", *r.name), cx_.cite("egc-flexible"));
    if (t.cell(row, "vibration").yes()) {
      may_move_.push_back(&r);  // asked for last: what fails anyhow need not be asked about
      if (r.moves.value_or(false))
        return fail(cx_.text("'{}' moves or vibrates, so it may not be the grounding conductor", *r.name), wire, cx_.cite("egc-flexible"), r.moves.where);
    }
    if (const auto most = cx_.cell(t, row, "device", cx_.text("largest device for {} as the grounding conductor", called(cx_, r)), "Im", units::ampere)) {
      cx_.need(c_.breaker.rating, "breaker.rating", "a flexible raceway is the grounding conductor for small devices only");
      const auto rating = cx_.given("rating of the device", "I", c_.breaker.rating, units::ampere);
      Finding& f = cx_.require(rating, Must::at_most, *most, cx_.cite("egc-flexible"), where);
      if (f.verdict == Verdict::fail) f.change = wire;
      failed_ = failed_ || f.verdict == Verdict::fail;
    }
    if (const auto limit = cx_.cell(t, row, "length", "longest flexible path", "Lm", units::foot))
      if (!longest_ || limit->value < longest_->value) longest_ = limit;
  }

  /// Beside the larger sizes of one kind, the path holds no small flexible raceway.
  void mixed() {
    if (flexible_.size() < 2) return;
    const auto small = TradeSize::parse(cx_.parameter_text("egc-lfmc-mix", "small-through"));
    const std::string_view kind = cx_.parameter_text("egc-lfmc-mix", "type");
    for (const Raceway* large : flexible_)
      for (const Raceway* other : flexible_)
        if (*large->type == kind && small && *large->size > *small && *other->size <= *small)
          fail(cx_.text("'{}' of {} is a grounding path only where none of {} and smaller is in it, and '{}' is", *large->name, called(cx_, *large), small->label(), *other->name),
               "run a grounding wire in both", cx_.cite("egc-lfmc-mix"), large->size.where);
  }

  void total_length() {
    if (!longest_) return;
    Length sum{};
    std::string how;
    for (const Raceway* r : flexible_) {
      cx_.need(r->length, "raceway.length", cx_.text("'{}': the flexible raceways of a grounding path are short in sum", *r->name));
      sum += *r->length;
      if (!how.empty()) how += " + ";
      how += fmt::format("'{}' {}", *r->name, r->length.text);
    }
    const auto total = cx_.working().choice("flexible raceway in the grounding path", "L", sum, units::foot, cx_.texts().keep(how), cx_.cite("egc-flexible"));
    Finding& f = cx_.require(total, Must::at_most, *longest_, cx_.cite("egc-flexible"));
    if (f.verdict == Verdict::fail) f.change = "run a grounding wire in the flexible raceways";
    failed_ = failed_ || f.verdict == Verdict::fail;
  }

  Context& cx_;
  const Circuit& c_;
  std::vector<const Raceway*> raceways_, flexible_, may_move_;
  std::string names_;
  std::optional<Traced<Length>> longest_;
  bool failed_ = false;
};

void run(Context& cx, const Circuit& c) {
  if (c.path.empty()) cx.needs_input("circuit.path", "the grounding conductor runs along it");
  Path(cx, c).run();
}

}  // namespace

extern const Check check_ground_path{
    .id = "ground-path",
    .title = "Grounding path",
    .family = Family::grounding,
    .about = "A fault to the frame of an appliance has to find its way back without a gap, or the frame stays live and no device trips. "
             "Every stretch therefore has a grounding conductor: a wire, the armor of a cable that is made for it, or a metal raceway. "
             "Rigid metal raceways and tubing are one with listed fittings; flexible ones only in small sizes, behind small devices, for "
             "a few feet over the whole path, and not where they move or vibrate. Nonmetallic raceways always need a wire.",
    .formula = "sum of flexible lengths <= Lm; I <= Im",
    .reads = "circuit.path, ground.size, ground.kind, ground.shared_with, cable.type, cable.ground, raceway.type, raceway.size, "
             "raceway.length, raceway.moves, raceway.listed_fittings, breaker.rating",
    .rules = "egc-required, egc-raceways, egc-flexible, egc-lfmc-mix, egc-shared, same-raceway, raceway-types, cable-types",
    .run = run};

}  // namespace pullproof
