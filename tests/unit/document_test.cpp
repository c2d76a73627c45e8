// The document of a report and its HTML and Markdown: hostile texts stay texts, nothing is lost on the way.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "core/diagnostic.hpp"
#include "engine/load.hpp"
#include "engine/run.hpp"
#include "report/compose.hpp"
#include "report/html.hpp"
#include "report/markdown.hpp"
#include "report/provenance.hpp"
#include "report/steps.hpp"
#include "report/text.hpp"
#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof::report {
namespace {

using testing::HasSubstr;
using testing::Not;

struct Made {
  LoadedCase loaded;
  Report report;
  doc::Document document;
};

Made made(const std::filesystem::path& file, std::string text = {}) {
  const Shelf shelf{.read = [](const std::string& path) { return FileText{test::read_text(path), {}}; }};
  Diagnostics diagnostics;
  if (text.empty()) text = test::read_text(test::source_dir() / file);
  auto loaded = load_case(shelf, (test::source_dir() / file).string(), std::move(text), std::nullopt, diagnostics);
  for (const Diagnostic& d : diagnostics.sorted()) ADD_FAILURE() << render(d);
  Report report = run_checks(loaded->job, loaded->edition);
  doc::Document document = compose(report, *loaded->job, loaded->edition, "pullproof 1.2.3");
  return {std::move(*loaded), std::move(report), std::move(document)};
}

std::vector<std::filesystem::path> demo_cases() {
  std::vector<std::filesystem::path> out;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(test::source_dir() / "cases"))
    if (entry.path().extension() == ".toml" && test::read_text(entry.path()).find("[[circuit]]") != std::string::npos)
      out.push_back(entry.path().lexically_relative(test::source_dir()));
  EXPECT_GE(out.size(), 10u);
  return out;
}

std::string in_html(std::string_view text) {
  std::string out;
  for (const char c : text) out += c == '<' ? "&lt;" : c == '>' ? "&gt;" : c == '&' ? "&amp;" : c == '\'' ? "&#39;" : c == '"' ? "&quot;" : std::string(1, c);
  return out;
}

const doc::Table& table_called(const doc::Document& d, std::string_view caption, std::string_view first_head) {
  for (const doc::Block& b : d.blocks)
    if (const auto* t = std::get_if<doc::Table>(&b.is); t != nullptr && t->caption == caption && t->columns.front().head == first_head) return *t;
  ADD_FAILURE() << "no table '" << caption << "'";
  static const doc::Table none;
  return none;
}

std::string cell(const doc::Table& t, std::string_view row, std::size_t column) {
  for (const auto& r : t.rows)
    if (doc::text_of(r.front()) == row) return doc::text_of(r[column]);
  return "no row " + std::string(row);
}

TEST(Document, HasItsSectionsInOneOrder) {
  for (const auto& file : demo_cases()) {
    std::vector<std::string> sections;
    for (const doc::Block& b : made(file).document.blocks)
      if (const auto* h = std::get_if<doc::Heading>(&b.is); h != nullptr && h->level == 2) sections.push_back(h->text);
    EXPECT_THAT(sections, testing::ElementsAre("Job and outcome", "What was assumed", "What is open", "Findings", "Figures", "Working", "Schedules",
                                               "Field test sheet", "Cautions", "Signatures", "Provenance")) << file;
  }
}

TEST(Document, EveryStepOfEveryFindingIsInEveryForm) {
  for (const auto& file : demo_cases()) {
    const Made m = made(file);
    const std::string html = as_html(m.document, Paper::letter), markdown = as_markdown(m.document);
    const std::string text = test::flat(as_text(m.report, {.full = true}));
    std::size_t steps = 0;
    for (const Finding& f : m.report.findings) {
      if (f.sheet >= m.report.sheets.size()) continue;
      const Working& w = m.report.sheets[f.sheet].working;
      for (const StepId id : steps_behind(w, f)) {
        const Step& s = w.steps()[id];
        if (!s.numeric) continue;
        ++steps;
        EXPECT_THAT(html, HasSubstr(in_html(shown(s)))) << file << ": " << f.check << ", " << s.name;
        EXPECT_THAT(markdown, HasSubstr(shown(s))) << file << ": " << f.check << ", " << s.name;
        EXPECT_THAT(text, HasSubstr(test::flat(shown(s)))) << file << ": " << f.check << ", " << s.name;
        if (testing::Test::HasFailure()) return;
      }
    }
    EXPECT_GT(steps, 5u) << file;
    for (const Finding& f : m.report.findings) EXPECT_THAT(html, HasSubstr(in_html(printable(f.message)))) << file << ": " << f.check;
  }
}

