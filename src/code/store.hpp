#pragma once
// The frozen form of the rule data: flat arrays without pointers, so that the program can carry all editions
// as constants that cost nothing at start. Written by freeze.cpp (at build time, and at run time for --rules),
// read through edition.hpp.
#include <cstdint>
#include <span>
#include <string_view>

#include "core/working.hpp"

namespace pullproof::code {

/// A text in the pool. Equal texts have equal offsets.
struct Str {
  std::uint32_t at = 0, size = 0;
  friend constexpr bool operator==(Str, Str) = default;
};

enum class CellKind : std::uint8_t { blank, number, text };

struct Cell {
  double number = 0;
  Str text;
  std::uint32_t line = 0;
  std::uint16_t file = 0;
  CellKind kind = CellKind::blank;
  Basis basis = Basis::published;
};

struct Column {
  Str name, unit;
};

/// A cell whose source differs from its table's.
struct CellSource {
  std::uint32_t cell = 0;
  Str source;
};

struct Entry {
  Str name, title, clause, source;
  std::uint32_t line = 0;
  std::uint16_t file = 0;
  Basis basis = Basis::published;
  Basis clause_basis = Basis::published;  ///< of the clause's number in this edition
  bool seen = true;  ///< false: nobody has seen this in the edition, so it is not covered
};

struct Table {
  Entry entry;
  std::uint32_t first_column = 0, columns = 0, keys = 0;
  std::uint32_t first_cell = 0, rows = 0;
};

/// A parameter of a rule; a list has its items in consecutive cells.
struct Parameter {
  Str name;
  std::uint32_t first_cell = 0, cells = 0;
  bool list = false;
};

struct Rule {
  Entry entry;
  std::uint32_t first_parameter = 0, parameters = 0;
};

struct EditionRecord {
  Str id, title, base, publisher, adopted, ordinance;
  std::uint16_t file = 0;                     ///< that set it up: cells it changed are from there
  std::uint32_t first_table = 0, tables = 0;  ///< sorted by name
  std::uint32_t first_rule = 0, rules = 0;    ///< sorted by name
  std::uint32_t first_slot = 0, table_slots = 0, rule_slots = 0;  ///< where to look for a name: see `slot_of`
};

/// Where a name is looked for among `slots`, a power of two: from here on, round the end, until an empty slot. FNV-1a.
constexpr std::uint32_t slot_of(std::string_view name, std::uint32_t slots) {
  std::uint32_t hash = 2166136261U;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619U;
  return (hash ^ hash >> 16) & (slots - 1);
}

struct Store {
  std::string_view pool;
  std::span<const Str> files;
  std::span<const Cell> cells;
  std::span<const Column> columns;
  std::span<const CellSource> sources;
  std::span<const Table> tables;
  std::span<const Parameter> parameters;
  std::span<const Rule> rules;
  std::span<const EditionRecord> editions;
  std::span<const std::uint16_t> slots;  ///< of each edition, its tables' and then its rules': 0 is empty, else the number in the edition and one

  std::string_view text(Str s) const { return pool.substr(s.at, s.size); }
  Where where(std::uint16_t file, std::uint32_t line) const { return {text(files[file]), line, 1, 1}; }
};

/// The editions that the program was built with.
const Store& built_in_store();

}  // namespace pullproof::code
