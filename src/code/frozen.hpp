#pragma once
// A store that owns its arrays: what freezing books gives.
#include <memory>
#include <string>
#include <vector>

#include "code/book.hpp"
#include "code/store.hpp"

namespace pullproof::code {

struct FrozenStore {
  std::string pool;
  std::vector<Str> files;
  std::vector<Cell> cells;
  std::vector<Column> columns;
  std::vector<CellSource> sources;
  std::vector<Table> tables;
  std::vector<Parameter> parameters;
  std::vector<Rule> rules;
  std::vector<EditionRecord> editions;
  std::vector<std::uint16_t> slots;
  Store view() const { return {pool, files, cells, columns, sources, tables, parameters, rules, editions, slots}; }
};

/// Flattens books into arrays. Cells that several editions share are stored once. The order of everything
/// depends on the books alone.
FrozenStore freeze(const std::vector<Book>& books);

/// A frozen store behind the pointer that editions hold.
std::shared_ptr<const Store> share(FrozenStore store);

}  // namespace pullproof::code
