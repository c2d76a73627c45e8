#pragma once
// Boxes, conduit bodies and pull boxes on the way.
#include <vector>

#include "job/ways.hpp"

namespace pullproof {

enum class Wall : std::uint8_t { left, right, top, bottom, back };
enum class Barrier : std::uint8_t { metal, nonmetallic };

/// A raceway or cable that enters a box.
struct BoxEntry {
  Given<std::string_view> in;
  Given<Wall> wall;
  Given<double> row;  ///< rows of entries on one wall, from 1
  Where where;
  const Raceway* raceway = nullptr;  ///< set when names are linked; exactly one of the two
  const Cable* cable = nullptr;
};

/// A yoke with a switch, receptacle or other device.
struct BoxDevice {
  Given<ConductorSize> size;  ///< largest conductor on it
  Given<double> gangs;
  Where where;
};

struct TerminalBlock {
  Given<ConductorSize> size;  ///< largest conductor on it
  Where where;
};

/// Where a box is, and what an inspector sees when it is open.
struct BoxSite {
  Given<Place> place;
  Given<std::string_view> enclosure;  ///< type as marked: "3R", "weatherproof"
  Given<Length> air_gap;              ///< to the wall behind a metal one
  Given<Length> free_conductor;       ///< shortest, from where it leaves its raceway or sheath
  Given<Length> free_outside;         ///< how far the shortest reaches out of the opening
  Given<Length> opening;              ///< smallest dimension of its opening
  Given<bool> openings_closed;        ///< its unused holes
  Given<bool> cover, fastened;        ///< it has a cover, a faceplate or a canopy; it is held by more than its wiring
  Given<bool> grounds_joined;         ///< all grounds in it, to one another and to a metal box; no device passes them on
  Given<bool> accessible;             ///< it is reached without taking off part of the building
};

struct Box {
  Given<std::string_view> name, kind, size;  ///< kind and size as in the table of standard boxes
  Given<Volume> volume;                      ///< as marked; with extension rings and domed covers added
  std::vector<BoxEntry> entries;
  Given<bool> passes_through;  ///< conductors run through without a splice
  Given<double> loops;         ///< unbroken loops long enough to count twice
  Given<bool> clamps, marked_for_conductors;
  Given<ConductorSize> isolated_ground;  ///< largest of a second, isolated set of grounds
  Given<double> fittings;  ///< kinds of support fittings: stud, hickey
  std::vector<BoxDevice> devices;
  std::vector<TerminalBlock> terminal_blocks;
  Given<Barrier> barrier;
  Given<Volume> barrier_volume;
  std::vector<Other> also;
  Given<Length> width, height, depth;  ///< inside: left to right, top to bottom, back to cover
  Given<Length> apart;                 ///< nearest edges of the entries of the same conductors
  BoxSite site;
  Where where;
};

}  // namespace pullproof
