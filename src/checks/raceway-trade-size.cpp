#include "engine/check.hpp"

namespace pullproof {
namespace {

/// The section of the raceway's own article.
Citation article(Context& cx, const code::TableRef& types, std::size_t row) {
  Citation c = cx.cite("trade-size");
  c.clause = cx.text("{}{}", types.cell(row, "article").text(), cx.parameter_text("trade-size", "section"));
  return c;
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
  cx.pass(cx.text("{} {} is within {} to {}", *r.type, size, least, most), cite, r.size.where, range);
}

}  // namespace

extern const Check check_raceway_trade_size{
    .id = "raceway-trade-size",
    .title = "Trade size",
    .family = Family::raceways,
    .about = "Each kind of raceway has a smallest and a largest trade size; a town may ask for a larger smallest one. Outside them there are no fittings, and no table says how much it holds.",
    .formula = "",
    .reads = "raceway.type, raceway.size",
    .rules = "raceway-types, trade-size",
    .run = run};

}  // namespace pullproof
