#pragma once
// What a shell can complete after a command.
#include <string>
#include <string_view>
#include <vector>

#include "cli/options.hpp"
#include "code/edition.hpp"

namespace pullproof::cli {

/// Words that there is a list of, and whether a file may stand there, too.
struct Words {
  std::vector<std::string> words;
  bool files = false;
};

/// What may follow a command whose usage has these words: "[CHECK]", "FILE...".
Words words_after(std::string_view usage, const code::Edition& edition);
/// What may follow an option.
Words words_after(const OptionInfo& option, const code::Edition& edition);

/// "rules" of "rules show"; the name itself of other commands.
std::string_view family_of(const Command& command);
/// "show" of "rules show"; nothing of other commands.
std::string_view member_of(const Command& command);

}  // namespace pullproof::cli
