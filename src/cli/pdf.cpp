#include "cli/pdf.hpp"

#include <dlfcn.h>
#include <fmt/format.h>

#include "cli/options.hpp"

namespace pullproof::cli {

std::string make_pdf(const doc::Document& document, const report::PdfOptions& options) {
  // Looked for where the program's run path says. It stays loaded: its libraries keep things until the end.
  void* module = dlopen(report::pdf_module, RTLD_NOW | RTLD_LOCAL | RTLD_NODELETE);
  if (module == nullptr) throw CommandError(fmt::format("a PDF cannot be made here: {}", dlerror()), "install the module, or write html, md, txt or json");
  const auto function = reinterpret_cast<report::PdfFunction>(dlsym(module, report::pdf_function));
  if (function == nullptr) throw CommandError(fmt::format("a PDF cannot be made here: {}", dlerror()));
  std::string out;
  if (!function(document, options, out)) throw CommandError(fmt::format("the PDF could not be made: {}", out));
  return out;
}

}  // namespace pullproof::cli
