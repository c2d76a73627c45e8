#include "support/first_cases.hpp"

#include <fmt/format.h>

#include "code/edition.hpp"
#include "core/diagnostic.hpp"
#include "job/read.hpp"
#include "starter/plan.hpp"

namespace pullproof::test {
namespace {

/// Pieces that are there, with commas between.
class Line {
 public:
  explicit Line(std::string begin) : text_(std::move(begin)) {}
  void add(std::string_view piece) {
    if (piece.empty()) return;
    text_.append(first_ ? ": " : ", ").append(piece);
    first_ = false;
  }
  template <class T>
  void add(std::string_view before, const Given<T>& given, std::string_view after = {}) {
    if (given) add(fmt::format("{}{}{}", before, given.text, after));
  }
  std::string text() const { return text_ + "\n"; }

 private:
  std::string text_;
  bool first_ = true;
};

std::string appliance_line(const Circuit& c) {
  const Load& l = c.load;
  Line line(std::string(l.appliance.text));
  line.add("", c.voltage);
  line.add("", l.current);
  line.add("", l.power);
  line.add("at least ", l.minimum_circuit_ampacity, " of wire");
  line.add("device at most ", l.maximum_device);
  for (const Motor& m : l.motors) {
    line.add("", m.horsepower, " motor");
    line.add("nameplate ", m.nameplate_current);
  }
  line.add("", l.place);
  line.add("", l.connection);
  if (l.needs_neutral.value_or(false)) line.add("with a neutral");
  if (l.vibrates.value_or(false)) line.add("shakes");
  return line.text();
}

std::string wiring_line(const Case& job, const Circuit& c) {
  Line line("  wiring");
  line.add("", c.breaker.rating, " breaker");
  for (const Cable& k : job.cables) line.add(fmt::format("{} {} {}/{} with {} ground ({})", k.length.text, k.type.text, k.size.text, k.conductors.text, k.ground.text, k.place.text));
  line.add("", c.wire.size, fmt::format(" {}", c.wire.type.text));
  line.add("ground ", c.ground.size);
  for (const Raceway& r : job.raceways) line.add(fmt::format("{} {} {} ({})", r.length.text, r.type.text, r.size.text, r.place.text));
  if (c.individual.value_or(false)) line.add("a circuit of its own");
  line.add("receptacle ", c.receptacle.rating);
  line.add("disconnect: ", c.disconnect.kind);
  line.add("", c.disconnect.rating);
  line.add("service receptacle within ", c.service_receptacle.distance);
  return line.text();
}

std::string control_line(const Control& k) {
  Line line(fmt::format("  {}", k.name.text));
  line.add("", k.source.voltage);
  line.add("at most ", k.source.maximum_voltage);
  line.add("", k.source.rating);
  line.add(fmt::format("{} of {} × {} {} {}", k.length.text, k.cable.conductors.text, k.cable.size.text, k.cable.stranding.text, k.cable.type.text));
  line.add("", k.load.current, " drawn");
  line.add("works down to ", k.load.minimum_voltage);
  return line.text();
}

}  // namespace

std::string first_case(const Shelf& shelf, std::string_view edition_id, std::string_view appliance) {
  const auto edition = code::Edition::find(shelf.store, edition_id);
  if (!edition) return "no such edition\n";
  starter::Plan plan = starter::plan_for(*edition, appliance);
  starter::fit_sizes(shelf, *edition, plan);
  Diagnostics diagnostics;
  const auto job = read_case("case.toml", starter::compose(*edition, plan), diagnostics);
  if (!job || !diagnostics.sorted().empty() || job->circuits.size() != 1) return fmt::format("{}: cannot be read\n", appliance);
  const Circuit& c = job->circuits[0];
  std::string out = appliance_line(c) + wiring_line(*job, c);
  for (const Control& k : job->controls) out += control_line(k);
  const auto kinds = edition->table("appliances");
  const auto row = kinds ? kinds->find(appliance) : std::nullopt;
  if (const std::string_view note = row ? kinds->cell(*row, "note").text() : std::string_view{}; !note.empty()) out += fmt::format("  note: {}\n", note);
  return out;
}

std::string first_ways(const Shelf& shelf, std::string_view edition_id) {
  const auto edition = code::Edition::find(shelf.store, edition_id);
  const auto methods = edition ? edition->table("starter-methods") : std::nullopt;
  std::string out;
  for (std::size_t r = 0; methods && r < methods->rows(); ++r) {
    starter::Plan plan = starter::plan_for(*edition, "other appliance");
    plan.method = methods->cell(r, "method").text();
    starter::follow(*edition, plan, {"method"});
    out += fmt::format("by {}: {}\n", plan.method, plan.route);
  }
  return out;
}

std::string first_cases(const Shelf& shelf, std::string_view edition_id) {
  const auto edition = code::Edition::find(shelf.store, edition_id);
  std::string out;
  if (edition)
    for (const std::string_view appliance : starter::appliances(*edition)) out += first_case(shelf, edition_id, appliance);
  return out + first_ways(shelf, edition_id);
}

}  // namespace pullproof::test
