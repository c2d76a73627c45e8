#include "report/explain.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "code/cells.hpp"
#include "code/difference.hpp"
#include "engine/coverage.hpp"
#include "report/coverage.hpp"
#include "report/page.hpp"

namespace pullproof::report {
namespace {

using code::Edition;

constexpr Family families[] = {Family::scope,    Family::load,   Family::conductors, Family::drop,  Family::protection, Family::people,  Family::grounding, Family::raceways,
                               Family::cables, Family::boxes, Family::circuits,   Family::disconnects, Family::places, Family::control, Family::measured, Family::none};

std::vector<std::string> items_of(std::string_view list) {
  std::vector<std::string> out;
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(", "), list.size());
    if (end > 0) out.emplace_back(list.substr(0, end));
    list.remove_prefix(std::min(end + 2, list.size()));
  }
  return out;
}

class Explanation {
 public:
  Explanation(const Check& check, const Edition& edition, std::size_t width, bool color)
      : check_(check), edition_(edition), page_(width, color), coverage_(coverage_of(edition.store(), check.id)) {}

  std::string run() {
    page_.paragraph(0, {{fmt::format("{}: {}", check_.id, check_.title), Ink::strong}});
    page_.gap();
    page_.paragraph(0, check_.about, 0);
    if (!check_.formula.empty()) {
      heading("Its sum");
      page_.paragraph(2, check_.formula);
    }
    keys();
    entries();
    changes();
    page_.gap();
    page_.paragraph(0, {{"`pullproof rules show NAME` prints a table or rule, `pullproof keys TABLE` what a case may say.", Ink::faint}}, 0);
    return page_.take();
  }

 private:
  void heading(std::string_view text) {
    page_.gap();
    page_.paragraph(0, {{std::string(text), Ink::strong}});
  }

  void keys() {
    heading("Reads of a case");
    const auto all = key_tables();
    for (const std::string& name : items_of(check_.reads)) {
      const auto k = key_read(all, name);
      if (!k) page_.paragraph(2, name);
      else if (k->key != nullptr) page_.paragraph(2, {{k->name, Ink::strong}, {fmt::format(": {}", k->key->meaning)}});
      else whole_table(all, *k);
    }
  }

  /// What is in it by name; tables within it are named, too.
  void whole_table(const std::vector<KeyTable>& all, const ReadKey& k) {
    std::string s;
    for (const Key& key : k.table->keys) s += fmt::format("{}{}", s.empty() ? "" : ", ", key.key);
    for (const KeyTable& t : all)
      if (t.name.starts_with(k.name + ".") && t.name.find('.', k.name.size() + 1) == std::string::npos && std::none_of(k.table->keys.begin(), k.table->keys.end(), [&](const Key& key) { return t.name == k.name + "." + key.key; }))
        s += fmt::format("{}{}", s.empty() ? "" : ", ", t.name.substr(k.name.size() + 1));
    page_.paragraph(2, {{k.name, Ink::strong}, {fmt::format(": {}", k.table->meaning)}, {fmt::format(" ({})", s), Ink::faint}});
  }

  void entries() {
    heading(fmt::format("Rests on, in {}", edition_.title()));
    for (const std::string& name : items_of(check_.rules)) {
      const auto table = edition_.table(name);
      const auto rule = edition_.rule(name);
      if (table) entry("table", *table);
      if (rule) {
        entry("rule", *rule);
        for (std::size_t i = 0; i < rule->parameters() && rule->seen(); ++i)
          page_.paragraph(4, fmt::format("{} = {}", rule->parameter_name(i), code::parameter_text(*rule, rule->parameter_name(i))));
      }
      if (!table && !rule) page_.paragraph(2, fmt::format("{}: not in this edition", name));
    }
  }

  /// A table or rule, its clause in each edition, and what the one at hand rests on.
  template <class Ref>
  void entry(std::string_view kind, const Ref& e) {
    page_.paragraph(2, {{fmt::format("{} {}", kind, e.name()), Ink::strong}, {fmt::format(": {}", e.title())}}, 4);
    for (const CoveredEntry& c : coverage_.entries)
      if (c.name == e.name() && c.table == (kind == "table")) page_.paragraph(4, {{clauses_text(coverage_, c), Ink::faint}});
    page_.paragraph(4, !e.seen()                        ? "not seen in this edition: not covered"
                       : e.source() == name(e.basis()) ? std::string(e.source())
                                                       : fmt::format("{}: {}", name(e.basis()), e.source()));
  }

