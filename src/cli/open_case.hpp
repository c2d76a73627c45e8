#pragma once
// A case that a command asks for, to be changed and tried.
#include <memory>
#include <string>

#include "answers/draft.hpp"
#include "cli/shelf.hpp"

namespace pullproof::cli {

struct OpenedCase {
  answers::Draft draft;
  std::shared_ptr<const Case> job;
};

/// The case in a file, or in standard input for "-", with the edition called `edition` in place of its own where that
/// is given. Throws CommandError and BadInput.
OpenedCase open_case(const Shelf& shelf, const std::string& file, const std::string& edition);

/// The exit status that a report stands for.
int status_of(const Report& report);

/// The worse of two exit statuses, for the whole of several cases.
int worse(int a, int b);

}  // namespace pullproof::cli
