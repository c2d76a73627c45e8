#ifdef PULLPROOF_PDF
#include "report/pdf.hpp"

#include <dlfcn.h>
#include <gmock/gmock.h>
#include <sys/wait.h>

#include <cstdio>
#include <regex>
#include <sstream>

#include <fmt/format.h>

#include "engine/load.hpp"
#include "engine/run.hpp"
#include "report/compose.hpp"
#include "report/steps.hpp"
#include "support/cases.hpp"
#include "support/program.hpp"

namespace pullproof::report {
namespace {

using doc::Document;
using doc::Role;
using testing::HasSubstr;

PdfFunction maker() {
  static const auto function = [] {
    void* module = dlopen(PULLPROOF_PDF, RTLD_NOW | RTLD_LOCAL);
    EXPECT_NE(module, nullptr) << dlerror();
    return module == nullptr ? nullptr : reinterpret_cast<PdfFunction>(dlsym(module, pdf_function));
  }();
  return function;
}

std::string made(const Document& d, const PdfOptions& options = {}) {
  std::string out;
  EXPECT_TRUE(maker()(d, options, out)) << out;
  return out;
}

/// What a program prints, which must end well.
std::string output_of(const std::string& command) {
  std::FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  std::string out;
  char buffer[4096];
  for (std::size_t n; (n = std::fread(buffer, 1, sizeof buffer, pipe)) > 0;) out.append(buffer, n);
  const int status = pclose(pipe);
  EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << command << '\n' << out;
  return out;
}

/// A PDF on disk, for the programs that look into it.
class File {
 public:
  explicit File(const std::string& bytes) : path_(scratch_.file("report.pdf", bytes)) {}
  std::string text(const std::string& options = "-layout") const { return output_of("pdftotext " + options + " '" + path_ + "' -"); }
  std::string ask(const std::string& program) const { return output_of(program + " '" + path_ + "'"); }
  int pages() const {
    std::smatch m;
    const std::string info = ask("pdfinfo");
    return std::regex_search(info, m, std::regex("Pages: +([0-9]+)")) ? std::stoi(m[1]) : 0;
  }

