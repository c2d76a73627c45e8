#pragma once
// A report as a document: what stands in it and in which order, but not how it looks. compose.hpp makes it of a report;
// HTML, Markdown and PDF lay it out and know nothing of checks.
//
// All text is UTF-8 as it came from the case or the program: it may hold markup, control characters or any script, and
// each output makes it harmless in its own way.
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "draw/drawing.hpp"

namespace pullproof::doc {

/// What a piece of text is. Never the only carrier of a meaning: the words say the same.
enum class Role : std::uint8_t { plain, strong, faint, good, bad, warn, code };
/// Its name, for style sheets: "plain", "strong".
std::string_view name(Role role);

struct Span {
  std::string text;
  Role role = Role::plain;
  std::string to;  ///< an anchor of this document that the text leads to; empty for none
};
using Spans = std::vector<Span>;
/// The text alone.
std::string text_of(const Spans& spans);

/// Level 2 begins a section, 3 and 4 parts of it. The document's title is the only one of level 1.
struct Heading {
  int level = 2;
  std::string text;
  std::string anchor;  ///< unique in the document, of a-z, 0-9 and '-'; empty for none
};

struct Paragraph {
  Spans spans;
};

struct List {
  std::vector<Spans> items;
  bool numbered = false;
};

/// Pairs of a label and a value. An empty value is a blank line to fill in by hand.
struct Fields {
  struct Field {
    std::string label;
    Spans value;
  };
  std::vector<Field> rows;
};

/// The first cell of a row heads it. Rows are as long as `columns`; a cell may be empty.
struct Table {
  enum class Align : std::uint8_t { start, end };
  struct Column {
    std::string head;
    Align align = Align::start;
    bool fill_in = false;  ///< an empty cell is a blank to fill in by hand
  };
  std::string caption;  ///< never empty
  std::vector<Column> columns;
  std::vector<std::vector<Spans>> rows;
};

/// A drawing that carries its own title and description (see Drawing), and shows its title; a caption says more.
struct Figure {
  draw::Drawing drawing;
  std::string caption;
  std::string anchor;
};

/// One answer with what belongs to it, kept together: "FAIL  Voltage drop of the branch circuit - circuit heater".
struct Entry {
  Role tone = Role::plain;
  std::string label;  ///< the verdict as a word
  Spans title;
  std::vector<Spans> lines;
  std::string anchor;
  bool lead = false;  ///< what the whole document comes to: stands out from all others
};

struct Block;
/// What is folded away until somebody wants it; paper has all of it open.
struct Fold {
  Spans summary;
  std::string anchor;
  std::vector<Block> blocks;
};

/// Lines to write or sign on, each with what goes there below it. Those of one group stand side by side where there
/// is room.
struct Signature {
  std::string who;                 ///< "Contractor"
  std::vector<std::string> lines;  ///< "Signature", "Licence class and number", "Date"
};

struct Block {
  std::variant<Heading, Paragraph, List, Fields, Table, Figure, Entry, Fold, Signature> is;
  template <class T>
  Block(T block) : is(std::move(block)) {}
};

struct Document {
  std::string title;             ///< of the job
  std::string kind;              ///< what the document is: "Circuit check"
  std::string language = "en";   ///< BCP 47
  std::string job, permit;       ///< for a running head; may be empty
  std::string program;           ///< "pullproof 0.1.0"
  std::vector<Block> blocks;
};

}  // namespace pullproof::doc
