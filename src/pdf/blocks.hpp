#pragma once
// The blocks of a document as pieces to be put on pages.
#include <string>
#include <vector>

#include "pdf/flow.hpp"
#include "pdf/type.hpp"
#include "report/document.hpp"

namespace pullproof::pdf {

struct Pieces {
  std::vector<Piece> all;
  std::vector<std::string> figures;  ///< the descriptions of the figures, in the order of their "Figure" tags
};

/// Everything that the document shows, its title first. `document` and `type` must outlive the pieces.
Pieces pieces_of(const doc::Document& document, const Type& type, const Sheet& sheet);

}  // namespace pullproof::pdf