TEST(Document, LinksLeadToAnchorsThatAreThereOnce) {
  for (const auto& file : demo_cases()) {
    const std::string html = as_html(made(file).document, Paper::letter);
    std::multiset<std::string> ids;
    std::set<std::string> links;
    const auto gather = [&](std::string_view mark, auto& into) {
      for (std::size_t at = html.find(mark); at != std::string::npos; at = html.find(mark, at + 1)) {
        const std::size_t from = at + mark.size();
        into.insert(html.substr(from, html.find('"', from) - from));
      }
    };
    gather(" id=\"", ids);
    gather("href=\"#", links);
    EXPECT_GT(links.size(), 10u);
    for (const std::string& id : ids) EXPECT_EQ(ids.count(id), 1u) << file << ": " << id;
    for (const std::string& link : links) EXPECT_EQ(ids.count(link), 1u) << file << ": " << link;
  }
}

/// Whether every element that is opened is closed, in the right order.
bool well_nested(const std::string& html) {
  static const std::set<std::string> empty{"meta", "rect", "circle", "path", "polyline", "polygon", "line"};
  std::vector<std::string> open;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    if (html[at + 1] == '!') continue;
    const bool closes = html[at + 1] == '/';
    const std::size_t from = at + (closes ? 2 : 1);
    const std::string name = html.substr(from, html.find_first_of(" >\n/", from) - from);
    if (!closes && !empty.contains(name)) open.push_back(name);
    if (closes && (open.empty() || open.back() != name)) return false;
    if (closes) open.pop_back();
  }
  return open.empty();
}

// Every case that tests a check, one in ten: whatever is missing, unusual or wrong in a case, a report comes of it.
TEST(Document, IsMadeOfEveryCase) {
  std::set<std::string> files;
  for (const auto& [file, edition] : test::checked_cases()) files.insert(file);
  std::size_t n = 0, seen = 0;
  for (const std::string& file : files) {
    if (n++ % 10 != 0) continue;
    const Made m = made(file);
    EXPECT_TRUE(well_nested(as_html(m.document, Paper::letter))) << file;
    EXPECT_GT(as_markdown(m.document).size(), 1000u) << file;
    ++seen;
  }
  EXPECT_GT(seen, 50u);
}

TEST(Document, WhatTheCaseDoesNotSayIsABlank) {
  const Made m = made("cases/wash-house.toml");
  const std::string html = as_html(m.document, Paper::letter);
  for (const char* label : {"Permit number", "Contractor", "License class and number", "Model", "Listing mark", "Main device"})
    EXPECT_THAT(html, HasSubstr(fmt::format("<dt>{}</dt><dd class=\"blank\">", label)));
  std::string text = test::read_text(test::source_dir() / "cases/wash-house.toml");
  text.replace(text.find("[job]\n"), 6, "[job]\npermit = \"B-7\"\ncontractor = \"R. Lund\"\nauthority = \"Pine Cove\"\nrevision = \"C\"\n");
  const Made said = made("cases/wash-house.toml", text);
  EXPECT_EQ(said.document.permit, "B-7");
  const std::string now = as_html(said.document, Paper::letter);
  for (const char* pair : {"<dt>Permit number</dt><dd>B-7</dd>", "<dt>Contractor</dt><dd>R. Lund</dd>", "<dt>Building department</dt><dd>Pine Cove</dd>", "<dt>Revision</dt><dd>C</dd>"})
    EXPECT_THAT(now, HasSubstr(pair));
}

