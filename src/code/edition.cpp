#include "code/edition.hpp"

#include <algorithm>
#include <stdexcept>

namespace pullproof::code {
namespace {

template <class Record>
const Record* find_entry(const Store& store, std::span<const Record> records, std::span<const std::uint16_t> slots, std::string_view name) {
  const auto count = static_cast<std::uint32_t>(slots.size());
  for (std::uint32_t at = slot_of(name, count); slots[at] != 0; at = (at + 1) & (count - 1)) {
    const Record& r = records[slots[at] - 1U];
    if (store.text(r.entry.name) == name) return &r;
  }
  return nullptr;
}

const EditionRecord* find_edition(const Store& store, std::string_view id) {
  const auto at = std::find_if(store.editions.begin(), store.editions.end(),
                               [&](const EditionRecord& e) { return store.text(e.id) == id; });
  return at != store.editions.end() ? &*at : nullptr;
}

}  // namespace

Where CellRef::origin() const {
  if (cell_ == nullptr) return {};
  return store_->where(cell_->file, cell_->line);
}

std::string_view CellRef::source() const {
  if (cell_ == nullptr) return {};
  const auto index = static_cast<std::uint32_t>(cell_ - store_->cells.data());
  const auto at = std::lower_bound(store_->sources.begin(), store_->sources.end(), index,
                                   [](const CellSource& s, std::uint32_t i) { return s.cell < i; });
  return at != store_->sources.end() && at->cell == index ? store_->text(at->source) : std::string_view{};
}

bool TableRef::has_column(std::string_view name) const {
  for (std::size_t i = 0; i < columns(); ++i)
    if (column_name(i) == name) return true;
  return false;
}

std::size_t TableRef::column(std::string_view name) const {
  for (std::size_t i = 0; i < columns(); ++i)
    if (column_name(i) == name) return i;
  throw std::out_of_range(std::string(this->name()) + " has no column " + std::string(name));
}

std::optional<std::size_t> TableRef::find(std::string_view key) const {
  for (std::size_t r = 0; r < rows(); ++r)
    if (cell(r, std::size_t{0}).text() == key) return r;
  return std::nullopt;
}

std::optional<std::size_t> TableRef::find(std::string_view key, std::string_view second) const {
  for (std::size_t r = 0; r < rows(); ++r)
    if (cell(r, std::size_t{1}).text() == second && cell(r, std::size_t{0}).text() == key) return r;
  return std::nullopt;
}

std::optional<std::size_t> TableRef::band(std::string_view through, double value) const {
  const std::size_t c = column(through);
  for (std::size_t r = 0; r < rows(); ++r) {
    const auto limit = cell(r, c).number();
    if (limit && at_most(value, *limit)) return r;
  }
  return std::nullopt;
}

std::string_view RuleRef::parameter_name(std::size_t i) const {
  return store_->text(store_->parameters[rule_->first_parameter + i].name);
}

bool RuleRef::is_list(std::size_t i) const { return store_->parameters[rule_->first_parameter + i].list; }

const Parameter* RuleRef::find(std::string_view parameter) const {
  for (const Parameter& p : store_->parameters.subspan(rule_->first_parameter, rule_->parameters))
    if (store_->text(p.name) == parameter) return &p;
  return nullptr;
}

CellRef RuleRef::operator[](std::string_view parameter) const {
  const Parameter* p = find(parameter);
  return p != nullptr && p->cells > 0 ? CellRef{store_, &store_->cells[p->first_cell]} : CellRef{};
}

std::vector<CellRef> RuleRef::list(std::string_view parameter) const {
  std::vector<CellRef> out;
  if (const Parameter* p = find(parameter))
    for (std::uint32_t i = 0; i < p->cells; ++i) out.emplace_back(store_, &store_->cells[p->first_cell + i]);
  return out;
}

std::optional<Edition> Edition::find(std::shared_ptr<const Store> store, std::string_view id) {
  const EditionRecord* record = find_edition(*store, id);
  if (record == nullptr) return std::nullopt;
  return Edition(std::move(store), record);
}

std::vector<std::string_view> Edition::chain() const {
  std::vector<std::string_view> titles;
  for (const EditionRecord* e = record_; e != nullptr; e = find_edition(*store_, store_->text(e->base)))
    titles.push_back(store_->text(e->title));
  std::reverse(titles.begin(), titles.end());
  return titles;
}

std::optional<TableRef> Edition::table(std::string_view name) const {
  const Table* t = find_entry(*store_, store_->tables.subspan(record_->first_table, record_->tables),
                              store_->slots.subspan(record_->first_slot, record_->table_slots), name);
  return t != nullptr ? std::optional(TableRef{store_.get(), t}) : std::nullopt;
}

std::optional<RuleRef> Edition::rule(std::string_view name) const {
  const Rule* r = find_entry(*store_, store_->rules.subspan(record_->first_rule, record_->rules),
                             store_->slots.subspan(record_->first_slot + record_->table_slots, record_->rule_slots), name);
  return r != nullptr ? std::optional(RuleRef{store_.get(), r}) : std::nullopt;
}

std::string_view Edition::title_for(std::uint16_t file) const {
  const EditionRecord* e = record_;
  while (store_->text(e->publisher).empty() && e->file != file) {
    const EditionRecord* base = find_edition(*store_, store_->text(e->base));
    if (base == nullptr) break;
    e = base;
  }
  return store_->text(e->title);
}

std::string_view Edition::book_title() const {
  constexpr std::uint16_t no_file = 0xffff;
  return title_for(no_file);
}

Citation Edition::cite(const RuleRef& rule) const {
  std::uint16_t file = rule.rule_->entry.file;
  for (const Parameter& p : store_->parameters.subspan(rule.rule_->first_parameter, rule.rule_->parameters))
    for (const Cell& c : store_->cells.subspan(p.first_cell, p.cells))
      if (c.file == record_->file) file = c.file;
  return {title_for(file), rule.clause(), rule.name(), {}, {}, rule.source(), rule.basis(), {}, rule.clause_basis()};
}

Citation Edition::cite(const RuleRef& rule, const CellRef& value) const {
  Citation c = cite(rule);
  if (value.cell_ != nullptr) c.edition = title_for(value.cell_->file);
  c.basis = std::max(c.basis, value.basis());
  if (!value.source().empty()) c.source = value.source();
  c.origin = value.origin();
  return c;
}

Citation Edition::cite(const TableRef& table) const {
  return {title_for(table.table_->entry.file), table.clause(), table.name(), {}, {}, table.source(), table.basis(), {}, table.clause_basis()};
}

Citation Edition::cite(const TableRef& table, std::size_t row, std::size_t column) const {
  Citation c = cite(table);
  const CellRef cell = table.cell(row, column);
  if (cell.cell_ != nullptr) c.edition = title_for(cell.cell_->file);
  c.row = table.cell(row, std::size_t{0}).text();
  c.column = table.column_name(column);
  c.basis = cell.basis();
  if (!cell.source().empty()) c.source = cell.source();
  c.origin = cell.origin();
  return c;
}

}  // namespace pullproof::code
