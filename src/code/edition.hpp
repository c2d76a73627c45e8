#pragma once
// One edition of the rules, resolved: what the checks ask.
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "code/store.hpp"
#include "core/working.hpp"

namespace pullproof::code {

class Edition;

/// One cell of a table or one value of a rule's parameter.
class CellRef {
 public:
  CellRef() = default;
  CellRef(const Store* store, const Cell* cell) : store_(store), cell_(cell) {}
  bool blank() const { return cell_ == nullptr || cell_->kind == CellKind::blank; }
  std::optional<double> number() const {
    return cell_ != nullptr && cell_->kind == CellKind::number ? std::optional(cell_->number) : std::nullopt;
  }
  /// The text of the cell; empty for a number or a blank.
  std::string_view text() const {
    return cell_ != nullptr && cell_->kind == CellKind::text ? store_->text(cell_->text) : std::string_view{};
  }
  bool yes() const { return text() == "yes"; }
  Basis basis() const { return cell_ != nullptr ? cell_->basis : Basis::published; }
  Where origin() const;
  /// Where this very cell was read, when it differs from its table; else empty.
  std::string_view source() const;

 private:
  friend class Edition;
  const Store* store_ = nullptr;
  const Cell* cell_ = nullptr;
};

class TableRef {
 public:
  TableRef(const Store* store, const Table* table) : store_(store), table_(table) {}
  std::string_view name() const { return store_->text(table_->entry.name); }
  std::string_view title() const { return store_->text(table_->entry.title); }
  std::string_view clause() const { return store_->text(table_->entry.clause); }
  std::string_view source() const { return store_->text(table_->entry.source); }
  Basis basis() const { return table_->entry.basis; }
  Basis clause_basis() const { return table_->entry.clause_basis; }
  bool seen() const { return table_->entry.seen; }
  Where origin() const { return store_->where(table_->entry.file, table_->entry.line); }
  std::size_t rows() const { return table_->rows; }
  std::size_t columns() const { return table_->columns; }
  std::size_t keys() const { return table_->keys; }
  std::string_view column_name(std::size_t i) const { return store_->text(column(i).name); }
  std::string_view column_unit(std::size_t i) const { return store_->text(column(i).unit); }
  /// Index of the column called `name`. Throws std::out_of_range: a check may only ask for columns that exist.
  std::size_t column(std::string_view name) const;
  bool has_column(std::string_view name) const;
  CellRef cell(std::size_t row, std::size_t column) const {
    return {store_, &store_->cells[table_->first_cell + row * table_->columns + column]};
  }
  CellRef cell(std::size_t row, std::string_view name) const { return cell(row, column(name)); }
  /// The row whose leading columns are these texts.
  std::optional<std::size_t> find(std::string_view key) const;
  std::optional<std::size_t> find(std::string_view key, std::string_view second) const;
  /// The first row whose `through` column is not below `value` ("over ... through ...").
  std::optional<std::size_t> band(std::string_view through, double value) const;

 private:
  friend class Edition;
  const Column& column(std::size_t i) const { return store_->columns[table_->first_column + i]; }
  const Store* store_;
  const Table* table_;
};

class RuleRef {
 public:
  RuleRef(const Store* store, const Rule* rule) : store_(store), rule_(rule) {}
  std::string_view name() const { return store_->text(rule_->entry.name); }
  std::string_view title() const { return store_->text(rule_->entry.title); }
  std::string_view clause() const { return store_->text(rule_->entry.clause); }
  std::string_view source() const { return store_->text(rule_->entry.source); }
  Basis basis() const { return rule_->entry.basis; }
  Basis clause_basis() const { return rule_->entry.clause_basis; }
  bool seen() const { return rule_->entry.seen; }
  Where origin() const { return store_->where(rule_->entry.file, rule_->entry.line); }
  std::size_t parameters() const { return rule_->parameters; }
  std::string_view parameter_name(std::size_t i) const;
  /// The parameter's value, or its first item; blank when the rule has no such parameter.
  CellRef operator[](std::string_view parameter) const;
  std::vector<CellRef> list(std::string_view parameter) const;
  bool is_list(std::size_t i) const;

 private:
  friend class Edition;
  const Parameter* find(std::string_view parameter) const;
  const Store* store_;
  const Rule* rule_;
};

/// An edition or amendment with everything it inherits. Cheap to copy; keeps its store alive. Thread-safe to read.
class Edition {
 public:
  /// The edition called `id` in `store`, if there is one.
  static std::optional<Edition> find(std::shared_ptr<const Store> store, std::string_view id);

  std::string_view id() const { return store_->text(record_->id); }
  std::string_view title() const { return store_->text(record_->title); }
  std::string_view base() const { return store_->text(record_->base); }
  /// For a local amendment: the day it was adopted and its ordinance.
  std::string_view adopted() const { return store_->text(record_->adopted); }
  std::string_view ordinance() const { return store_->text(record_->ordinance); }
  /// Whether it is a code book, which has a publisher, or amends one.
  bool is_book() const { return !store_->text(record_->publisher).empty(); }
  /// Title of the code book: of this edition, or of the one under its amendments.
  std::string_view book_title() const;
  /// Titles from the base edition to this one.
  std::vector<std::string_view> chain() const;

  std::optional<TableRef> table(std::string_view name) const;
  std::optional<RuleRef> rule(std::string_view name) const;
  std::size_t table_count() const { return record_->tables; }
  std::size_t rule_count() const { return record_->rules; }
  TableRef table_at(std::size_t i) const { return {store_.get(), &store_->tables[record_->first_table + i]}; }
  RuleRef rule_at(std::size_t i) const { return {store_.get(), &store_->rules[record_->first_rule + i]}; }

  Citation cite(const RuleRef& rule) const;
  Citation cite(const RuleRef& rule, const CellRef& value) const;
  Citation cite(const TableRef& table) const;
  Citation cite(const TableRef& table, std::size_t row, std::size_t column) const;

  const std::shared_ptr<const Store>& store() const { return store_; }

 private:
  /// Title of the amendment whose file set something, or of the code book.
  std::string_view title_for(std::uint16_t file) const;
  Edition(std::shared_ptr<const Store> store, const EditionRecord* record)
      : store_(std::move(store)), record_(record) {}
  std::shared_ptr<const Store> store_;
  const EditionRecord* record_;
};

/// The built-in store as a shared pointer that owns nothing.
std::shared_ptr<const Store> built_in();

}  // namespace pullproof::code
