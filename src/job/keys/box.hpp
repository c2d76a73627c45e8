#pragma once
// Keys of [[box]]. Limits in metres and cubic metres.
#include "job/box.hpp"
#include "job/keys/units.hpp"
#include "job/keys/ways.hpp"

namespace pullproof {

template <class V>
void describe(V& v, BoxEntry& e) {
  v.field("in", e.in, "the raceway or cable");
  v.field("wall", e.wall, "left, right, top, bottom or back");
  v.field("row", e.row, "row of entries on that wall", 1, 20);
}

template <class V>
void describe(V& v, BoxDevice& d) {
  v.field("size", d.size, "largest conductor on it");
  v.field("gangs", d.gangs, "gangs that it takes up", 1, 6);
}

template <class V>
void describe(V& v, TerminalBlock& t) {
  v.field("size", t.size, "largest conductor on it");
}

template <class V>
void describe(V& v, BoxSite& s) {
  v.field("place", s.place, "where it is");
  v.field("enclosure", s.enclosure, "type as marked, \"3R\", \"4X\", or \"weatherproof\"");
  v.field("air_gap", s.air_gap, "of a metal one in a wet place: from the wall behind it", 0, 1);
  v.field("free_conductor", s.free_conductor, "shortest length of conductor from where it leaves its raceway or sheath", 0, 10);
  v.field("free_outside", s.free_outside, "how far the shortest conductor reaches out of the opening", 0, 10);
  v.field("opening", s.opening, "smallest dimension of its opening", 0.01, 10);
  v.field("openings_closed", s.openings_closed, "true when its unused holes are closed");
  v.field("cover", s.cover, "true when it has a cover, a faceplate or the canopy of a luminaire");
  v.field("fastened", s.fastened, "true when it is fastened to the building, or held by raceways in a way that its article allows");
  v.field("grounds_joined", s.grounds_joined, "true when all grounding wires in it are joined to one another, and to it where it is of metal, so that no device has to pass them on");
  v.field("accessible", s.accessible, "true when it is reached without taking off part of the building; false behind drywall");
}

template <class V>
void describe(V& v, Box& b) {
  v.field("name", b.name, "what the case calls it");
  v.field("kind", b.kind, "square, round/octagonal, device, FS single cover/gang ..., conduit body");
  v.field("size", b.size, "size of a standard box, \"4 x 1-1/2\"");
  v.field("volume", b.volume, "volume marked in it, with rings and domed covers added, \"21 in³\"", 1e-6, 1);
  v.entries("entries", b.entries, "raceways and cables that enter it");
  v.field("passes_through", b.passes_through, "true when conductors run through without a splice");
  v.field("loops", b.loops, "unbroken loops of 12 in or more", 0, 40);
  v.field("clamps", b.clamps, "true when cable clamps are inside");
  v.field("fittings", b.fittings, "kinds of support fittings inside: a stud, a hickey", 0, 2);
  v.tables("devices", b.devices, "yokes with devices");
  v.tables("terminal_blocks", b.terminal_blocks, "terminal block assemblies");
  v.field("isolated_ground", b.isolated_ground, "largest conductor of a second, isolated set of grounds");
  v.field("barrier", b.barrier, "metal or nonmetallic, when a barrier without a marked volume parts it");
  v.field("barrier_volume", b.barrier_volume, "volume marked on the barrier", 1e-7, 1e-3);
  v.tables("also", b.also, "conductors that enter and belong to no circuit of this case");
  v.field("width", b.width, "inside, left to right", 0.01, 10);
  v.field("height", b.height, "inside, top to bottom", 0.01, 10);
  v.field("depth", b.depth, "inside, back to cover", 0.01, 10);
  v.field("apart", b.apart, "between the nearest edges of the entries of the same conductors", 0, 10);
  v.field("marked_for_conductors", b.marked_for_conductors, "true when it is listed and marked for these conductors");
  describe(v, b.site);
}

}  // namespace pullproof
