#pragma once
// What several checks on raceways and cables ask: where they are, what runs in them, what their article says.
#include <vector>

#include "derive/wiring.hpp"
#include "engine/context.hpp"

namespace pullproof::derive {

/// A key of this raceway or cable: "raceway.cover".
std::string_view key(Context& cx, const Way& w, std::string_view name);
/// "EMT 1/2" or "UF-B", for messages. Needs the type.
std::string_view described(Context& cx, const Way& w);
/// The type; needs it.
std::string_view type_of(Context& cx, const Way& w);

/// What the table of kinds says of this one: "yes", "no", "listed" ...; `topic` is a column of raceway-types or
/// cable-types.
std::string_view permission(Context& cx, const Way& w, std::string_view topic);
/// The section of its article on a topic, a column of raceway-sections or cable-sections.
Citation section(Context& cx, const Way& w, std::string_view topic);

bool flexible(Context& cx, const Raceway& r);
bool metal(Context& cx, const Raceway& r);
/// Whether a cable is a flexible cord.
bool is_cord(Context& cx, const Cable& k);

/// In the ground: its place says so, or its cover is given.
bool buried(const Way& w);
/// The raceway that a cable is pulled into, or null.
const Raceway* raceway_around(const Context& cx, const Way& w);

/// The circuits that run in this raceway or cable.
std::vector<const Circuit*> circuits_in(const Context& cx, const Way& w);
/// Whether it is the last stretch of the circuit, the one that ends at the equipment.
bool ends_at_load(const Circuit& c, const Way& w);
/// Whether a control run goes through this raceway.
bool controls_in(const Context& cx, const Raceway& r);

/// Whether it has to flex or vibrates in use: as the case says, else by the kind of the equipment where it ends, aloud.
/// Nothing where neither says.
std::optional<bool> moves(Context& cx, const Raceway& r);
/// Whether the equipment shakes: as the case says, else by its kind. Nothing where neither says.
std::optional<bool> shakes(const Context& cx, const Circuit& c);

/// Reports what may not hold a raceway or cable: a pipe, a ceiling grid. True when it did.
bool held_by_the_wrong_thing(Context& cx, const Way& w);

/// For what every raceway or cable of a case has and this case tells of none: the first of those that `lacks` holds
/// for asks, in one finding, for all of them. True for the one that asks.
template <class T, class Lacks>
bool asks_for_all(const std::vector<T>& all, const T& own, Lacks lacks) {
  for (const T& x : all)
    if (lacks(x)) return &x == &own;
  return true;
}
/// The others that `lacks` holds for, as "; the same goes for 'a', 'b'"; empty without others.
template <class T, class Lacks>
std::string others_that_lack(const std::vector<T>& all, const T& own, Lacks lacks) {
  std::string names;
  for (const T& x : all)
    if (&x != &own && lacks(x)) names += fmt::format("{}'{}'", names.empty() ? "; the same goes for " : ", ", *x.name);
  return names;
}

}  // namespace pullproof::derive
