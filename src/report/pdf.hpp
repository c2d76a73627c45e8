#pragma once
// Documents as PDF. What makes them is a module of its own, pullproof-pdf.so, that is loaded when a PDF is asked for:
// it brings some forty libraries along, which nothing else needs.
#include <string>

#include "report/document.hpp"

namespace pullproof::report {

struct PdfOptions {
  bool a4 = false;  ///< else US Letter
};

/// The module's one function, called `pdf_function`. Sets `out` to the bytes of the file, or to what went wrong, and
/// returns whether there are any. Never throws. The same document gives the same bytes where the same fonts are
/// installed; DejaVu Sans is what the pages are set in.
using PdfFunction = bool (*)(const doc::Document& document, const PdfOptions& options, std::string& out);
inline constexpr const char* pdf_function = "pullproof_make_pdf";
inline constexpr const char* pdf_module = "pullproof-pdf.so";

}  // namespace pullproof::report
