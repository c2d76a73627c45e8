#pragma once
// The search for sizes: which are open, in which order they are decided, and the smallest values that pass together.
// Private to the sizing.
#include <map>
#include <set>
#include <utility>

#include "answers/sizing.hpp"

namespace pullproof::answers {

/// A size to be found.
struct Open {
  const Choice* choice = nullptr;
  Part part;
  std::string path, subject;
  std::vector<std::string> values;
};

enum class Strict : bool { fails_alone, advice_too };

/// Whether a limit that names `key` is about this one.
bool is_about(const Limit& limit, const Open& o);
/// Whether a value in a case is the one that a person wrote without quotes.
bool same_value(std::string_view toml_value, std::string_view plain);

class Search {
 public:
  struct Answer {
    bool good = false;
    std::set<std::size_t> because;  ///< earlier sizes that the failure hangs on
    std::size_t at = 0;             ///< the size for which nothing did
    bool cut_short = false;         ///< larger ones of some size were not tried
    std::vector<std::pair<std::string, Objection>> against;
  };

  Search(const Draft& draft, const SizingOptions& options) : draft_(draft), options_(options), job_(draft.with({})) {}

  bool readable() const { return job_ != nullptr; }
  /// Every size of every part, with the values that the limits leave.
  std::vector<Open> all() const;

  /// Takes the case as it is: what fails in it anyway, and the sizes that may grow.
  void begin(const Report& base);
  /// Adds what the findings miss. Whether there was anything.
  bool find_open(const Report& report);
  /// The smallest values of all that is open.
  Answer run(Strict strict);

  const std::vector<Open>& open() const { return open_; }
  const std::string& value(std::size_t i) const { return values_[i]; }
  /// The checks that read the `i`th size.
  const std::vector<const Check*>& checks(std::size_t i) const { return checks_[i]; }
  /// The values that were found.
  std::vector<Edit> edits() const;
  std::size_t trials() const { return trials_; }
  bool gave_up() const;
  void count_trial() { ++trials_; }

  /// The sizes that bear on what a check says of a subject.
  const std::set<std::size_t>& bearing(std::string_view check, std::string_view subject);
  /// Whether a check has no answer because the tables end, not because the case leaves a fact out: what is asked for
  /// then is the maker's figure in place of a table's.
  static bool dodges(const Finding& f);
  static bool rejects(const Finding& f, Strict strict);

 private:
  using Matters = std::set<std::pair<std::string, std::string>>;

  Open open_of(const Choice& choice, const Part& part) const;
  void reopen(const Choice& choice, const Part& part);
  bool fits(const Choice& choice, const Part& part) const;
  void prepare();
  Answer search(std::size_t i, const std::string& text, Strict strict, Matters failed_so_far);
  Answer try_values(std::size_t i, const std::string& text, Strict strict, Matters failed_so_far);
  bool ignore_what_no_size_mends(std::size_t i, const std::string& text, const Answer& failed);
  Answer last_look(const std::string& text);

  const Draft& draft_;
  const SizingOptions& options_;
  std::shared_ptr<const Case> job_;
  std::vector<Open> open_;
  std::vector<std::string> values_;
  std::vector<std::vector<const Check*>> checks_;
  std::map<std::pair<std::string, std::string>, std::set<std::size_t>> bearing_;
  Matters fails_anyway_;
  std::set<std::pair<std::pair<std::string, std::string>, std::string>> ignored_;  ///< matter and message
  std::size_t trials_ = 0;
};

}  // namespace pullproof::answers
