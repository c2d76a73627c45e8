#pragma once
// Questions on a terminal or in a pipe: they go to standard error, answers come from standard input.
#include <stdexcept>
#include <string>
#include <string_view>

namespace pullproof::cli {

/// Standard input ended where an answer was wanted.
struct InputEnded : std::runtime_error {
  explicit InputEnded(const std::string& question) : std::runtime_error(question) {}
};

/// Something said beside the questions: what is wrong with an answer, what happens next.
void say(std::string_view text);

/// Asks, with what an empty answer stands for in brackets. Returns the answer without spaces around it, or `usual`.
/// A line that is longer than any answer, or that is no text, is asked again. Throws InputEnded.
std::string ask(std::string_view question, std::string_view usual);

/// Asks for yes or no. Throws InputEnded.
bool ask_whether(std::string_view question, bool usual);

}  // namespace pullproof::cli
