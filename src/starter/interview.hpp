#pragma once
// The questions for a first case, and what becomes of their answers. No terminal here.
#include <set>
#include <span>
#include <string>
#include <vector>

#include "starter/plan.hpp"

namespace pullproof::starter {

struct Question {
  std::string_view key;
  std::string_view text;     ///< as it is asked
  std::string_view help;     ///< what `?` says
  std::string Plan::*field;  ///< where the answer goes
  bool (*applies)(const code::Edition&, const Plan&);
  std::string_view unknown;  ///< the word for "not known" or "none"; empty when something has to be said
  std::string_view words;    ///< the answers that may be given, separated by "|"; empty for any
  bool size = false;         ///< proposed is the smallest that passes
};

/// In the order in which they are asked.
std::span<const Question> questions();

/// What is wrong with an answer.
struct Troubles {
  std::vector<std::string> unreadable;  ///< the reader's or the tables' complaints
  std::vector<std::string> fails;       ///< what fails with it and did not fail before
};

class Interview {
 public:
  Interview(Shelf shelf, code::Edition edition, Plan plan);

  /// What an empty answer would stand for.
  std::string usual(const Question& q) const;
  Troubles troubles_with(const Question& q, const std::string& answer) const;
  void answer(const Question& q, const std::string& answer);

  /// The plan with every size filled in.
  const Plan& plan() const { return fitted_; }
  Checked checked() const { return check(shelf_, fitted_); }

 private:
  Plan with(const Question& q, const std::string& answer) const;
  Plan fitted(Plan plan) const;
  Shelf shelf_;
  code::Edition edition_;
  Plan plan_, fitted_;  ///< as answered, and with the sizes that are left open
  std::set<std::string> given_;
};

}  // namespace pullproof::starter
