#pragma once
// Drawings by cairo: the same shapes as in SVG.
#include <cairo.h>

#include "draw/drawing.hpp"
#include "pdf/type.hpp"

namespace pullproof::pdf {

/// Draws with the upper left corner at (x, y), `scale` times its size.
void draw_figure(cairo_t* cr, const Type& type, const draw::Drawing& drawing, double x, double y, double scale);

}  // namespace pullproof::pdf
