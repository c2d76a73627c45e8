#pragma once
// What conductors run in: raceways, cables.
#include <vector>
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "core/size.hpp"
#include "job/given.hpp"
#include "job/laying.hpp"
#include "job/place.hpp"

namespace pullproof {

enum class Material : std::uint8_t { copper, aluminum, copper_clad };

/// Conductors that run along without being part of a described circuit: spares, another trade's wires.
struct Other {
  Given<double> count;
  Given<ConductorSize> size;
  Given<std::string_view> type;
  Given<bool> current_carrying, bare, compact;
  Given<Length> diameter;  ///< of one conductor or cable, when the tables do not list it
  Given<bool> cable;       ///< a multiconductor cable or cord: it counts as one conductor for fill
  Given<double> conductors;  ///< of one such cable: those that carry current
  Where where;
};

struct Raceway {
  Given<std::string_view> name, type;
  Given<TradeSize> size;
  Given<Length> length;
  Given<Place> place;
  Given<Temperature> ambient;
  Given<Length> above_roof;  ///< roof to the bottom of the raceway
  Given<Angle> bends;        ///< total between pull points
  Given<bool> nipple;        ///< between boxes, cabinets or similar enclosures
  Given<bool> sleeve;        ///< a short piece that only protects; no complete raceway
  Given<bool> moves;         ///< flexes or vibrates in use, or has to be moved after installation
  Given<bool> listed_fittings;
  Given<Length> inside_diameter;  ///< the maker's, instead of the table's
  Given<double> alike;            ///< such raceways side by side, each with its share of the sets in parallel
  std::vector<Other> also;
  Laying laid;
  RacewayLaying more;
  Where where;
};

/// A multiconductor cable or cord that carries one circuit over a stretch.
struct Cable {
  Given<std::string_view> name, type;
  Given<ConductorSize> size;
  Given<Material> material;
  Given<double> conductors;      ///< insulated ones, the ground not among them
  Given<ConductorSize> ground;
  Given<std::string_view> insulation;  ///< conductor type inside, for armored and tray cable
  Given<Length> length, diameter;      ///< diameter: the larger of a flat cable
  Given<Place> place;
  Given<Temperature> ambient;
  Given<Length> above_roof;
  Given<double> bundled;  ///< cables bundled or in one opening or in insulation together, this one among them
  Given<std::string_view> inside;  ///< a raceway that it is pulled into
  Laying laid;
  CableLaying more;
  Where where;
};

/// A raceway or a cable, for what both are asked. Exactly one of the two is there.
struct Way {
  const Raceway* raceway = nullptr;
  const Cable* cable = nullptr;
  Where where;

  explicit Way(const Raceway& r) : raceway(&r), where(r.where) {}
  explicit Way(const Cable& c) : cable(&c), where(c.where) {}
  const Given<std::string_view>& name() const { return raceway != nullptr ? raceway->name : cable->name; }
  const Given<std::string_view>& type() const { return raceway != nullptr ? raceway->type : cable->type; }
  const Given<Place>& place() const { return raceway != nullptr ? raceway->place : cable->place; }
  const Given<Length>& length() const { return raceway != nullptr ? raceway->length : cable->length; }
  const Laying& laid() const { return raceway != nullptr ? raceway->laid : cable->laid; }
  /// "raceway" or "cable", the table that its keys stand in.
  std::string_view kind() const { return raceway != nullptr ? "raceway" : "cable"; }
  bool has(Place::Word w) const { return place() && place()->has(w); }
};

}  // namespace pullproof
