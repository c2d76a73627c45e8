#include "draw/lettering.hpp"

#include <algorithm>
#include <array>

#include "core/diagnostic.hpp"

namespace pullproof::draw {
namespace {

// Advances of the characters from space to tilde in thousandths of the size, rounded up: the "hmtx" tables of
// DejaVuSans.ttf and DejaVuSans-Bold.ttf, version 2.37.
constexpr std::array<short, 95> plain_advances{
    318, 401, 460, 838, 637, 951, 780, 275, 391, 391, 500, 838, 318, 361, 318, 337, 637, 637, 637, 637, 637,
    637, 637, 637, 637, 637, 337, 337, 838, 838, 838, 531, 1000, 685, 687, 699, 771, 632, 576, 775, 752,
    295, 295, 656, 558, 863, 749, 788, 604, 788, 695, 635, 611, 732, 685, 989, 686, 611, 686, 391, 337, 391,
    838, 500, 500, 613, 635, 550, 635, 616, 353, 635, 634, 278, 278, 580, 278, 975, 634, 612, 635, 635, 412,
    521, 393, 634, 592, 818, 592, 592, 525, 637, 337, 637, 838};
constexpr std::array<short, 95> strong_advances{
    349, 457, 521, 838, 696, 1002, 873, 307, 458, 458, 523, 838, 380, 416, 380, 366, 696, 696, 696, 696,
    696, 696, 696, 696, 696, 696, 400, 400, 838, 838, 838, 581, 1000, 774, 763, 734, 831, 684, 684, 821,
    837, 373, 373, 775, 638, 996, 837, 851, 733, 851, 771, 721, 683, 813, 774, 1104, 771, 725, 726, 458,
    366, 458, 838, 500, 500, 675, 716, 593, 716, 679, 436, 716, 712, 343, 343, 666, 343, 1042, 712, 688,
    716, 716, 494, 596, 479, 712, 652, 924, 646, 652, 583, 712, 366, 712, 838};

// What other characters take at most, for each terminal cell: "½" and the like are nearly an em, and so are letters
// of other scripts. Emoji fonts are square or a little wider.
constexpr short other_advance = 1050;

std::size_t point_size(std::string_view utf8) {
  std::size_t n = 1;
  while (n < utf8.size() && (static_cast<unsigned char>(utf8[n]) & 0xc0u) == 0x80u) ++n;
  return n;
}

/// One character with the marks that belong to it.
std::size_t cluster_size(std::string_view utf8) {
  std::size_t n = point_size(utf8);
  while (n < utf8.size()) {
    const std::size_t next = point_size(utf8.substr(n));
    if (display_width(utf8.substr(n, next)) > 0) break;
    n += next;
  }
  return n;
}

double advance(std::string_view character, bool strong) {
  const auto c = static_cast<unsigned char>(character.front());
  if (character.size() == 1 && c >= 0x20 && c < 0x7f) return (strong ? strong_advances : plain_advances)[c - 0x20];
  return static_cast<double>(display_width(character) * other_advance);
}

/// How many bytes of `text` fit into `width`, whole characters.
std::size_t that_fit(std::string_view text, double size, double width, bool strong) {
  std::size_t at = 0;
  double used = 0;
  while (at < text.size()) {
    const std::size_t n = cluster_size(text.substr(at));
    used += advance(text.substr(at, n), strong) / 1000 * size;
    if (used > width) break;
    at += n;
  }
  return at;
}

constexpr std::string_view more = "\u2026";

std::string cut(std::string_view clean, double size, double width, bool strong) {
  const double room = width - text_width(more, size, strong);
  std::string out(clean.substr(0, that_fit(clean, size, room, strong)));
  while (out.ends_with(' ')) out.pop_back();
  return out.append(more);
}

/// Whether a word belongs to the number before it: a unit is short.
bool clings(std::string_view before, std::string_view word) {
  constexpr std::size_t longest_unit = 7;
  return !before.empty() && before.back() >= '0' && before.back() <= '9' && word.size() <= longest_unit;
}

std::vector<std::string_view> words_of(std::string_view text) {
  std::vector<std::string_view> words;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string_view word = text.substr(at, end - at);
    if (!word.empty() && !words.empty() && clings(words.back(), word)) {
      const char* begin = words.back().data();
      words.back() = {begin, static_cast<std::size_t>(word.data() + word.size() - begin)};
    } else if (!word.empty()) {
      words.push_back(word);
    }
    at = end + 1;
  }
  return words;
}

}  // namespace

double text_width(std::string_view text, double size, bool strong) {
  double sum = 0;
  while (!text.empty()) {
    const std::size_t n = point_size(text);
    sum += advance(text.substr(0, n), strong);
    text.remove_prefix(n);
  }
  return sum / 1000 * size;
}

std::string fitted(std::string_view text, double size, double width, bool strong) {
  const std::string clean = printable(text);
  return text_width(clean, size, strong) <= width ? clean : cut(clean, size, width, strong);
}

std::vector<std::string> wrapped(std::string_view text, double size, double width, std::size_t most, bool strong) {
  const std::string clean = printable(text);
  std::vector<std::string> lines;
  std::string line;
  const auto end_line = [&] {
    lines.push_back(line);
    line.clear();
  };
  for (std::string_view word : words_of(clean)) {
    const std::string tried = line.empty() ? std::string(word) : line + ' ' + std::string(word);
    if (text_width(tried, size, strong) <= width) {
      line = tried;
      continue;
    }
    if (!line.empty()) end_line();
    while (text_width(word, size, strong) > width) {  // wider than a whole line
      const std::size_t n = std::max(that_fit(word, size, width, strong), cluster_size(word));
      line = word.substr(0, n);
      word.remove_prefix(n);
      if (word.empty()) break;
      end_line();
    }
    if (!word.empty()) line = word;
  }
  if (!line.empty() || lines.empty()) end_line();
  if (lines.size() > most && most > 0) {
    lines.resize(most);
    lines.back() = cut(lines.back(), size, width, strong);
  }
  return lines;
}

}  // namespace pullproof::draw