  void changes() {
    heading("What changes");
    bool any = false;
    std::vector<Edition> line = coverage_.editions;
    for (std::size_t i = 1; i < line.size(); ++i) any = changes(line[i - 1], line[i]) || any;
    if (!edition_.is_book())  // an amendment, against what it lies on
      if (const auto base = Edition::find(edition_.store(), edition_.base())) any = changes(*base, edition_) || any;
    if (!any) page_.paragraph(2, "nothing from one edition to the next");
  }

  /// What one edition says otherwise than the one before it, where somebody has seen it.
  bool changes(const Edition& before, const Edition& now) {
    bool any = false;
    const auto head = [&] {
      if (!std::exchange(any, true)) page_.paragraph(2, {{std::string(now.title()), Ink::strong}});
    };
    const auto compare = [&](const auto& a, const auto& b) {
      if (!a && b && b->seen()) {
        head();
        page_.paragraph(4, fmt::format("{}: new", b->name()));
      }
      if (!a || !b || !a->seen() || !b->seen()) return;
      const auto inside = code::content_differences(*a, *b);
      if (inside.empty()) return;
      head();
      constexpr std::size_t most = 6;
      for (std::size_t i = 0; i < std::min(most, inside.size()); ++i) page_.paragraph(4, fmt::format("{}: {}: {} -> {}", b->name(), inside[i].what, inside[i].was, inside[i].now));
      if (inside.size() > most) page_.paragraph(4, fmt::format("{}: {} more; `pullproof rules diff {} {}` has them", b->name(), inside.size() - most, before.id(), now.id()));
    };
    for (const std::string& name : items_of(check_.rules)) {
      compare(before.table(name), now.table(name));
      compare(before.rule(name), now.rule(name));
    }
    return any;
  }

  const Check& check_;
  const Edition& edition_;
  Page page_;
  Coverage coverage_;
};

}  // namespace

std::string_view title(Family family) {
  switch (family) {
    case Family::scope: return "What is checked here at all";
    case Family::load: return "Load and supply";
    case Family::conductors: return "Conductors";
    case Family::drop: return "Voltage drop";
    case Family::protection: return "Overcurrent protection";
    case Family::people: return "Protection against shock and arcs";
    case Family::grounding: return "Grounding and bonding";
    case Family::raceways: return "Raceways";
    case Family::cables: return "Cables and cords";
    case Family::boxes: return "Boxes and terminals";
    case Family::circuits: return "Circuits and receptacles";
    case Family::disconnects: return "Disconnects, panels and room to work";
    case Family::places: return "Places";
    case Family::control: return "Control wiring";
    case Family::measured: return "Measured after the pull";
    case Family::none: break;
  }
  return "Others";
}

std::optional<ReadKey> key_read(const std::vector<KeyTable>& all, std::string_view name) {
  std::optional<ReadKey> best;
  const auto consider = [&](std::string full, const KeyTable& t, const Key* key) {
    const bool fits = full == name || (full.size() > name.size() && full.ends_with(name) && full[full.size() - name.size() - 1] == '.');
    if (fits && (!best || full.size() < best->name.size())) best = ReadKey{std::move(full), &t, key};
  };
  for (const KeyTable& t : all) {
    if (!t.name.empty()) consider(t.name, t, nullptr);
    for (const Key& k : t.keys) consider(t.name.empty() ? k.key : t.name + "." + k.key, t, &k);
  }
  return best;
}

std::string checks_text(std::size_t width, bool color) {
  Page page(width, color);
  std::size_t widest = 0;
  for (const Check* c : all_checks()) widest = std::max(widest, c->id.size());
  for (const Family family : families) {
    bool first = true;
    for (const Check* c : all_checks()) {
      if (c->family != family) continue;
      if (std::exchange(first, false)) {
        page.gap();
        page.paragraph(0, {{std::string(title(family)), Ink::strong}});
      }
      page.item(2, {std::string(c->id), Ink::strong}, widest, {{std::string(c->title)}});
    }
  }
  page.gap();
  page.paragraph(0, {{"`pullproof explain CHECK` says what one looks at, and what it rests on.", Ink::faint}});
  return page.take();
}

std::string check_text(const Check& check, const Edition& edition, std::size_t width, bool color) { return Explanation(check, edition, width, color).run(); }

}  // namespace pullproof::report
