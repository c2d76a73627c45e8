#include "derive/wiring.hpp"

#include <cmath>

namespace pullproof::derive {
namespace {

/// The first of the givens that is there.
template <class T>
const Given<T>& first(const Given<T>& a, const Given<T>& b) { return a ? a : b; }

Material material_of(Context& cx, const Given<Material>& m, std::string_view what) {
  if (m) return *m;
  cx.assume(what, cx.text("{} is not given: taken as copper", what));
  return Material::copper;
}

}  // namespace

Conductors conductors_on(Context& cx, const Circuit& c, const Stretch& s) {
  Conductors out;
  out.cable = s.cable;
  out.raceway = s.raceway;
  const auto pick = [&](auto member) { return first(s.wire.*member, c.wire.*member); };
  if (s.cable != nullptr) {
    const Cable& k = *s.cable;
    out.size = first(k.size, pick(&Wire::size));
    out.material = material_of(cx, first(k.material, pick(&Wire::material)), "wire.material");
    const auto types = cx.table("cable-types");
    const std::string_view type = cx.need(k.type, "cable.type", "it decides the ampacity column");
    out.type = k.insulation ? *k.insulation : types.cell(cx.row(types, type), "insulation").text();
    out.type_where = k.insulation ? k.insulation.where : k.type.where;
  } else {
    out.size = pick(&Wire::size);
    out.material = material_of(cx, pick(&Wire::material), "wire.material");
    const auto type = pick(&Wire::type);
    if (type) out.type = *type;
    out.type_where = type.where;
  }
  cx.need(out.size, "wire.size", "the conductors cannot be judged without it");
  if (const auto fixture = cx.edition().table("fixture-wire"); fixture && !out.type.empty())
    out.fixture = fixture->find(out.type).has_value();
  out.compact = pick(&Wire::compact).value_or(false);
  out.coated = pick(&Wire::coated).value_or(false);
  out.solid = pick(&Wire::stranding).value_or(Stranding::stranded) == Stranding::solid;
  if (const auto covering = pick(&Wire::covering)) out.covering = *covering;
  out.sets = pick(&Wire::parallel).value_or(1);
  out.diameter = pick(&Wire::diameter);
  out.temperature = pick(&Wire::temperature);
  return out;
}

GroundOn ground_on(Context& cx, const Circuit& c, const Stretch& s) {
  GroundOn out;
  const auto pick = [&](auto member) { return first(s.ground.*member, c.ground.*member); };
  if (s.cable != nullptr) {
    out.size = first(s.cable->ground, Given<ConductorSize>{});
    out.wire = out.size.present;
    out.material = s.cable->material.value_or(Material::copper);
    out.where = out.size ? out.size.where : s.cable->where;
    return out;
  }
  const Ground& told = s.ground.shared != nullptr || s.ground.kind || s.ground.size ? s.ground : c.ground;
  if (told.shared != nullptr) {
    const Stretch* its = stretch_in(*told.shared, *s.raceway);
    if (its != nullptr && its->raceway == s.raceway) out = ground_on(cx, *told.shared, *its);
    out.shared = told.shared;
    out.where = told.shared_with.where;
    return out;
  }
  // A stretch may say that its raceway does it, and then the circuit's wire is not in it.
  out.raceway = told.kind && *told.kind == GroundKind::raceway;
  out.size = out.raceway ? told.size : pick(&Ground::size);
  out.wire = out.size.present || (told.kind && !out.raceway);
  out.where = out.size ? out.size.where : told.kind ? told.kind.where : c.where;
  if (!out.wire) return out;
  out.material = material_of(cx, pick(&Ground::material), "ground.material");
  out.bare = pick(&Ground::bare).value_or(false);
  out.compact = pick(&Ground::compact).value_or(false);
  out.diameter = pick(&Ground::diameter);
  if (const auto type = pick(&Ground::type)) out.type = *type;
  return out;
}

double sets_in_one(const Context& cx, const Circuit& c, const Stretch& s) {
  const double sets = first(s.wire.parallel, c.wire.parallel).value_or(1);
  const Raceway* r = raceway_around(cx, s);
  const double raceways = r != nullptr ? r->alike.value_or(1) : 1;
  const double each = sets / raceways;
  if (each != std::floor(each)) cx.needs_input("wire.parallel", "the sets in parallel divide evenly over the raceways alike");
  return each;
}

std::string_view name_of(const Stretch& s) { return *s.in; }

const Given<Length>& length_of(Context& cx, const Stretch& s) {
  const Given<Length>& l = s.raceway != nullptr ? s.raceway->length : s.cable->length;
  cx.need(l, s.raceway != nullptr ? "raceway.length" : "cable.length", cx.text("the length of '{}'", name_of(s)));
  return l;
}

const Given<Place>& place_of(const Stretch& s) { return s.raceway != nullptr ? s.raceway->place : s.cable->place; }

std::string_view moisture_word(Moisture m) {
  switch (m) {
    case Moisture::dry: return "dry";
    case Moisture::damp: return "damp";
    case Moisture::wet: return "wet";
  }
  return "";
}

namespace {

MoistureFound moisture_at(Context& cx, const Given<Place>& p, std::string_view name, bool raceway) {
  if (!p) {
    cx.assume("place", cx.text("the place of '{}' is not given: taken as indoors and dry", name));
    return {Moisture::dry, cx.working().last(), {}};
  }
  const auto found = [&](Moisture m, std::string_view why, std::string_view rule) {
    return MoistureFound{m, cx.choose("moisture", why, cx.cite(rule)), rule};
  };
  if (p->has(Place::underground))
    return found(Moisture::wet, raceway ? "underground, so wet inside" : "underground, so wet", "wet-raceway-underground");
  if (p->has(Place::wet)) return found(Moisture::wet, "the place is wet", "wet-conductors");
  if (p->has(Place::damp)) return found(Moisture::damp, "the place is damp", "damp-conductors");
  if (p->has(Place::outdoors) || p->has(Place::rooftop))
    return found(Moisture::wet,
                 p->has(Place::dry) ? "outdoors counts as wet, whatever the weather"
                 : raceway          ? "outdoors above grade, so wet inside"
                                    : "outdoors above grade, so wet",
                 raceway ? "wet-raceway-outdoors" : "wet-conductors");
  if (p->has(Place::dry)) return found(Moisture::dry, "the place is dry", "dry-conductors");
  cx.assume("place", cx.text("the place of '{}' does not say dry, damp or wet: taken as dry", name));
  return {Moisture::dry, cx.working().last(), {}};
}

}  // namespace

const Raceway* raceway_around(const Context& cx, const Stretch& s) {
  if (s.raceway != nullptr || s.cable == nullptr || !s.cable->inside) return s.raceway;
  for (const Raceway& r : cx.job().raceways)
    if (r.name && *r.name == *s.cable->inside) return &r;
  return nullptr;
}

MoistureFound moisture_in(Context& cx, const Stretch& s) {
  const Raceway* around = raceway_around(cx, s);
  const auto in_raceway = [&] { return moisture_at(cx, around->place, *around->name, true); };
  if (s.cable == nullptr) return in_raceway();
  // A cable in a raceway that says nothing of its own place is where the raceway is.
  if (around != nullptr && !s.cable->place) return in_raceway();
  const MoistureFound own = moisture_at(cx, s.cable->place, name_of(s), false);
  if (around == nullptr || !around->place) return own;
  const MoistureFound outer = in_raceway();
  return outer.moisture > own.moisture ? outer : own;
}

const Stretch* stretch_in(const Circuit& c, const Raceway& r) {
  for (const Stretch& s : c.path) {
    if (s.raceway == &r) return &s;
    if (s.cable != nullptr && s.cable->inside && *s.cable->inside == *r.name) return &s;
  }
  return nullptr;
}

bool runs_in(const Circuit& c, const Raceway& r) { return stretch_in(c, r) != nullptr; }

}  // namespace pullproof::derive