 private:
  test::Scratch scratch_;
  std::string path_;
};

doc::Spans plain(std::string text) { return {{std::move(text), Role::plain, {}}}; }

std::string flat(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != ' ' && c != '\n' && c != '\f') out += c;
  return out;
}

Document base() {
  Document d;
  d.title = "Pump house";
  d.kind = "Circuit check";
  d.job = "Pump house";
  d.permit = "E-2041";
  d.program = "pullproof 0";
  return d;
}

/// Every kind of block, with figures, over several pages.
Document sample() {
  Document d = base();
  d.blocks.push_back(doc::Heading{2, "Job and outcome", "job"});
  d.blocks.push_back(doc::Entry{Role::bad, "FAIL", plain("two things fail"), {plain("the first line"), plain("the second line")}, "", true});
  d.blocks.push_back(doc::Fields{{{"Site", plain("Lot 4")}, {"Owner", {}}}});
  d.blocks.push_back(doc::List{{plain("one item"), plain("another item")}, true});
  d.blocks.push_back(doc::Heading{2, "Findings", "findings"});
  doc::Table t;
  t.caption = "Readings";
  t.columns = {{"Column head", doc::Table::Align::start, false}, {"Amount", doc::Table::Align::end, false}, {"Reading", doc::Table::Align::start, true}};
  for (int i = 0; i < 120; ++i) t.rows.push_back({plain(fmt::format("row {}", i)), plain(fmt::format("{}.5 A", i)), {}});
  d.blocks.push_back(t);
  d.blocks.push_back(doc::Heading{3, "Part of it", "part"});
  d.blocks.push_back(doc::Fold{plain("Folded away"), "fold", {doc::Paragraph{plain("and open on paper")}}});
  draw::Drawing figure;
  figure.title = "A figure";
  figure.description = "with 3 lines & a (number)";
  figure.height = 60;
  figure.shapes.push_back(draw::Text{{10, 20}, "words in a figure"});
  d.blocks.push_back(doc::Figure{figure, "its caption", "fig"});
  d.blocks.push_back(doc::Figure{figure, "", "fig-2"});
  d.blocks.push_back(doc::Signature{"Contractor", {"Signature", "Date"}});
  return d;
}

TEST(Pdf, IsSoundTaggedAndNamed) {
  const File f(made(sample()));
  EXPECT_THAT(f.ask("qpdf --check"), HasSubstr("No syntax or stream encoding errors found"));
  const std::string info = f.ask("pdfinfo");
  EXPECT_THAT(info, HasSubstr("Circuit check: Pump house"));
  EXPECT_THAT(info, testing::ContainsRegex("Tagged: +yes"));
  EXPECT_THAT(info, HasSubstr("612 x 792 pts (letter)"));
}

TEST(Pdf, SaysItsLanguageAndDescribesItsFigures) {
  const std::string bytes = made(sample());
  EXPECT_THAT(bytes, HasSubstr("/Lang <FEFF0065006E>"));
  EXPECT_THAT(bytes, HasSubstr("/DisplayDocTitle true"));
  std::size_t figures = 0;
  for (std::size_t at = bytes.find("/Alt <FEFF004100200066"); at != std::string::npos; at = bytes.find("/Alt <FEFF004100200066", at + 1)) ++figures;
  EXPECT_EQ(figures, 2u);  // "A f..." of "A figure. with 3 lines"
}

TEST(Pdf, HasAnOutlineAndAStructure) {
  const File f(made(sample()));
  const std::string structure = f.ask("pdfinfo -struct-text");
  for (const char* part : {"H1 (block)", "H2 (block)", "H3 (block)", "Table (block)", "TH", "TD", "Figure", "LI", "\"words in a figure\"", "\"Pump house\""})
    EXPECT_THAT(structure, HasSubstr(part));
  const std::string json = f.ask("qpdf --json --json-key=outlines");
  for (const char* title : {"Pump house", "Job and outcome", "Findings", "Part of it"}) EXPECT_THAT(json, HasSubstr(title));
}

TEST(Pdf, EmbedsItsFonts) {
  const File f(made(sample()));
  std::istringstream fonts(f.ask("pdffonts"));
  std::string line;
  int seen = 0;
  while (std::getline(fonts, line)) {
    if (line.find("DejaVu") == std::string::npos) continue;
    ++seen;
    EXPECT_THAT(line, testing::ContainsRegex("yes +yes +yes")) << "embedded, subset, with a way back to Unicode";
  }
  EXPECT_GE(seen, 2);
}

TEST(Pdf, NumbersItsPagesAndCarriesItsHeadOnEach) {
  const File f(made(sample()));
  const int pages = f.pages();
  ASSERT_GE(pages, 3);
  for (int i = 1; i <= pages; ++i) {
    const std::string page = f.text(fmt::format("-layout -f {0} -l {0}", i));
    EXPECT_THAT(page, HasSubstr(fmt::format("Page {} of {}", i, pages)));
    EXPECT_THAT(page, HasSubstr("Pump house"));
    EXPECT_THAT(page, HasSubstr("Permit E-2041"));
  }
}

TEST(Pdf, TablesGoOnWithTheirHeadAndLoseNoRow) {
  const File f(made(sample()));
  const std::string all = f.text();
  for (int i = 0; i < 120; ++i) EXPECT_THAT(all, testing::ContainsRegex(fmt::format("row {} +{}.5 A", i, i)));
  int with_rows = 0;
  for (int i = 1; i <= f.pages(); ++i) {
    const std::string page = f.text(fmt::format("-layout -f {0} -l {0}", i));
    if (!std::regex_search(page, std::regex("row [0-9]+ +[0-9]"))) continue;
    ++with_rows;
    EXPECT_THAT(page, testing::ContainsRegex("Column head +Amount +Reading"));
  }
  EXPECT_GE(with_rows, 2);
}

TEST(Pdf, NoHeadingStandsAloneAtTheFootOfAPage) {
  // However much stands before it, what it heads is on its page.
  for (int lines = 30; lines < 60; ++lines) {
    Document d = base();
    for (int i = 0; i < lines; ++i) d.blocks.push_back(doc::Paragraph{plain(fmt::format("line {}", i))});
    d.blocks.push_back(doc::Heading{2, "The section", "s"});
    d.blocks.push_back(doc::Heading{3, "The part", "p"});
    d.blocks.push_back(doc::Paragraph{plain("what it says")});
    const File f(made(d));
    for (int i = 1; i <= f.pages(); ++i) {
      const std::string page = f.text(fmt::format("-layout -f {0} -l {0}", i));
      EXPECT_EQ(page.find("The section") == std::string::npos, page.find("what it says") == std::string::npos) << lines;
    }
  }
}

TEST(Pdf, WhatIntroducesAListStaysWithIt) {
  // A report had the name of a raceway at the foot of a page, and what does not apply to it on the next.
  for (int lines = 30; lines < 60; ++lines) {
    Document d = base();
    for (int i = 0; i < lines; ++i) d.blocks.push_back(doc::Paragraph{plain(fmt::format("line {}", i))});
    doc::Fold fold{plain("What does not apply"), "rest", {}};
    for (const char* name : {"first", "second"}) {
      fold.blocks.push_back(doc::Block(doc::Paragraph{plain(fmt::format("raceway {}", name))}));
      fold.blocks.push_back(doc::Block(doc::List{{plain(fmt::format("reason {}", name)), plain("another")}}));
    }
    d.blocks.push_back(doc::Block(std::move(fold)));
    const File f(made(d));
    for (int i = 1; i <= f.pages(); ++i) {
      const std::string page = f.text(fmt::format("-layout -f {0} -l {0}", i));
      for (const char* name : {"first", "second"})
        EXPECT_EQ(page.find(fmt::format("raceway {}", name)) == std::string::npos, page.find(fmt::format("reason {}", name)) == std::string::npos) << lines;
    }
  }
}

TEST(Pdf, IsTheSameByteForByteEachTime) {
  const std::string once = made(sample());
  EXPECT_EQ(once, made(sample()));
  EXPECT_NE(once, made(base()));
  EXPECT_EQ(once.find("/ModDate"), std::string::npos);
}

TEST(Pdf, TextIsAsItWasTyped) {
  Document d = base();
  d.permit.clear();  // it has a hyphen
  std::string hash;
  for (int i = 0; i < 64; ++i) hash += "0123456789abcdef"[i * 7 % 16];
  d.blocks.push_back(doc::Paragraph{{{"efficient fluff: ffi, 118.2592 V, 0.0291 in², 2 × 14 AWG, ≤ 40 °C ", Role::plain, {}}}});
  d.blocks.push_back(doc::Fields{{{"SHA-256", {{hash, Role::code, {}}}}}});
  d.blocks.push_back(doc::Table{"Narrow", {{"a", doc::Table::Align::start, false}, {"b", doc::Table::Align::start, false}, {"c", doc::Table::Align::start, false}, {"d", doc::Table::Align::start, false}},
                                {{plain("x"), plain(hash), plain(hash), plain(hash + hash)}}});
  const std::string all = File(made(d)).text("-raw");
  EXPECT_THAT(all, HasSubstr("efficient fluff: ffi, 118.2592 V, 0.0291 in², 2 × 14 AWG, ≤ 40 °C"));
  EXPECT_THAT(all, HasSubstr(hash));  // on one line
  EXPECT_EQ(all.find('-', all.find(hash)), std::string::npos) << "a hyphen that nobody typed: " << all;
}

TEST(Pdf, FitsOnA4) {
  const File f(made(sample(), {.a4 = true}));
  EXPECT_THAT(f.ask("pdfinfo"), HasSubstr("(A4)"));
  EXPECT_THAT(f.ask("qpdf --check"), HasSubstr("No syntax or stream encoding errors found"));
}

TEST(Pdf, WithstandsWhateverSomebodyTypes) {
  for (const std::string& hostile : {std::string(500, 'W'), std::string("<b>&amp;</b> %s {0} \\ ( ) >> endobj"), std::string("مرحبا بالعالم 120 V"),
                                     std::string("👩‍👩‍👧‍👦 e\u0301\u0302\u0303"), std::string("\033[31m \x01 \u202E \xff\xfe\xc0"), std::string("dest='x' page=99]"),
                                     std::string()}) {
    SCOPED_TRACE(hostile.substr(0, 12));
    Document d = sample();
    d.title = d.job = d.permit = d.program = hostile;
    d.blocks.push_back(doc::Heading{2, hostile, "h"});
    d.blocks.push_back(doc::Paragraph{{{hostile, Role::code, {}}, {hostile, Role::bad, "nowhere"}}});
    doc::Table t{hostile, {{hostile, doc::Table::Align::start, false}, {"b", doc::Table::Align::end, true}}, {{plain(hostile), plain(hostile)}, {}}};
    d.blocks.push_back(t);
    d.blocks.push_back(doc::Entry{Role::warn, hostile, plain(hostile), {plain(hostile)}, "", false});
    d.blocks.push_back(doc::Signature{hostile, {hostile}});
    const File f(made(d));
    EXPECT_THAT(f.ask("qpdf --check"), HasSubstr("No syntax or stream encoding errors found"));
    EXPECT_EQ(f.text().find('\033'), std::string::npos);
  }
}

TEST(Pdf, DividesWhatIsHigherThanAPage) {
  std::string essay;
  for (int i = 0; i < 3000; ++i) essay += fmt::format("word{} ", i);
  Document d = base();
  d.blocks.push_back(doc::Paragraph{plain(essay)});
  d.blocks.push_back(doc::Table{"Long", {{"a", doc::Table::Align::start, false}, {"b", doc::Table::Align::start, false}}, {{plain("short"), plain(essay)}}});
  d.blocks.push_back(doc::Entry{Role::good, "PASS", plain("much to say"), std::vector<doc::Spans>(150, plain("a line of it")), "", false});
  draw::Drawing tall;
  tall.title = "Tall";
  tall.description = "tall";
  tall.height = 3000;
  tall.shapes.push_back(draw::Text{{10, 2990}, "at the lower end"});
  d.blocks.push_back(doc::Figure{tall, "", ""});
  const File f(made(d));
  EXPECT_GE(f.pages(), 4);
  const std::string all = f.text("-raw");
  for (const int i : {0, 1500, 2999}) EXPECT_THAT(all, HasSubstr(fmt::format("word{}", i)));
  EXPECT_THAT(all, HasSubstr("at the lower end"));
}

TEST(Pdf, FiguresAreDrawnToScale) {
  // A square of 72 points is an inch on paper: its edges where a picture of the page at 144 dots an inch has them.
  Document d = base();
  draw::Drawing square;
  square.title = square.description = "square";
  square.height = 100;
  square.shapes.push_back(draw::Rectangle{{10, 10}, 72, 72, 0, {draw::Ink::none}, draw::Ink::ink});
  d.blocks.push_back(doc::Figure{square, "", ""});
  const std::string picture = File(made(d)).ask("pdftoppm -gray -r 144 -f 1 -l 1");
  std::istringstream in(picture);
  std::string kind;
  std::size_t width = 0, height = 0, most = 0;
  in >> kind >> width >> height >> most;
  ASSERT_EQ(kind, "P5");
  ASSERT_EQ(width, 1224u);
  const std::size_t pixels = static_cast<std::size_t>(in.tellg()) + 1;
  std::size_t widest = 0, highest = 0;
  const auto dark = [&](std::size_t x, std::size_t y) { return static_cast<unsigned char>(picture[pixels + y * width + x]) < 60; };
  for (std::size_t y = 0, run = 0; y < height; ++y)
    for (std::size_t x = 0; x < width; ++x) widest = std::max(widest, run = x > 0 && dark(x, y) ? run + 1 : 0);
  for (std::size_t x = 0, run = 0; x < width; ++x)
    for (std::size_t y = 0; y < height; ++y) highest = std::max(highest, run = y > 0 && dark(x, y) ? run + 1 : 0);
  EXPECT_NEAR(static_cast<double>(widest), 144, 1);
  EXPECT_NEAR(static_cast<double>(highest), 144, 1);
}

TEST(Pdf, CostsNothingWhereNoneIsMade) {
  const std::string libraries = output_of("ldd '" PULLPROOF_PROGRAM "'");
  EXPECT_THAT(libraries, HasSubstr("libc.so"));
  for (const char* library : {"cairo", "pango", "fontconfig"}) EXPECT_EQ(libraries.find(library), std::string::npos) << library;
}

TEST(Pdf, IsWrittenByTheCommand) {
  const test::Scratch folder;
  const std::string path = folder.path("permit.pdf").string();
  const test::Ran ran = test::run({"report", "cases/wash-house.toml", "-o", path, "--paper", "a4"});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_THAT(output_of("qpdf --check '" + path + "'"), HasSubstr("No syntax or stream encoding errors found"));
  EXPECT_THAT(output_of("pdfinfo '" + path + "'"), HasSubstr("(A4)"));
}

/// Everything that a report's working shows is in the PDF: each step's value, wherever lines end.
TEST(Pdf, HoldsEveryNumberOfAReport) {
  for (const char* name : {"wash-house", "dozen-faults", "shared-raceway", "cooling-unit"}) {
    SCOPED_TRACE(name);
    const std::string path = "cases/" + std::string(name) + ".toml";
    Diagnostics diagnostics;
    const auto loaded = load_case(Shelf{}, path, test::read_text(test::source_dir() / path), std::nullopt, diagnostics);
    ASSERT_TRUE(loaded);
    const Report report = run_checks(loaded->job, loaded->edition);
    const File f(made(compose(report, *loaded->job, loaded->edition, "pullproof 0")));
    EXPECT_THAT(f.ask("qpdf --check"), HasSubstr("No syntax or stream encoding errors found"));
    const std::string all = flat(f.text("-raw"));
    for (const Finding& found : report.findings) {
      if (found.verdict == Verdict::not_applicable) continue;
      const Working& w = report.sheets[found.sheet].working;
      for (const StepId id : steps_behind(w, found))
        if (w.steps()[id].numeric) {
          EXPECT_NE(all.find(flat(shown(w.steps()[id]))), std::string::npos) << found.check << ": " << w.steps()[id].name << ' ' << shown(w.steps()[id]);
        }
    }
  }
}

}  // namespace
}  // namespace pullproof::report
#endif
