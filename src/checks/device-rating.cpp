#include <fmt/format.h>

#include "derive/device.hpp"
#include "derive/load.hpp"
#include "engine/check.hpp"
#include "job/words.hpp"

namespace pullproof {
namespace {

/// A breaker where the case does not say; aloud only where fuses and breakers differ.
DeviceKind kind_of(Context& cx, const Circuit& c) {
  const Current r = *c.breaker.rating;
  const auto is_standard = [&](DeviceKind k) { return derive::largest_standard(cx, k, r) == std::optional(r); };
  if (!c.breaker.kind && is_standard(DeviceKind::breaker) != is_standard(DeviceKind::fuse))
    cx.assume("kind of device", "breaker.kind is not given: taken as a breaker", cx.cite("standard-ratings"));
  return derive::device_kind(c);
}

/// Circuits with several outlets have ratings of their own.
void several_outlets(Context& cx, const Circuit& c, const Traced<Current>& rating) {
  const bool receptacles = c.load.receptacles.value_or(false);
  // What feeds one thing alone, and motors, have ratings by their own articles.
  const bool shared = !c.also_feeds.empty() && !cx.listed("small-conductor-relief", "circuits", derive::circuit_kind(cx, c));
  if (c.role.value_or(CircuitRole::branch) == CircuitRole::feeder || (!receptacles && !shared)) return;
  const code::RuleRef rule = cx.rule("circuit-rating");
  std::string ratings;
  bool listed = false;
  for (const code::CellRef& item : rule.list("several-outlets")) {
    const Measured m = read_quantity(item.text(), Dimension::current);
    listed = listed || (m.ok && Current::from_value(m.si) == rating.value);
    ratings += fmt::format("{}{}", ratings.empty() ? "" : ", ", item.text());
  }
  const std::string_view shown_rating = cx.text("{} A", number_text(raw(rating.value), 1));
  if (!listed) {
    cx.fail(cx.text("a circuit with several outlets has no rating of {}", shown_rating), cx.text("use one of {}", ratings), cx.edition().cite(rule),
            c.breaker.rating.where, rating.step);
    return;
  }
  const code::RuleRef small = cx.rule("circuit-10a");
  if (receptacles && rating.value == cx.parameter("circuit-10a", "rating", units::ampere) && small["receptacles"].text() == "no") {
    cx.fail(cx.text("a {} circuit may not feed receptacles", shown_rating), "use a 15 A device and conductors for it", cx.edition().cite(small),
            c.breaker.rating.where, rating.step);
    return;
  }
  cx.pass(cx.text("{} is a rating for circuits with several outlets", shown_rating), cx.edition().cite(rule), c.breaker.rating.where, rating.step);
}

void run(Context& cx, const Circuit& c) {
  cx.need(c.breaker.rating, "breaker.rating", "the overcurrent device is judged by it");
  const auto rating = cx.given("device rating", "In", c.breaker.rating, units::ampere);
  const DeviceKind kind = kind_of(cx, c);
  const auto standard = derive::standard_rating_from(cx, kind, rating.value, "standard rating", "Is");
  const Citation cite = cx.cite("standard-ratings");
  const std::string_view amperes = cx.text("{} A", number_text(raw(rating.value), 1));
  if (standard && standard->value == rating.value) {
    cx.pass(cx.text("{} is a standard rating of a {}", amperes, word(kind)), cite, c.breaker.rating.where, standard->step);
  } else {
    const auto below = derive::largest_standard(cx, kind, rating.value);
    std::string change = "make sure that its maker offers it";
    if (below && standard)
      change += fmt::format("; the standard ratings beside it are {} A and {} A", number_text(raw(*below), 1), number_text(raw(standard->value), 1));
    cx.advise(cx.text("{} is no standard rating of a {}, though others are permitted", amperes, word(kind)), cx.texts().keep(change), cite,
              c.breaker.rating.where, rating.step);
  }
  several_outlets(cx, c, rating);
}

}  // namespace

extern const Check check_device_rating{
    .id = "device-rating",
    .title = "Rating of the overcurrent device",
    .family = Family::protection,
    .about = "Fuses and breakers come in standard ratings, and which they are changes with the editions. "
             "Other ratings are permitted where a maker offers them, so they are advice, not a failure. Circuits with "
             "several outlets, or more than one appliance, take only a few ratings, and small ones feed no receptacles.",
    .formula = "",
    .reads = "breaker.rating, breaker.kind, load.receptacles, load.appliance, load.motors, circuit.also_feeds, circuit.role",
    .rules = "standard-ratings, circuit-rating, circuit-10a, small-conductor-relief, appliances",
    .run = run};

}  // namespace pullproof
