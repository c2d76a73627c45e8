#include "engine/coverage.hpp"

#include <algorithm>
#include <map>

#include "engine/check.hpp"
#include "engine/load.hpp"

namespace pullproof {
namespace {

using code::CellRef;
using code::Edition;
using code::RuleRef;
using code::TableRef;

std::vector<Edition> books(const std::shared_ptr<const code::Store>& store) {
  std::vector<Edition> out;
  for (const std::string_view id : edition_ids(*store)) {
    const auto e = Edition::find(store, id);
    if (e && e->is_book()) out.push_back(*e);
  }
  std::sort(out.begin(), out.end(), [](const Edition& a, const Edition& b) { return a.chain().size() < b.chain().size(); });
  return out;
}

bool same(const CellRef& a, const CellRef& b) { return a.blank() == b.blank() && a.number() == b.number() && a.text() == b.text(); }

bool same(const TableRef& a, const TableRef& b) {
  if (a.rows() != b.rows() || a.columns() != b.columns()) return false;
  for (std::size_t c = 0; c < a.columns(); ++c)
    if (a.column_name(c) != b.column_name(c) || a.column_unit(c) != b.column_unit(c)) return false;
  for (std::size_t r = 0; r < a.rows(); ++r)
    for (std::size_t c = 0; c < a.columns(); ++c)
      if (!same(a.cell(r, c), b.cell(r, c))) return false;
  return true;
}

bool same(const RuleRef& a, const RuleRef& b) {
  if (a.parameters() != b.parameters()) return false;
  for (std::size_t i = 0; i < a.parameters(); ++i) {
    const auto x = a.list(a.parameter_name(i)), y = b.list(a.parameter_name(i));
    if (a.parameter_name(i) != b.parameter_name(i) || x.size() != y.size()) return false;
    for (std::size_t n = 0; n < x.size(); ++n)
      if (!same(x[n], y[n])) return false;
  }
  return true;
}

template <class Ref>
EntryIn entry_in(const std::optional<Ref>& e, const std::optional<Ref>& before) {
  EntryIn out;
  if (!e) return out;
  out.known = e->seen() ? Known::covered : Known::not_covered;
  out.clause = e->clause();
  out.source = e->source();
  out.basis = e->basis();
  out.clause_basis = e->clause_basis();
  out.changed = e->seen() && before && before->seen() && !same(*e, *before);
  return out;
}

std::vector<std::string_view> names_in(std::string_view list) {
  std::vector<std::string_view> out;
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(','), list.size());
    std::string_view word = list.substr(0, end);
    while (word.starts_with(' ')) word.remove_prefix(1);
    while (word.ends_with(' ')) word.remove_suffix(1);
    if (!word.empty()) out.push_back(word);
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return out;
}

class Collector {
 public:
  explicit Collector(const std::shared_ptr<const code::Store>& store) { out_.editions = books(store); }

  Coverage run() {
    for (const Edition& e : out_.editions) {
      for (std::size_t i = 0; i < e.table_count(); ++i) titles_[{e.table_at(i).name(), false}] = e.table_at(i).title();
      for (std::size_t i = 0; i < e.rule_count(); ++i) titles_[{e.rule_at(i).name(), true}] = e.rule_at(i).title();
    }
    for (const auto& [key, title] : titles_) out_.entries.push_back(entry(key.first, title, !key.second));
    for (const Check* c : all_checks()) check(*c);
    return std::move(out_);
  }

 private:
  CoveredEntry entry(std::string_view name, std::string_view title, bool table) const {
    CoveredEntry e{name, title, table, {}, {}};
    for (std::size_t i = 0; i < out_.editions.size(); ++i) {
      const Edition& now = out_.editions[i];
      const Edition* before = i > 0 ? &out_.editions[i - 1] : nullptr;
      e.editions.push_back(table ? entry_in(now.table(name), before ? before->table(name) : std::nullopt)
                                 : entry_in(now.rule(name), before ? before->rule(name) : std::nullopt));
    }
    return e;
  }

  void check(const Check& c) {
    CoveredCheck out{c.id, c.title, names_in(c.rules), std::vector<CheckIn>(out_.editions.size())};
    for (CoveredEntry& e : out_.entries) {
      if (std::find(out.rules.begin(), out.rules.end(), e.name) == out.rules.end()) continue;
      e.asked_by.push_back(c.id);
      for (std::size_t i = 0; i < out.editions.size(); ++i) {
        if (e.editions[i].known == Known::no_rule) continue;
        ++out.editions[i].asked;
        if (e.editions[i].known == Known::not_covered) out.editions[i].not_covered.push_back(e.name);
      }
    }
    out_.checks.push_back(std::move(out));
  }

  Coverage out_;
  std::map<std::pair<std::string_view, bool>, std::string_view> titles_;  ///< by name and whether it is a rule
};

}  // namespace

Coverage coverage_of(const std::shared_ptr<const code::Store>& store, std::string_view only) {
  Coverage all = Collector(store).run();
  if (only.empty()) return all;
  const bool is_check = find_check(only) != nullptr;
  std::erase_if(all.entries, [&](const CoveredEntry& e) {
    const bool asked = std::find(e.asked_by.begin(), e.asked_by.end(), only) != e.asked_by.end();
    return e.name != only && !(is_check && asked);
  });
  std::erase_if(all.checks, [&](const CoveredCheck& c) {
    return c.id != only && (is_check || std::find(c.rules.begin(), c.rules.end(), only) == c.rules.end());
  });
  return all;
}

}  // namespace pullproof
