// Writes the rules folder as C++ constants, at build time: `embed RULES-DIR OUTPUT.cpp`. The arrays are those
// that freezing the same files at run time gives, so both ways in are one.
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "code/frozen.hpp"

namespace {

using namespace pullproof;
using namespace pullproof::code;
namespace fs = std::filesystem;

std::vector<RuleFile> read_folder(const fs::path& folder) {
  std::vector<RuleFile> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file() || entry.path().extension() != ".toml") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    files.push_back({"rules/" + entry.path().lexically_relative(folder).generic_string(),
                     {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()}});
  }
  return files;
}

std::string literal(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '"' || c == '\\') out += {'\\', c};
    else if (c >= 0x20 && c < 0x7f) out += c;
    else out += fmt::format("\\{:03o}", static_cast<unsigned char>(c));
  }
  return out;
}

template <class T, class Fn>
void array(std::string& out, std::string_view type, std::string_view name, const std::vector<T>& items, Fn text) {
  out += fmt::format("constexpr {} {}[] = {{\n", type, name);
  for (const T& item : items) out += text(item) + ",\n";
  if (items.empty()) out += fmt::format("{}{{}}", type);
  out += "};\n";
}

std::string str(Str s) { return fmt::format("{{{},{}}}", s.at, s.size); }
std::string entry(const Entry& e) {
  return fmt::format("{{{},{},{},{},{},{},Basis({}),Basis({}),{}}}", str(e.name), str(e.title), str(e.clause), str(e.source),
                     e.line, e.file, static_cast<int>(e.basis), static_cast<int>(e.clause_basis), e.seen);
}

std::string source_text(const FrozenStore& s) {
  std::string out = "// Written by the build from the rule files; not to be edited.\n#include \"code/store.hpp\"\n";
  out += "namespace pullproof::code {\nnamespace {\nconstexpr char pool[] =\n";
  for (std::size_t at = 0; at < s.pool.size() || at == 0; at += 96)
    out += fmt::format("\"{}\"\n", literal(std::string_view(s.pool).substr(at, 96)));
  out += ";\n";
  array(out, "Str", "files", s.files, str);
  array(out, "Cell", "cells", s.cells, [](const Cell& c) {
    return fmt::format("{{{},{},{},{},CellKind({}),Basis({})}}", c.number, str(c.text), c.line, c.file,
                       static_cast<int>(c.kind), static_cast<int>(c.basis));
  });
  array(out, "Column", "columns", s.columns, [](const Column& c) { return fmt::format("{{{},{}}}", str(c.name), str(c.unit)); });
  array(out, "CellSource", "sources", s.sources, [](const CellSource& c) { return fmt::format("{{{},{}}}", c.cell, str(c.source)); });
  array(out, "Table", "tables", s.tables, [](const Table& t) {
    return fmt::format("{{{},{},{},{},{},{}}}", entry(t.entry), t.first_column, t.columns, t.keys, t.first_cell, t.rows);
  });
  array(out, "Parameter", "parameters", s.parameters, [](const Parameter& p) {
    return fmt::format("{{{},{},{},{}}}", str(p.name), p.first_cell, p.cells, p.list);
  });
  array(out, "Rule", "rules", s.rules, [](const Rule& r) {
    return fmt::format("{{{},{},{}}}", entry(r.entry), r.first_parameter, r.parameters);
  });
  array(out, "EditionRecord", "editions", s.editions, [](const EditionRecord& e) {
    return fmt::format("{{{},{},{},{},{},{},{},{},{},{},{},{},{},{}}}", str(e.id), str(e.title), str(e.base), str(e.publisher),
                       str(e.adopted), str(e.ordinance), e.file, e.first_table, e.tables, e.first_rule, e.rules,
                       e.first_slot, e.table_slots, e.rule_slots);
  });
  array(out, "std::uint16_t", "slots", s.slots, [](std::uint16_t n) { return fmt::format("{}", n); });
  out += fmt::format(
      "constexpr Store store{{std::string_view(pool, {}), std::span(files, {}), std::span(cells, {}),\n"
      "std::span(columns, {}), std::span(sources, {}), std::span(tables, {}), std::span(parameters, {}),\n"
      "std::span(rules, {}), std::span(editions, {}), std::span(slots, {})}};\n",
      s.pool.size(), s.files.size(), s.cells.size(), s.columns.size(), s.sources.size(), s.tables.size(),
      s.parameters.size(), s.rules.size(), s.editions.size(), s.slots.size());
  out += "}\nconst Store& built_in_store() { return store; }\n}\n";
  return out;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    fmt::print(stderr, "usage: embed RULES-DIR OUTPUT.cpp\n");
    return 2;
  }
  Diagnostics diagnostics;
  const auto books = read_books(read_folder(argv[1]), diagnostics);
  for (const Diagnostic& d : diagnostics.sorted()) fmt::print(stderr, "{}", render(d));
  if (!diagnostics.empty()) return 1;
  std::ofstream out(argv[2], std::ios::binary);
  out << source_text(freeze(books));
  out.flush();
  return out ? 0 : 1;
}
