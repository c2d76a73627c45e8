#pragma once
// How raceways and cables are laid: fastened, protected, buried, sealed.
#include <cstdint>
#include <string_view>

#include "core/quantity.hpp"
#include "job/given.hpp"

namespace pullproof {

/// What lies over something that is buried.
enum class Under : std::uint8_t { ground, concrete, building, slab, street, driveway, dwelling_driveway, runway };
enum class RoofDeck : std::uint8_t { corrugated_metal, other };
/// Kinds of couplings and connectors, as far as rain is concerned.
enum class Fittings : std::uint8_t { set_screw, compression, raintight, threaded };

/// What a raceway or cable is fastened to.
enum class Holder : std::uint8_t { structure, ceiling_grid, raceway, pipe, duct };

/// What holds a raceway or cable.
struct Supports {
  Given<Holder> by;
  Given<Length> every;       ///< largest distance from one to the next
  Given<Length> from_box;    ///< largest distance from a box, cabinet, fitting or other end to the first
  Given<Length> unfastened;  ///< flexible: from the last fastening to the equipment
  Given<bool> none;          ///< nothing holds it
  Given<bool> unbroken;      ///< no coupling up to the first support, and nothing nearer to fasten to
  Given<bool> threaded;      ///< threaded couplings and straight
  Given<bool> riser;         ///< a vertical riser held at top and bottom
  Given<bool> fished;        ///< in a finished space where nothing can be fastened
  Given<bool> through_framing;     ///< a level run through holes in studs or joists, which hold it
  Given<bool> accessible_ceiling;  ///< within such a ceiling, to a luminaire or other equipment
  Given<bool> unclamped_box;       ///< cable: the box is single-gang, nonmetallic and has no clamp
  Given<double> per_staple;        ///< cables under one staple
  Given<bool> on_edge;             ///< a flat cable is stapled on its edge
  Where where;
};

/// What guards a cable that is run over framing instead of through it.
struct Guard {
  Given<bool> across_joists;     ///< unfinished basement or crawl space: across the bottoms of the joists
  Given<bool> running_board;     ///< on a board there
  Given<bool> across_framing;    ///< attic: across the tops of joists, or the faces of rafters and studs
  Given<bool> strips;            ///< guard strips as high as the cable beside it
  Given<bool> stairs;            ///< the attic is reached by permanent stairs or ladder
  Given<Length> from_hatch;      ///< to the nearest edge of the scuttle hole
  Given<Length> above_floor;     ///< of the lowest piece on rafters or studs
  Where where;
};

/// What protects a direct-buried cable where it comes out of the ground.
struct GroundRiser {
  Given<std::string_view> type;  ///< of the raceway around it
  Given<Length> above, below;    ///< how far above and below grade it reaches
  Given<Length> ends_at;         ///< height above grade where the cable enters an enclosure or building
  Where where;
};

/// What raceways and cables have in common.
struct Laying {
  Supports supports;
  Given<Length> edge_distance;  ///< to the nearest edge of stud, joist, rafter or furring
  Given<bool> nail_plate, metal_studs, grommets;
  Given<RoofDeck> roof_deck;  ///< it runs below, in or on such a deck
  Given<Length> below_deck;   ///< from the lowest surface of the deck to its top
  Given<Length> cover;        ///< from grade to its top
  Given<Under> under;
  Given<Length> concrete;  ///< thickness of concrete right over it, down to solid rock
  Given<bool> rock;
  Given<bool> sunlight_resistant, outdoor_rated, direct_burial, plenum_rated;  ///< marks of its maker
  Given<bool> corrosion_protected;
  Given<bool> rated_wall, fire_stopped;
  Given<bool> backfill_clean;  ///< buried: nothing sharp, coarse or corrosive lies against it
  Given<bool> ground_moves;    ///< buried where the ground settles or heaves with frost
  Given<bool> slack;           ///< and it has loops, slack or fittings that give
};

struct RacewayLaying {
  Given<Fittings> fittings;
  Given<bool> angle_connectors;
  Given<Temperature> coldest;
  Given<Length> straight;  ///< longest straight run between things that hold it fast
  Given<bool> expansion_fitting;
  Given<Length> expansion_travel;
  Given<bool> encased;  ///< in 2 in of concrete
  Given<bool> drains, sealed, known_condensation;
  Given<bool> enters_building;  ///< comes in from outside
  Given<bool> bushings, concentric_knockouts, bonding_bushing;
  Given<bool> neutrals_grouped;
};

struct CableLaying {
  GroundRiser riser;
  Guard guard;
  Given<bool> fastened;      ///< cord: attached to the building
  Given<bool> through_wall;  ///< cord: through a wall, floor, ceiling, door or window
  Given<Length> sheath_in_box;
};

}  // namespace pullproof
