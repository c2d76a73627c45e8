#pragma once
// Documents as one HTML file that needs nothing else: no script, no request, light and dark, for a phone, a desk and
// paper.
#include <cstdint>
#include <string>
#include <string_view>

#include "report/document.hpp"

namespace pullproof::report {

enum class Paper : std::uint8_t { letter, a4 };

/// Nothing in the document's texts can act as markup, style or script.
std::string as_html(const doc::Document& document, Paper paper);

/// Its style sheet, without that of drawings.
std::string_view html_style();

}  // namespace pullproof::report