TEST(Document, IsTheSameForTheSame) {
  for (const char* file : {"cases/wash-house.toml", "cases/dozen-faults.toml"}) {
    EXPECT_EQ(as_html(made(file).document, Paper::a4), as_html(made(file).document, Paper::a4));
    EXPECT_EQ(as_markdown(made(file).document), as_markdown(made(file).document));
  }
}

// Sums done by hand, from the case alone: 62 ft of EMT and 4 ft of LFMC hold three 14 AWG wires.
TEST(Materials, AreWhatTheRunsTake) {
  const Made m = made("cases/wash-house.toml");
  const doc::Table& t = table_called(m.document, "What the runs of this job take", "What");
  // (62 ft + 4 ft) * 1.1 = 72.6 ft.
  EXPECT_EQ(cell(t, "wire 14 AWG copper THHN/THWN-2, red", 1), "73 ft");
  EXPECT_EQ(cell(t, "wire 14 AWG copper THHN/THWN-2, white", 1), "73 ft");
  EXPECT_EQ(cell(t, "wire 14 AWG copper, green", 1), "73 ft");
  // Seven sticks of 10 ft make 62 ft, with six joints. Straps 2 ft from each end leave 58 ft, in steps of 8 ft at
  // most: eight steps, nine straps.
  EXPECT_EQ(cell(t, "EMT 1/2, sticks of 10 ft", 1), "7");
  EXPECT_EQ(cell(t, "EMT 1/2 couplings", 1), "6");
  EXPECT_EQ(cell(t, "EMT 1/2 connectors", 1), "2");
  EXPECT_EQ(cell(t, "EMT 1/2 straps", 1), "9");
  // 4 ft * 1.1 = 4.4 ft. Straps 1 ft from each end leave 2 ft, the largest step.
  EXPECT_EQ(cell(t, "LFMC 1/2", 1), "5 ft");
  EXPECT_EQ(cell(t, "LFMC 1/2 straps", 1), "2");
  // 48 ft * 1.1 = 52.8 ft.
  EXPECT_EQ(cell(t, "control cable CL2 18 AWG, 2 conductors", 1), "53 ft");
}

TEST(Materials, CountAGroundingWireThatCircuitsShareOnce) {
  const Made m = made("cases/shared-raceway.toml");
  const doc::Table& t = table_called(m.document, "What the runs of this job take", "What");
  // 48 ft * 1.1 = 52.8 ft: the pump uses the boiler's ground, the dryer has two hots of one colour.
  EXPECT_EQ(cell(t, "wire 12 AWG copper, green", 1), "53 ft");
  EXPECT_EQ(cell(t, "wire 12 AWG copper, green", 2), "circuit boiler");
  EXPECT_EQ(cell(t, "wire 10 AWG copper THHN/THWN-2, blue", 1), "106 ft");
}

// Chapter 9 Table 8: 14 AWG stranded copper has 3.14 ohm/kft at 75 °C; 66 ft have 0.207 ohm. NBS Handbook 100 Table 5
// (ASTM B258): 18 AWG solid copper has 6.385 ohm/kft at 20 °C; 2 * 48 ft have 0.613 ohm.
TEST(FieldTests, SayWhatTheMeterShouldRead) {
  const Made m = made("cases/wash-house.toml");
  const doc::Table& circuit = table_called(m.document, "circuit heater", "Test");
  EXPECT_THAT(cell(circuit, "Grounding path", 2), HasSubstr("0.207 ohm"));
  EXPECT_THAT(cell(circuit, "Circuit conductors", 2), HasSubstr("0.414 ohm"));
  // 120 V - 0.414 ohm * 4.2 A = 118.3 V.
  EXPECT_THAT(cell(circuit, "Volts at the appliance", 2), HasSubstr("118.3 V"));
  const doc::Table& control = table_called(m.document, "control remote", "Test");
  EXPECT_THAT(cell(control, "Loop", 2), HasSubstr("0.613 ohm at 20 °C"));
  // 12 V - 0.613 ohm * 0.09 A = 11.9 V.
  EXPECT_THAT(cell(control, "Volts at the device", 2), HasSubstr("11.9 V"));
}

