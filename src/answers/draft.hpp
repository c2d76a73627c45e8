#pragma once
// A case that is tried with other values: its text is edited and read again, and the checks are run again.
#include <memory>
#include <span>
#include <stdexcept>
#include <string>

#include "code/edition.hpp"
#include "engine/run.hpp"
#include "job/edit.hpp"

namespace pullproof::answers {

/// Thrown when a search has tried as much as it may.
struct TooMuch : std::runtime_error {
  TooMuch() : std::runtime_error("the case is too large to try so many changes of it") {}
};

/// How much a search may still try. A trial of a text is taken to cost as its length, and more the longer it is: the
/// same search is given up at the same trial on every machine.
class Effort {
 public:
  explicit Effort(std::size_t most) : left_(most) {}
  /// Takes the cost of a trial. Throws TooMuch.
  void spend(std::size_t bytes);

 private:
  std::size_t left_;
};
/// For what is looked for on the side, and for what was asked for: about a second, and about a minute.
inline constexpr std::size_t effort_aside = 8'000'000, effort_asked = 500'000'000;

struct Draft {
  std::string file, text;
  code::Edition edition;
  std::shared_ptr<Effort> effort = nullptr;  ///< null: no end
  std::shared_ptr<const Editable> editable = nullptr;  ///< of `text`, where many edits are tried

  /// The text with the edits in it; empty when they cannot be made.
  std::string edited(std::span<const Edit> edits) const;
  /// The case with the edits; null when they cannot be made, or when the case cannot be read with them or does not fit
  /// the tables. Throws TooMuch.
  std::shared_ptr<const Case> with(std::span<const Edit> edits) const;
  /// The case that a text with edits in it is, as with().
  std::shared_ptr<const Case> read(std::string edited_text) const;
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
