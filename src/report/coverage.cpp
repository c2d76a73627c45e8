#include "report/coverage.hpp"

#include <fmt/format.h>

#include <map>

#include "report/json_writer.hpp"
#include "report/page.hpp"

namespace pullproof::report {
namespace {

std::string id_of(const Coverage& c, std::size_t i) { return std::string(c.editions[i].id()); }

/// The ids of the editions that `same` takes as alike, each run of them followed by what it says: "us-2017, us-2020:
/// A; us-2023: B".
template <class Say>
std::string by_edition(const Coverage& c, Say say) {
  std::vector<std::pair<std::string, std::string>> groups;
  for (std::size_t i = 0; i < c.editions.size(); ++i) {
    const std::string said = say(i);
    if (!groups.empty() && groups.back().second == said) groups.back().first += ", " + id_of(c, i);
    else groups.emplace_back(id_of(c, i), said);
  }
  std::string out;
  for (const auto& [ids, said] : groups) out += fmt::format("{}{}: {}", out.empty() ? "" : "; ", ids, said);
  return out;
}

std::string said(const EntryIn& e) {
  if (e.known == Known::no_rule) return "no such rule";
  if (e.known == Known::not_covered) return "not covered";
  std::string out(e.clause);
  if (e.basis != Basis::published) out += fmt::format(" ({})", name(e.basis));
  else if (e.clause_basis != e.basis) out += fmt::format(" (its number: {})", name(e.clause_basis));
  return out;
}

std::string said(const CheckIn& c) {
  if (c.asked == 0) return "no such rule";
  if (c.not_covered.empty()) return "covered";
  return c.not_covered.size() == c.asked ? "not covered" : fmt::format("{} of {} covered", c.asked - c.not_covered.size(), c.asked);
}

std::string changes(const Coverage& c, const CoveredEntry& e) {
  std::string out;
  for (std::size_t i = 0; i < e.editions.size(); ++i)
    if (e.editions[i].changed) out += fmt::format("{}{}", out.empty() ? "" : ", ", id_of(c, i));
  return out;
}

std::string heading(const Coverage& c) {
  std::size_t tables = 0;
  for (const CoveredEntry& e : c.entries) tables += e.table ? 1 : 0;
  const auto many = [](std::size_t n, std::string_view one) { return fmt::format("{} {}{}", n, one, n == 1 ? "" : "s"); };
  return fmt::format("{}, {} and {}", many(c.checks.size(), "check"), many(tables, "table"), many(c.entries.size() - tables, "rule"));
}

/// Text for a cell of a Markdown table.
std::string cell(std::string_view text) {
  std::string out;
  for (const char ch : text) {
    if (ch == '|') out += "\\|";
    else if (ch == '\n') out += ' ';
    else out += ch;
  }
  return out;
}

/// What no check asks is there to be looked up, or is read by what proposes sizes and first cases.
std::string asked_by(const CoveredEntry& e) {
  return e.asked_by.empty() ? std::string("asked by no check") : fmt::format("asked by {}", fmt::join(e.asked_by, ", "));
}

}  // namespace

std::string clauses_text(const Coverage& c, const CoveredEntry& e) {
  return by_edition(c, [&](std::size_t i) { return said(e.editions[i]); });
}

std::string coverage_text(const Coverage& c, std::size_t width, bool color) {
  Page page(width, color);
  page.paragraph(0, {{heading(c), Ink::strong}, {", from the rule data. A clause without a word behind it was read in print; "
                                                 "'not covered' was not seen, and no answer is given there."}}, 0);
  if (!c.checks.empty()) {
    page.gap();
    page.paragraph(0, {{"Checks", Ink::strong}});
  }
  for (const CoveredCheck& k : c.checks) {
    page.paragraph(2, {{std::string(k.id), Ink::strong}, {fmt::format(": {}", k.title)}}, 4);
    page.paragraph(6, {{by_edition(c, [&](std::size_t i) { return said(k.editions[i]); }), Ink::faint}}, 2);
  }
  if (!c.entries.empty()) {
    page.gap();
    page.paragraph(0, {{"Tables and rules", Ink::strong}});
  }
  for (const CoveredEntry& e : c.entries) {
    page.paragraph(2, {{fmt::format("{} {}", e.table ? "table" : "rule", e.name), Ink::strong}, {fmt::format(": {}", e.title)}}, 4);
    page.paragraph(6, clauses_text(c, e), 2);
    if (const std::string news = changes(c, e); !news.empty()) page.paragraph(6, fmt::format("says something new in {}", news), 2);
    page.paragraph(6, {{asked_by(e), Ink::faint}}, 2);
  }
  return page.take();
}

std::string coverage_markdown(const Coverage& c) {
  std::string out = fmt::format("# What is covered\n\n{}, from the rule data. A clause without a word behind it was read in print; *not covered* was not seen, "
                                "and no answer is given there. **Bold**: says something new in that edition.\n",
                                heading(c));
  const auto head = [&](std::string_view first) {
    out += first;
    for (std::size_t i = 0; i < c.editions.size(); ++i) out += fmt::format(" {} |", id_of(c, i));
    out += "\n" + std::string(first.starts_with("| entry") ? "| --- | --- | --- |" : "| --- | --- |");
    for (std::size_t i = 0; i < c.editions.size(); ++i) out += " --- |";
    out += "\n";
  };
  if (!c.checks.empty()) {
    out += "\n## Checks\n\n";
    head("| check | what it is about |");
    for (const CoveredCheck& k : c.checks) {
      out += fmt::format("| `{}` | {} |", k.id, cell(k.title));
      for (const CheckIn& in : k.editions) out += fmt::format(" {} |", said(in));
      out += "\n";
    }
  }
  if (!c.entries.empty()) {
    out += "\n## Tables and rules\n\n";
    head("| entry | what it says | asked by |");
    for (const CoveredEntry& e : c.entries) {
      out += fmt::format("| {} `{}` | {} | {} |", e.table ? "table" : "rule", e.name, cell(e.title), e.asked_by.empty() ? "no check" : cell(fmt::format("{}", fmt::join(e.asked_by, ", "))));
      for (const EntryIn& in : e.editions) out += in.changed ? fmt::format(" **{}** |", cell(said(in))) : fmt::format(" {} |", cell(said(in)));
      out += "\n";
    }
  }
  return out;
}

std::string coverage_json(const Coverage& c, std::string_view version) {
  JsonWriter w;
  /// One object for each edition.
  const auto in_editions = [&](const auto& items, auto write) {
    w.begin_list("editions");
    for (std::size_t i = 0; i < items.size(); ++i)
      w.object([&] {
        w.field("id", c.editions[i].id());
        write(items[i]);
      });
    w.end_list();
  };
  w.object([&] {
    w.field("format", "pullproof-coverage-1");
    w.field("version", version);
    in_editions(c.editions, [&](const code::Edition& e) { w.field("title", e.title()); });
    w.list("checks", c.checks, [&](const CoveredCheck& k) {
      w.object([&] {
        w.field("id", k.id);
        w.field("title", k.title);
        w.list("asks", k.rules);
        in_editions(k.editions, [&](const CheckIn& in) {
          w.integer("asked", in.asked);
          w.list("not_covered", in.not_covered);
        });
      });
    });
    w.list("entries", c.entries, [&](const CoveredEntry& e) {
      w.object([&] {
        w.field("kind", e.table ? "table" : "rule");
        w.field("name", e.name);
        w.field("title", e.title);
        w.list("asked_by", e.asked_by);
        in_editions(e.editions, [&](const EntryIn& in) {
          w.field("state", in.known == Known::covered ? "covered" : in.known == Known::not_covered ? "not_covered" : "no_rule");
          if (in.known != Known::covered) return;
          w.field("clause", in.clause);
          w.field("clause_basis", word(in.clause_basis));
          w.field("basis", word(in.basis));
          w.field("source", in.source);
          w.yes("changed", in.changed);
        });
      });
    });
  });
  return w.finished();
}

}  // namespace pullproof::report
