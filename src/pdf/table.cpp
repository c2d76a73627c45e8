#include "pdf/table.hpp"

#include <algorithm>
#include <numeric>
#include <string_view>

#include "draw/lettering.hpp"

namespace pullproof::pdf {
namespace {

/// What a column would like: its widest word, and its longest text on one line.
struct Wish {
  double least = 0, most = 0;
};

void hear(Wish& w, std::string_view text, double size, bool strong) {
  w.most = std::max(w.most, draw::text_width(text, size, strong));
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    w.least = std::max(w.least, draw::text_width(text.substr(at, end - at), size, strong));
    at = end + 1;
  }
}

}  // namespace

std::vector<double> column_widths(const doc::Table& table, double room, double size) {
  constexpr double least_blank = 58;  // to write a reading into
  const double longest_word = room / 3;
  std::vector<Wish> wishes(table.columns.size());
  for (std::size_t c = 0; c < wishes.size(); ++c) {
    hear(wishes[c], table.columns[c].head, size, true);
    for (const auto& row : table.rows)
      if (c < row.size()) hear(wishes[c], doc::text_of(row[c]), size, false);
    Wish& w = wishes[c];
    if (table.columns[c].fill_in) w.least = std::max(w.least, least_blank);
    w.least = std::min(w.least, longest_word) + 2 * cell_pad + 0.5;
    w.most = std::max(w.most + 2 * cell_pad + 0.5, w.least);
  }
  const auto sum = [&](double Wish::*part) {
    return std::accumulate(wishes.begin(), wishes.end(), 0.0, [&](double s, const Wish& w) { return s + w.*part; });
  };
  const double least = sum(&Wish::least), most = sum(&Wish::most);
  std::vector<double> out;
  for (const Wish& w : wishes) {
    if (least >= room) out.push_back(w.least * room / least);
    else if (most <= room) out.push_back(w.most + (room - most) * w.most / most);
    else out.push_back(w.least + (room - least) * (w.most - w.least) / (most - least));
  }
  return out;
}

}  // namespace pullproof::pdf
