// The module's one function: pages of a document, drawn by cairo.
#include <cairo-pdf.h>
#include <fmt/format.h>

#include <stdexcept>

#include "core/diagnostic.hpp"
#include "pdf/blocks.hpp"
#include "pdf/finish.hpp"
#include "pdf/flow.hpp"
#include "pdf/type.hpp"
#include "report/pdf.hpp"

namespace pullproof::pdf {
namespace {

cairo_status_t append(void* to, const unsigned char* data, unsigned int size) noexcept {
  try {
    static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), size);
    return CAIRO_STATUS_SUCCESS;
  } catch (const std::bad_alloc&) {
    return CAIRO_STATUS_NO_MEMORY;
  }
}

void good(cairo_status_t status) {
  if (status != CAIRO_STATUS_SUCCESS) throw std::runtime_error(cairo_status_to_string(status));
}

class Writer {
 public:
  Writer(const doc::Document& document, const Sheet& sheet)
      : document_(document), sheet_(sheet), type_(document.language),
        surface_(cairo_pdf_surface_create_for_stream(append, &bytes_, sheet.width, sheet.height), cairo_surface_destroy),
        cr_(cairo_create(surface_.get()), cairo_destroy) {}

  std::string write() {
    metadata();
    const Pieces pieces = pieces_of(document_, type_, sheet_);
    const auto pages = paginate(pieces.all, sheet_);
    cairo_t* cr = cr_.get();
    Structure structure(cr);
    cairo_tag_begin(cr, "Document", nullptr);
    for (std::size_t i = 0; i < pages.size(); ++i) {
      for (const Placed& p : pages[i]) {
        if (!p.again) structure.open(p.piece->tags);
        if (!p.piece->outline.empty()) outline(*p.piece, i + 1, p.y);
        p.piece->draw({cr, !p.again}, sheet_.left, p.y);
      }
      structure.end_page();
      running_lines(i + 1, pages.size());
      if (i + 1 == pages.size()) structure.close();
      if (i + 1 == pages.size()) cairo_tag_end(cr, "Document");
      cairo_show_page(cr);
    }
    good(cairo_status(cr));
    cairo_surface_finish(surface_.get());
    good(cairo_surface_status(surface_.get()));
    return finished(bytes_, document_.language, pieces.figures);
  }

 private:
  void metadata() {
    cairo_pdf_surface_restrict_to_version(surface_.get(), CAIRO_PDF_VERSION_1_5);
    const auto set = [&](cairo_pdf_metadata_t what, std::string_view text) { cairo_pdf_surface_set_metadata(surface_.get(), what, printable(text).c_str()); };
    set(CAIRO_PDF_METADATA_TITLE, document_.title == document_.kind ? document_.title : fmt::format("{}: {}", document_.kind, document_.title));
    set(CAIRO_PDF_METADATA_CREATOR, document_.program);
    // Without this cairo puts the time of day in, and no two files are alike.
    cairo_pdf_surface_set_metadata(surface_.get(), CAIRO_PDF_METADATA_CREATE_DATE, "2000-01-01T00:00:00Z");
  }

  void outline(const Piece& p, std::size_t page, double y) {
    const auto level = static_cast<std::size_t>(p.outline_level);
    if (parents_.size() <= level) parents_.resize(level + 1, CAIRO_PDF_OUTLINE_ROOT);
    const int parent = level == 0 ? CAIRO_PDF_OUTLINE_ROOT : parents_[level - 1];
    const std::string to = fmt::format("page={} pos=[{:.2f} {:.2f}]", page, sheet_.left, y);
    const int id = cairo_pdf_surface_add_outline(surface_.get(), parent, printable(p.outline).c_str(), to.c_str(), level <= 1 ? CAIRO_PDF_OUTLINE_FLAG_OPEN : static_cast<cairo_pdf_outline_flags_t>(0));
    std::fill(parents_.begin() + p.outline_level, parents_.end(), id);
  }

  /// Head and foot of a page: what it belongs to, if a page gets lost.
  void running_lines(std::size_t page, std::size_t pages) {
    cairo_t* cr = cr_.get();
    const Style style{.size = 8, .tone = doc::Role::faint}, right{.size = 8, .end = true, .tone = doc::Role::faint};
    const double half = sheet_.text_width() / 2, head = sheet_.top - 30, foot = sheet_.bottom + 18;
    const std::string permit = document_.permit.empty() ? std::string() : fmt::format("Permit {}", document_.permit);
    line(type_.line(document_.job.empty() ? document_.kind : document_.job, permit.empty() ? sheet_.text_width() : half * 1.3, style), sheet_.left, head);
    if (!permit.empty()) line(type_.line(permit, half * 0.65, right), sheet_.right - half * 0.65, head);
    line(type_.line(document_.program, half, style), sheet_.left, foot);
    line(type_.line(fmt::format("Page {} of {}", page, pages), half, right), sheet_.left + half, foot);
    use_ink(cr, ink_of(doc::Role::faint));
    cairo_set_dash(cr, nullptr, 0, 0);
    cairo_set_line_width(cr, 0.5);
    cairo_move_to(cr, sheet_.left, sheet_.top - 16);
    cairo_line_to(cr, sheet_.right, sheet_.top - 16);
    cairo_stroke(cr);
  }
  void line(const Setting& s, double x, double y) { s.draw(cr_.get(), x, y, 0, 1); }

  const doc::Document& document_;
  const Sheet sheet_;
  const Type type_;
  std::string bytes_;
  std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface_;
  std::unique_ptr<cairo_t, void (*)(cairo_t*)> cr_;
  std::vector<int> parents_;
};

}  // namespace
}  // namespace pullproof::pdf

extern "C" __attribute__((visibility("default"))) bool pullproof_make_pdf(const pullproof::doc::Document& document,
                                                                          const pullproof::report::PdfOptions& options, std::string& out) {
  using namespace pullproof::pdf;
  try {
    out = Writer(document, options.a4 ? Sheet::a4() : Sheet::letter()).write();
    return true;
  } catch (const std::exception& e) {
    out = e.what();
    return false;
  }
}
