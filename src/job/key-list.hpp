#pragma once
// The keys of a case as a list, made from the vocabulary: what `pullproof keys` and the README show.
#include <string>
#include <vector>

namespace pullproof {

struct Key {
  std::string table;    ///< "" at the top, "circuit", "circuit.wire"
  std::string key;
  std::string value;    ///< what is written there: `"62 ft" or "19 m"`, "true or false"
  std::string meaning;
  std::string range;    ///< "from 1 A through 6000 A"; empty without limits
};

/// A table of a case and how it is written: `[[circuit]]`, or a key of the table above it.
struct KeyTable {
  std::string name;     ///< "" for the top, "circuit", "circuit.wire"
  std::string header;   ///< "at the top of the file", "[[circuit]]", "wire = { ... } in [[circuit]]"
  std::string meaning;
  std::vector<Key> keys;
};

/// All tables with their keys, in the order of the vocabulary.
std::vector<KeyTable> key_tables();

}  // namespace pullproof