TEST(FieldTests, SetWhatWasReadBesideIt) {
  std::string text = test::read_text(test::source_dir() / "cases/wash-house.toml");
  text.replace(text.find("disconnect = {"), 14, "measured = { start_voltage = \"121 V\", load_voltage = \"119.2 V\", current = \"4.1 A\", insulation = \"200 Mohm\", insulation_test = \"500 V\" }\ndisconnect = {");
  const Made m = made("cases/wash-house.toml", text);
  const doc::Table& t = table_called(m.document, "circuit heater", "Test");
  EXPECT_EQ(cell(t, "Volts at the appliance", 3), "119.2 V");
  EXPECT_EQ(cell(t, "Amperes", 3), "4.1 A");
  EXPECT_EQ(cell(t, "Insulation", 3), "200 Mohm");
  EXPECT_EQ(cell(t, "Grounding path", 3), "");
}

// FIPS 180-4, examples of the algorithm's publisher: the empty message and "abc".
TEST(Provenance, HashesAsTheStandardSays) {
  EXPECT_EQ(sha256(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
  EXPECT_EQ(sha256("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
}

TEST(Provenance, TellsEditionsApart) {
  const auto store = code::built_in();
  std::set<std::string> hashes;
  std::size_t editions = 0;
  for (const auto& record : store->editions) {
    hashes.insert(rules_sha256(*code::Edition::find(store, store->text(record.id))));
    ++editions;
  }
  EXPECT_EQ(hashes.size(), editions);
  EXPECT_GE(editions, 4u);
}

/// A document with `text` in every place that takes one.
doc::Document full_of(const std::string& text) {
  doc::Document d;
  d.title = d.kind = d.job = d.permit = d.program = text;
  d.kind += "!";
  doc::Spans spans;
  for (const doc::Role role : {doc::Role::plain, doc::Role::strong, doc::Role::faint, doc::Role::good, doc::Role::bad, doc::Role::warn, doc::Role::code}) spans.push_back({text, role, {}});
  d.blocks.emplace_back(doc::Heading{2, text, "a"});
  d.blocks.emplace_back(doc::Paragraph{spans});
  d.blocks.emplace_back(doc::List{{spans}, false});
  d.blocks.emplace_back(doc::Fields{{{text, spans}}});
  d.blocks.emplace_back(doc::Table{text, {{text}, {text}}, {{spans, spans}}});
  doc::Entry e;
  e.label = text;
  e.title = spans;
  e.lines = {spans};
  d.blocks.emplace_back(e);
  d.blocks.emplace_back(doc::Fold{spans, "b", {doc::Paragraph{spans}}});
  d.blocks.emplace_back(doc::Signature{text, {text}});
  doc::Figure figure;
  figure.caption = figure.drawing.title = figure.drawing.description = text;
  figure.drawing.shapes.push_back(draw::Text{{1, 1}, text});
  d.blocks.emplace_back(figure);
  return d;
}

/// The names of the elements that a page holds.
std::set<std::string> elements(const std::string& html) {
  std::set<std::string> names;
  for (std::size_t at = html.find('<'); at != std::string::npos; at = html.find('<', at + 1)) {
    std::size_t end = at + 1;
    while (end < html.size() && (std::isalnum(static_cast<unsigned char>(html[end])) != 0 || html[end] == '!' || html[end] == '/')) ++end;
    names.insert(html.substr(at + 1, end - at - 1));
  }
  return names;
}

TEST(Html, TakesNothingForMarkup) {
  const std::string tame = as_html(full_of("tame"), Paper::letter);
  const auto count = [](const std::string& s, char c) { return std::count(s.begin(), s.end(), c); };
  for (const std::string text : {"<script>alert(1)</script>", "</style><img src=x>", "\"><svg onload=x>", "'-->", "<!--", "]]>", "&lt;b&gt;", "</title>"}) {
    const std::string html = as_html(full_of(text), Paper::letter);
    EXPECT_EQ(elements(html), elements(tame)) << text;
    EXPECT_EQ(count(html, '<'), count(tame, '<')) << text;
    EXPECT_EQ(count(html, '"'), count(tame, '"')) << text;
    EXPECT_THAT(html, HasSubstr(in_html(text)));
  }
}

TEST(Html, ShowsWhatControlsOrTurnsOrIsNoCharacter) {
  for (const std::string text : {"\x1b[31m", "\x01", "\x7f", "\u0085", "\u202e", "\u2066", "\u200f", "\ufeff", "\ufffe", "\U0001ffff", "\ufdd0", "\xff\xc3"}) {
    const std::string html = as_html(full_of("q" + text + "q"), Paper::letter), markdown = as_markdown(full_of("q" + text + "q"));
    for (const std::string& out : {html, markdown}) {
      EXPECT_NE(out.find("\ufffd"), std::string::npos) << printable(text);
      EXPECT_EQ(out.find(text), std::string::npos) << printable(text);
    }
  }
}

TEST(Html, AsksForNothingAndRunsNothing) {
  const std::string html = as_html(made("cases/wash-house.toml").document, Paper::letter);
  for (const char* no : {"<script", "<link", "<img", "<iframe", "@import", "url(", "http://", "https://", "onclick", "javascript:"}) EXPECT_THAT(html, Not(HasSubstr(no)));
  EXPECT_THAT(html, HasSubstr("default-src 'none'"));
}

TEST(Html, IsForThePaperThatWasAskedFor) {
  const doc::Document d = full_of("x");
  EXPECT_THAT(as_html(d, Paper::letter), HasSubstr("size: letter"));
  EXPECT_THAT(as_html(d, Paper::a4), HasSubstr("size: A4"));
}

TEST(Markdown, TakesNothingForMarkup) {
  // What CommonMark 0.30 and the tables of its common extension take for markup; each is behind a backslash (2.4) or a
  // character reference (2.5), or, in code, within a longer fence (6.1).
  const auto paragraph = [](const std::string& text) {
    doc::Document d;
    d.title = "t";
    d.blocks.emplace_back(doc::Paragraph{{{text, doc::Role::plain, {}}}});
    const std::string all = as_markdown(d);
    return all.substr(all.find("\n\n", 4) + 2);
  };
  EXPECT_THAT(paragraph("*a* _b_ `c` [d](e) <f> |g| ~h~"), HasSubstr("\\*a\\* \\_b\\_ \\`c\\` \\[d\\](e) \\<f\\> \\|g\\| \\~h\\~"));
  EXPECT_THAT(paragraph("# no heading"), HasSubstr("\\# no heading"));
  EXPECT_THAT(paragraph("- no item"), HasSubstr("\\- no item"));
  EXPECT_THAT(paragraph("12. no item"), HasSubstr("12\\. no item"));
  EXPECT_THAT(paragraph("12.5 A"), HasSubstr("12.5 A"));
  EXPECT_THAT(paragraph("see https://x.example"), HasSubstr("https&#58;//x"));
  EXPECT_THAT(paragraph("a@b.example &amp;"), HasSubstr("a&#64;b.example &amp;amp;"));
  doc::Document d;
  d.blocks.emplace_back(doc::Paragraph{{{"a`b``c", doc::Role::code, {}}}});
  EXPECT_THAT(as_markdown(d), HasSubstr("```a`b``c```"));
}

TEST(Markdown, EveryRowOfATableHasItsCells) {
  const std::string markdown = as_markdown(made("tests/page/hostile.toml").document);
  std::istringstream in(markdown);
  std::size_t columns = 0, rows = 0;
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with('|')) {
      columns = 0;
      continue;
    }
    std::size_t bars = 0;
    for (std::size_t i = 0; i < line.size(); ++i) bars += line[i] == '|' && (i == 0 || line[i - 1] != '\\');
    if (columns == 0) columns = bars;
    EXPECT_EQ(bars, columns) << line;
    ++rows;
  }
  EXPECT_GT(rows, 50u);
}

}  // namespace
}  // namespace pullproof::report
