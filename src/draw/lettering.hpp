#pragma once
// How wide text comes out, to keep it apart from other things: at most, since the fonts of a reader's browser are not
// known. Reckoned as in DejaVu Sans, which the PDF is set in and which is wider than the usual sans-serif fonts of
// browsers (of the common ones Verdana alone is as wide).
#include <string>
#include <string_view>
#include <vector>

namespace pullproof::draw {

/// From the base line up and down, as parts of the size.
inline constexpr double ascent = 0.93, descent = 0.24;
/// From one base line to the next, as a part of the size.
inline constexpr double leading = 1.3;

/// The width of a text at most, in the unit of `size`. ASCII by the advances of DejaVu Sans 2.37 (Bold when strong);
/// other characters by the widest that their cell can hold.
double text_width(std::string_view text, double size, bool strong = false);

/// `text` with control characters made visible, on one line, cut with "…" where it would be wider.
std::string fitted(std::string_view text, double size, double width, bool strong = false);

/// `text` in lines no wider than `width`, broken at spaces, or inside a word that is wider than a line. A number keeps
/// its unit beside it. At most `most` lines; the last one ends with "…" when more would be needed.
std::vector<std::string> wrapped(std::string_view text, double size, double width, std::size_t most = 100, bool strong = false);

}  // namespace pullproof::draw
