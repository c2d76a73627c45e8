#pragma once
// Documents as Markdown (CommonMark with tables), to paste into issues and mail.
#include <string>

#include "report/document.hpp"

namespace pullproof::report {

/// Nothing in the document's texts can act as markup. Figures are given by their descriptions.
std::string as_markdown(const doc::Document& document);

}  // namespace pullproof::report
