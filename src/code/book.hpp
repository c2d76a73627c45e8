#pragma once
// Rule files read into structures that can be changed: editions are deltas, so they are laid over one another
// here and frozen afterwards. Everything remembers the file and line that set it.
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "code/store.hpp"
#include "core/diagnostic.hpp"

namespace pullproof::code {

struct Origin {
  std::string file;
  std::uint32_t line = 0;
};

using BookValue = std::variant<std::monostate, double, std::string>;

struct BookCell {
  BookValue value;
  Basis basis = Basis::published;
  std::string source;  ///< only where it differs from the table's or rule's
  Origin origin;
};

struct BookEntry {
  std::string title, clause, source;
  Basis basis = Basis::published;
  Basis clause_basis = Basis::published;  ///< of the clause's number, when it was renumbered
  bool seen = true;
  Origin origin;
};

struct BookTable {
  BookEntry entry;
  std::vector<std::string> columns, units;
  std::size_t keys = 0;
  std::vector<std::vector<BookCell>> rows;
};

struct BookParameter {
  bool list = false;
  std::vector<BookCell> cells;
};

struct BookRule {
  BookEntry entry;
  std::map<std::string, BookParameter> parameters;
};

/// One edition, resolved or being resolved.
struct Book {
  std::string id, title, base, publisher, adopted, ordinance;
  std::string file;  ///< the rule file with its [edition]
  std::map<std::string, BookTable> tables;
  std::map<std::string, BookRule> rules;
};

/// A text file under its name for messages ("rules/us-2020.toml").
struct RuleFile {
  std::string name, text;
};

/// Reads a rules folder given as its files: those in a sub-folder with an `edition.toml` are one full base
/// edition together, every other file is a delta. Resolves each chain. Complaints are located; on any, the
/// result is not to be used.
std::vector<Book> read_books(const std::vector<RuleFile>& files, Diagnostics& diagnostics);

/// Lays one delta file over an edition of `books` (found by its `base`) and appends the result.
void lay_over(const RuleFile& file, std::vector<Book>& books, Diagnostics& diagnostics);

/// As lay_over, for a file that a case names: it takes the place of a book of the same id. With `over`, it is laid
/// over that edition instead of its base, provided that its base is that edition or one that it descends from: this
/// is how several amendments come to lie on one another.
void adopt(const RuleFile& file, std::string_view over, std::vector<Book>& books, Diagnostics& diagnostics);

/// The books behind a store, so that an amendment can be laid over a built-in edition.
std::vector<Book> thaw(const Store& store);

}  // namespace pullproof::code
