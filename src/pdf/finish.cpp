#include "pdf/finish.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <stdexcept>

#include "core/diagnostic.hpp"

namespace pullproof::pdf {
namespace {

/// Something to put in, before the byte at `at`.
struct Insertion {
  std::size_t at;
  std::string text;
};

[[noreturn]] void unexpected(std::string_view what) { throw std::runtime_error(fmt::format("the PDF has no {} where one was expected", what)); }

/// A text string of PDF: UTF-16, most significant byte first, in hexadecimal digits.
std::string text_string(std::string_view utf8) {
  const std::string clean = printable(utf8);
  std::string out = "<FEFF";
  for (std::size_t i = 0; i < clean.size();) {
    const auto lead = static_cast<unsigned char>(clean[i]);
    const std::size_t n = lead < 0x80 ? 1 : lead < 0xe0 ? 2 : lead < 0xf0 ? 3 : 4;
    std::uint32_t code = n == 1 ? lead : lead & (0x7fu >> n);
    for (std::size_t k = 1; k < n; ++k) code = code << 6 | (static_cast<unsigned char>(clean[i + k]) & 0x3fu);
    if (code >= 0x10000) out += fmt::format("{:04X}{:04X}", 0xd800 + ((code - 0x10000) >> 10), 0xdc00 + ((code - 0x10000) & 0x3ff));
    else out += fmt::format("{:04X}", code);
    i += n;
  }
  return out + ">";
}

std::size_t number_at(std::string_view file, std::size_t at) {
  std::size_t n = 0;
  if (std::from_chars(file.data() + at, file.data() + file.size(), n).ec != std::errc{}) unexpected("number");
  return n;
}

/// The objects' places as the cross-reference table has them, with where each entry stands in the file.
struct Entry {
  std::size_t at, offset;
};
std::vector<Entry> entries(std::string_view file, std::size_t table) {
  constexpr std::size_t entry_size = 20;
  if (file.substr(table, 7) != "xref\n0 ") unexpected("cross-reference table");
  const std::size_t count = number_at(file, table + 7);
  std::size_t at = file.find('\n', table + 7) + 1;
  std::vector<Entry> out;
  for (std::size_t i = 0; i < count; ++i, at += entry_size) {
    if (at + entry_size > file.size()) unexpected("cross-reference entry");
    if (file[at + 17] == 'n') out.push_back({at, number_at(file, at)});
  }
  return out;
}

std::string with(std::string_view file, std::vector<Insertion> insertions, std::size_t table, const std::vector<Entry>& all) {
  std::sort(insertions.begin(), insertions.end(), [](const Insertion& a, const Insertion& b) { return a.at < b.at; });
  const auto moved = [&](std::size_t offset) {
    std::size_t by = 0;
    for (const Insertion& i : insertions)
      if (i.at <= offset) by += i.text.size();
    return offset + by;
  };
  std::string old(file);
  for (const Entry& e : all) old.replace(e.at, 10, fmt::format("{:010}", moved(e.offset)));
  const std::size_t start = old.rfind("startxref\n");
  if (start == std::string::npos) unexpected("startxref");
  old.replace(start + 10, old.find('\n', start + 10) - start - 10, number_at(file, start + 10) == table ? fmt::format("{}", moved(table)) : std::string{});
  std::string out;
  std::size_t from = 0;
  for (const Insertion& i : insertions) {
    out.append(old, from, i.at - from).append(i.text);
    from = i.at;
  }
  return out.append(old, from);
}

}  // namespace

std::string finished(std::string_view file, std::string_view language, const std::vector<std::string>& alternatives) {
  const std::size_t start = file.rfind("startxref\n");
  if (start == std::string_view::npos) unexpected("startxref");
  const std::size_t table = number_at(file, start + 10);
  const auto all = entries(file, table);
  std::vector<Insertion> insertions;
  bool catalog = false;
  std::size_t figure = 0;
  for (const Entry& e : all) {  // by object number, which is the order in which cairo met them
    const std::string_view object = file.substr(e.offset, file.find("endobj", e.offset) - e.offset);
    if (object.find("stream\n") != std::string_view::npos) continue;
    const std::size_t dictionary = object.find("<<");
    if (dictionary == std::string_view::npos) continue;
    if (object.find("/Type /Catalog") != std::string_view::npos) {
      catalog = true;
      insertions.push_back({e.offset + dictionary + 2, fmt::format(" /Lang {} /ViewerPreferences << /DisplayDocTitle true >>", text_string(language))});
    } else if (object.find("/S /Figure") != std::string_view::npos) {
      if (figure == alternatives.size()) unexpected("alternative text");
      insertions.push_back({e.offset + dictionary + 2, " /Alt " + text_string(alternatives[figure++])});
    }
  }
  if (!catalog) unexpected("catalog");
  if (figure != alternatives.size()) unexpected("figure");
  return with(file, std::move(insertions), table, all);
}

}  // namespace pullproof::pdf
