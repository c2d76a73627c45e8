#include <algorithm>

#include "derive/wiring.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The section of the raceway's own article.
Citation article(Context& cx, const code::TableRef& types, std::size_t row) {
  Citation c = cx.cite("trade-size");
  c.clause = cx.text("{}{}", types.cell(row, "article").text(), cx.parameter_text("trade-size", "section"));
  return c;
}

/// The smallest flexible size is for a short piece at the equipment.
void short_whip(Context& cx, const Raceway& r) {
  const Citation cite = cx.cite("flex-small");
  const auto longest = cx.parameter("flex-small", "length", cx.text("longest piece of {} {}", *r.type, r.size->label()), "L", units::foot);
  cx.need(r.length, "raceway.length", cx.text("{} {} is for short pieces only", *r.type, r.size->label()));
  for (const Circuit& c : cx.job().circuits)
    if (!c.path.empty() && derive::runs_in(c, r) && c.path.back().raceway != &r) {
      cx.fail(cx.text("{} {} is for a short piece at the equipment, and '{}' runs on from it", *r.type, r.size->label(), *c.name),
              "use a larger trade size", cite, r.size.where);
      return;
    }
  const auto length = cx.given("length", "l", r.length, units::foot);
  Finding& f = cx.require(length, Must::at_most, longest, cite, r.size.where);
  if (f.verdict == Verdict::fail) f.change = cx.text("use a larger trade size, or at most {} ft of it", number_text(units::foot.show(longest.value), 2));
}

void run(Context& cx, const Raceway& r) {
  cx.need(r.type, "raceway.type", "the sizes that are permitted depend on it");
  cx.need(r.size, "raceway.size", "it is held against those that are permitted");
  const auto t = cx.table("raceway-types");
  const std::size_t row = cx.row(t, *r.type);
  const Citation cite = article(cx, t, row);
  const std::string_view least = cx.cell_text(t, row, "smallest", cx.text("smallest {}", *r.type), {});
  const StepId least_step = cx.working().last();
  const std::string_view most = cx.cell_text(t, row, "largest", cx.text("largest {}", *r.type), {});
  const auto smallest = TradeSize::parse(least), largest = TradeSize::parse(most);
  if (!smallest || !largest) cx.not_covered(cx.text("no range of sizes of {} is known", *r.type), cx.edition().cite(t));
  const StepId range = cx.choose("sizes that are permitted", cx.text("{} to {}", least, most), cite, {least_step, cx.working().last()});
  const std::string_view size = r.size->label();
  if (*r.size < *smallest || *r.size > *largest) {
    cx.fail(cx.text("{} is permitted in trade sizes {} to {}, and {} is not one of them", *r.type, least, most, size),
            *r.size < *smallest ? cx.text("use {} or larger", least) : cx.text("use {} or smaller, or another raceway", most), cite, r.size.where, range);
    return;
  }
  if (t.cell(row, "flexible").yes() && size == cx.parameter_text("flex-small", "size")) {
    short_whip(cx, r);
    return;
  }
  cx.pass(cx.text("{} {} is within {} to {}", *r.type, size, least, most), cite, r.size.where, range);
}

}  // namespace

extern const Check check_raceway_trade_size{
    .id = "raceway-trade-size",
    .title = "Trade size",
    .about = "Each kind of raceway has a smallest and a largest trade size; a town may ask for a larger smallest one. The smallest flexible "
             "conduit is there for a short piece between the last fixed raceway and the equipment, and for nothing longer.",
    .formula = "",
    .reads = "raceway.type, raceway.size, raceway.length, circuit.path",
    .rules = "raceway-types, trade-size, flex-small",
    .run = run};

}  // namespace pullproof
