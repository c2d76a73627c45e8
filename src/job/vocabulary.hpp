#pragma once
// The vocabulary of a case: every key, what it means and what it may be. One description serves everything that
// knows keys: the reader, the schema, the starters. `V` is a visitor; see read.cpp.
//
//   v.field(key, member, meaning [, lowest, highest])   a value; limits in SI units, inclusive
//   v.table(key, member, meaning)                       a sub-table
//   v.tables(key, members, meaning)                     an array of tables
//   v.path(key, members, meaning)                       stretches: names, or tables with more
//   v.entries(key, members, meaning)                    the same for entries of a box
#include "job/case.hpp"
#include "job/keys/box.hpp"
#include "job/keys/circuit.hpp"
#include "job/keys/control.hpp"
#include "job/keys/supply.hpp"
#include "job/keys/units.hpp"
#include "job/keys/ways.hpp"
#include "job/words.hpp"

namespace pullproof {

template <class V>
void describe(V& v, Case& c) {
  v.field("edition", c.edition, "the code edition, \"us-2023\", or an amendment file");
  v.texts("amendments", c.amendments, "amendment files, laid over the edition in this order");
  v.texts("adopted_tias", c.adopted_tias, "tentative interim amendments that the place has adopted, by the names of `pullproof rules show interim-amendments`");
  v.field("date", c.date, "day of the permit: some exceptions end on a day");
  v.table("job", c.job, "for the head of the report");
  v.table("supply", c.supply, "the panel that the circuits start from");
  v.tables("raceway", c.raceways, "a stretch of raceway");
  v.tables("cable", c.cables, "a stretch of multiconductor cable or cord");
  v.tables("box", c.boxes, "a box, conduit body or pull box");
  v.tables("circuit", c.circuits, "a circuit from its overcurrent device to what it feeds");
  v.tables("control", c.controls, "a low-voltage control run");
}

}  // namespace pullproof
