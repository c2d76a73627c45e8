#pragma once
// PDF by the module that makes it, which is loaded when it is asked for and not before.
#include <string>

#include "report/pdf.hpp"

namespace pullproof::cli {

/// The bytes of the file. Throws CommandError when the module is not there or fails.
std::string make_pdf(const doc::Document& document, const report::PdfOptions& options);

}  // namespace pullproof::cli
