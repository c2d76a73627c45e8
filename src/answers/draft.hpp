#pragma once
// A case that is tried with other values: its text is edited and read again, and the checks are run again.
#include <memory>
#include <span>
#include <string>

#include "code/edition.hpp"
#include "engine/run.hpp"
#include "job/edit.hpp"

namespace pullproof::answers {

struct Draft {
  std::string file, text;
  code::Edition edition;

  /// The text with the edits in it; empty when they cannot be made.
  std::string edited(std::span<const Edit> edits) const;
  /// The case with the edits; null when they cannot be made, or when the case cannot be read with them or does not fit
  /// the tables.
  std::shared_ptr<const Case> with(std::span<const Edit> edits) const;
};

/// Puts an edit among others: in place of one of the same key, else at the end.
void put(std::vector<Edit>& edits, Edit edit);

/// What a finding stands in the way with: it fails or is open.
bool is_bad(const Finding& f);
/// Advice that comes from a comparison, so that another size may heed it.
bool is_unheeded(const Finding& f);

/// A measure to put values in order by: circular mils, trade size, amperes, volt-amperes; not a number for words.
double magnitude(std::string_view toml_value);

/// A TOML string without its quotes.
std::string_view unquoted(std::string_view toml_value);

}  // namespace pullproof::answers
