#pragma once
// Drawings as SVG.
#include <string>
#include <string_view>

#include "draw/drawing.hpp"

namespace pullproof::draw {

/// A text for the inside of an element or an attribute, without control characters.
std::string escaped(std::string_view text);

/// An <svg> element to stand in an HTML page that has `svg_style()` in its style sheet. Text stays text. `id` tells it
/// from other drawings of the page: its title and description are "<id>-title" and "<id>-desc". It is as wide as the
/// drawing on paper, and narrower where there is no room.
std::string as_svg(const Drawing& drawing, std::string_view id);

/// The style sheet of drawings: colours for light and dark, and for print. A page may set `--draw-ink` and the like to
/// colours of its own.
std::string svg_style();

/// A file of its own.
std::string svg_file(const Drawing& drawing);

}  // namespace pullproof::draw
