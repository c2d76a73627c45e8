#include "pdf/type.hpp"

#include <charconv>
#include <string>

#include "core/diagnostic.hpp"
#include "draw/drawing.hpp"

namespace pullproof::pdf {
namespace {

constexpr const char* family = "DejaVu Sans";
constexpr const char* mono_family = "DejaVu Sans Mono";

Shared<PangoFontDescription> font(const char* name, PangoWeight weight) {
  PangoFontDescription* d = pango_font_description_new();
  pango_font_description_set_family_static(d, name);
  pango_font_description_set_weight(d, weight);
  return {d, pango_font_description_free};
}

struct Rgb {
  double red, green, blue;
};
Rgb rgb_of(std::string_view hex) {
  const auto part = [&](std::size_t at) {
    int value = 0;
    std::from_chars(hex.data() + at, hex.data() + at + 2, value, 16);
    return value / 255.0;
  };
  return {part(1), part(3), part(5)};
}

PangoAttribute* over(PangoAttribute* a, std::size_t from, std::size_t to) {
  a->start_index = static_cast<guint>(from);
  a->end_index = static_cast<guint>(to);
  return a;
}

double points(int pango_units) { return static_cast<double>(pango_units) / PANGO_SCALE; }

}  // namespace

std::string_view ink_of(doc::Role role) {
  using draw::Ink;
  switch (role) {
    case doc::Role::faint: return draw::colour(Ink::faint).light;
    case doc::Role::good: return draw::colour(Ink::good).light;
    case doc::Role::bad: return draw::colour(Ink::bad).light;
    case doc::Role::warn: return draw::colour(Ink::warn).light;
    case doc::Role::plain:
    case doc::Role::strong:
    case doc::Role::code: break;
  }
  return draw::colour(Ink::ink).light;
}

void use_ink(cairo_t* cr, std::string_view hex) {
  const Rgb c = rgb_of(hex);
  cairo_set_source_rgb(cr, c.red, c.green, c.blue);
}

Setting::Setting(Shared<PangoLayout> layout, double width) : layout_(std::move(layout)), width_(width) {
  PangoLayoutIter* it = pango_layout_get_iter(layout_.get());
  do {
    PangoRectangle box;
    pango_layout_iter_get_line_extents(it, nullptr, &box);
    lines_.push_back({points(box.y), points(box.y + box.height), points(pango_layout_iter_get_baseline(it)), points(box.x)});
  } while (pango_layout_iter_next_line(it) != FALSE);
  pango_layout_iter_free(it);
}

double Setting::text_width() const {
  PangoRectangle box;
  pango_layout_get_extents(layout_.get(), nullptr, &box);
  return points(box.width);
}

void Setting::draw(cairo_t* cr, double x, double y, std::size_t from, std::size_t to) const {
  for (std::size_t i = from; i < to && i < lines_.size(); ++i) {
    cairo_move_to(cr, x + lines_[i].left, y + lines_[i].base - lines_[from].top);
    pango_cairo_show_layout_line(cr, pango_layout_get_line_readonly(layout_.get(), static_cast<int>(i)));
  }
}

Type::Type(std::string_view language)
    : context_(owned(pango_font_map_create_context(pango_cairo_font_map_get_default()))),
      plain_(font(family, PANGO_WEIGHT_NORMAL)), strong_(font(family, PANGO_WEIGHT_BOLD)) {
  pango_context_set_language(context_.get(), pango_language_from_string(std::string(language).c_str()));
  pango_context_set_base_dir(context_.get(), PANGO_DIRECTION_LTR);
  pango_cairo_context_set_resolution(context_.get(), 72);  // a point is a point
  // Widths as the printer has them, not rounded to the pixels of a screen.
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context_.get(), options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
}

Shared<PangoLayout> Type::layout(const doc::Spans& spans, const Style& style) const {
  auto out = owned(pango_layout_new(context_.get()));
  pango_layout_set_auto_dir(out.get(), FALSE);
  std::string text;
  PangoAttrList* attributes = pango_attr_list_new();
  pango_attr_list_insert(attributes, pango_attr_size_new_absolute(static_cast<int>(style.size * PANGO_SCALE)));
  // A ligature is one character to whoever searches or copies the text, and a hyphen at a line's end one too many.
  pango_attr_list_insert(attributes, pango_attr_font_features_new("liga=0, clig=0"));
  pango_attr_list_insert(attributes, pango_attr_insert_hyphens_new(FALSE));
  for (const doc::Span& s : spans) {
    const std::size_t from = text.size();
    text += printable(s.text);
    if (s.role == doc::Role::code) {
      pango_attr_list_insert(attributes, over(pango_attr_family_new(mono_family), from, text.size()));
      constexpr double beside_sans = 0.92;  // its letters are wider
      pango_attr_list_insert(attributes, over(pango_attr_size_new_absolute(static_cast<int>(beside_sans * style.size * PANGO_SCALE)), from, text.size()));
    } else if (s.role != doc::Role::plain && s.role != doc::Role::faint) {
      pango_attr_list_insert(attributes, over(pango_attr_weight_new(PANGO_WEIGHT_BOLD), from, text.size()));
    }
    const Rgb c = rgb_of(ink_of(s.role == doc::Role::plain ? style.tone : s.role));
    const auto part = [](double v) { return static_cast<guint16>(v * 65535); };
    pango_attr_list_insert(attributes, over(pango_attr_foreground_new(part(c.red), part(c.green), part(c.blue)), from, text.size()));
  }
  pango_layout_set_font_description(out.get(), (style.strong ? strong_ : plain_).get());
  pango_layout_set_text(out.get(), text.data(), static_cast<int>(text.size()));
  pango_layout_set_attributes(out.get(), attributes);
  pango_attr_list_unref(attributes);
  if (style.end) pango_layout_set_alignment(out.get(), PANGO_ALIGN_RIGHT);
  return out;
}

Setting Type::set(const doc::Spans& spans, double width, const Style& style) const {
  auto l = layout(spans, style);
  pango_layout_set_width(l.get(), static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_wrap(l.get(), PANGO_WRAP_WORD_CHAR);
  return {std::move(l), width};
}

Setting Type::set(std::string_view text, double width, const Style& style) const { return set({{std::string(text), doc::Role::plain, {}}}, width, style); }

Setting Type::line(std::string_view text, double width, const Style& style) const {
  auto l = layout({{std::string(text), doc::Role::plain, {}}}, style);
  pango_layout_set_width(l.get(), static_cast<int>(width * PANGO_SCALE));
  pango_layout_set_single_paragraph_mode(l.get(), TRUE);
  pango_layout_set_ellipsize(l.get(), PANGO_ELLIPSIZE_END);
  return {std::move(l), width};
}

}  // namespace pullproof::pdf
