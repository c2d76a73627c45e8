#include "derive/laying.hpp"

#include <fmt/format.h>

#include "derive/load.hpp"
#include "job/words.hpp"

namespace pullproof::derive {
namespace {

std::string_view kinds(const Way& w) { return w.raceway != nullptr ? "raceway-types" : "cable-types"; }
std::string_view sections(const Way& w) { return w.raceway != nullptr ? "raceway-sections" : "cable-sections"; }

}  // namespace

std::string_view key(Context& cx, const Way& w, std::string_view name) { return cx.text("{}.{}", w.kind(), name); }

std::string_view type_of(Context& cx, const Way& w) {
  return cx.need(w.type(), key(cx, w, "type"), "its article depends on it");
}

std::string_view described(Context& cx, const Way& w) {
  const std::string_view type = type_of(cx, w);
  if (w.raceway != nullptr && w.raceway->size) return cx.text("{} {}", type, w.raceway->size->label());
  return type;
}

std::string_view permission(Context& cx, const Way& w, std::string_view topic) {
  const auto t = cx.table(kinds(w));
  const std::size_t row = cx.row(t, type_of(cx, w));
  return t.has_column(topic) ? t.cell(row, topic).text() : "yes";
}

Citation section(Context& cx, const Way& w, std::string_view topic) {
  const auto t = cx.table(sections(w));
  const std::size_t row = cx.row(t, type_of(cx, w));
  if (!t.has_column(topic)) return cx.edition().cite(t);
  const std::size_t column = t.column(topic);
  Citation c = cx.edition().cite(t, row, column);
  if (const std::string_view said = t.cell(row, column).text(); !said.empty()) c.clause = said;
  return c;
}

bool flexible(Context& cx, const Raceway& r) { return permission(cx, Way(r), "flexible") == "yes"; }
bool metal(Context& cx, const Raceway& r) { return permission(cx, Way(r), "metallic") != "nonmetallic"; }
bool is_cord(Context& cx, const Cable& k) { return permission(cx, Way(k), "cord") == "yes"; }

bool buried(const Way& w) { return w.has(Place::underground) || w.laid().cover; }

const Raceway* raceway_around(const Context& cx, const Way& w) {
  if (w.cable == nullptr || !w.cable->inside) return nullptr;
  for (const Raceway& r : cx.job().raceways)
    if (*r.name == *w.cable->inside) return &r;
  return nullptr;
}

std::vector<const Circuit*> circuits_in(const Context& cx, const Way& w) {
  std::vector<const Circuit*> out;
  for (const Circuit& c : cx.job().circuits) {
    bool in = w.raceway != nullptr && runs_in(c, *w.raceway);
    for (const Stretch& s : c.path) in = in || (w.cable != nullptr && s.cable == w.cable);
    if (in) out.push_back(&c);
  }
  return out;
}

bool ends_at_load(const Circuit& c, const Way& w) {
  if (c.path.empty() || c.role.value_or(CircuitRole::branch) == CircuitRole::feeder) return false;
  const Stretch& last = c.path.back();
  return w.raceway != nullptr ? last.raceway == w.raceway : last.cable == w.cable;
}

bool controls_in(const Context& cx, const Raceway& r) {
  for (const Control& c : cx.job().controls)
    for (const Stretch& s : c.path)
      if (s.raceway == &r) return true;
  return false;
}

std::optional<bool> shakes(const Context& cx, const Circuit& c) {
  if (c.load.vibrates) return *c.load.vibrates;
  if (!c.load.appliance || !cx.has_table("appliances")) return std::nullopt;
  const std::string_view kind = circuit_kind(cx, c);
  if (kind == "motor" || kind == "cooling") return true;
  return std::nullopt;
}

std::optional<bool> moves(Context& cx, const Raceway& r) {
  if (r.moves) return *r.moves;
  for (const Circuit* c : circuits_in(cx, Way(r)))
    if (ends_at_load(*c, Way(r)) && shakes(cx, *c).value_or(false)) {
      cx.assume("movement", cx.text("'{}' is taken to need to flex: what it feeds shakes", *r.name));
      return true;
    }
  return std::nullopt;
}

bool held_by_the_wrong_thing(Context& cx, const Way& w) {
  const Given<Holder>& by = w.laid().supports.by;
  if (!by || !cx.has_rule("fastened-to") || !cx.listed("fastened-to", "forbidden", word(*by))) return false;
  cx.fail(cx.text("it is fastened to a {}", word(*by)), "fasten it to the structure, or hang it on wires and rods of its own", cx.cite("fastened-to"), by.where);
  return true;
}

}  // namespace pullproof::derive
