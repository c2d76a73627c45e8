#include "derive/laying.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

void run(Context& cx, const Way& w) {
  if (!derive::buried(w)) return void(cx.not_applicable("it is not in the ground"));
  const Laying& l = w.laid();
  if (l.backfill_clean) {
    const Citation cite = cx.cite("burial-backfill");
    if (*l.backfill_clean) cx.pass("nothing sharp or corrosive lies against it", cite, l.backfill_clean.where);
    else cx.fail("rock, rubble or corrosive stuff lies against it", "bed it in sand or fine earth, or cover it with boards or a sleeve", cite, l.backfill_clean.where);
  }
  if (l.ground_moves.value_or(false)) {
    const Citation cite = cx.cite("burial-ground-movement");
    cx.need(l.slack, derive::key(cx, w, "slack"), "ground that settles or heaves pulls on what enters equipment");
    if (*l.slack) cx.pass("slack or fittings take up what the ground moves", cite, l.slack.where);
    else cx.fail("nothing takes up what the ground moves", w.raceway != nullptr ? "put in an expansion fitting or a flexible piece where it rises" : "lay it with a loop where it rises",
                 cite, l.slack.where);
  }
  if (cx.findings() == 0) cx.not_applicable("nothing is said of what lies against it, or that the ground moves", cx.cite("burial-backfill"));
}

}  // namespace

extern const Check check_burial_bed{
    .id = "burial-bed",
    .title = "What buried wiring lies in",
    .family = Family::places,
    .about = "A sharp stone works through a jacket in a few winters, and ground that settles or heaves pulls a raceway out of its fitting. The fill "
             "against buried wiring is free of what damages it, and where the ground moves, loops, slack or fittings take that up.",
    .formula = "",
    .reads = "raceway.cover, raceway.place, raceway.backfill_clean, raceway.ground_moves, raceway.slack, cable.cover, cable.place, "
             "cable.backfill_clean, cable.ground_moves, cable.slack",
    .rules = "burial-backfill, burial-ground-movement",
    .run = run};

}  // namespace pullproof
