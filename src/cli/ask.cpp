#include "cli/ask.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <optional>

#include "core/diagnostic.hpp"
#include "report/page.hpp"

namespace pullproof::cli {
namespace {

constexpr std::size_t longest_answer = 500;

/// A line of standard input without its end; nothing at the end of input. Of a longer line than any answer the rest
/// is read and dropped.
std::optional<std::string> read_line() {
  std::string line;
  for (int c; (c = std::getchar()) != EOF;) {
    if (c == '\n') return line;
    if (line.size() <= longest_answer) line += static_cast<char>(c);
  }
  return line.empty() ? std::nullopt : std::optional(line);
}

std::string trimmed(const std::string& s) {
  const std::size_t from = s.find_first_not_of(" \t\r"), to = s.find_last_not_of(" \t\r");
  return from == std::string::npos ? std::string{} : s.substr(from, to - from + 1);
}

}  // namespace

void say(std::string_view text) {
  if (text.empty()) {
    fmt::print(stderr, "\n");
    return;
  }
  constexpr std::size_t width = 80;
  report::Page page(width, false);
  const std::size_t indent = std::min(text.find_first_not_of(' '), text.size());
  page.paragraph(indent, text.substr(indent));
  fmt::print(stderr, "{}", page.take());
  std::fflush(stderr);
}

std::string ask(std::string_view question, std::string_view usual) {
  while (true) {
    fmt::print(stderr, "{}{} ", question, usual.empty() ? ":" : fmt::format(" [{}]:", usual));
    std::fflush(stderr);
    const auto line = read_line();
    if (!line) {
      fmt::print(stderr, "\n");
      throw InputEnded(std::string(question));
    }
    std::string answer = trimmed(*line);
    if (::isatty(STDIN_FILENO) != 1) say(printable(answer.empty() ? usual : std::string_view(answer)));
    if (line->size() > longest_answer) say("  that is longer than any answer");
    else if (printable(answer) != answer) say("  that has characters in it that are no text");
    else return answer.empty() ? std::string(usual) : answer;
  }
}

bool ask_whether(std::string_view question, bool usual) {
  while (true) {
    const std::string answer = ask(fmt::format("{} (yes or no)", question), usual ? "yes" : "no");
    if (answer == "yes" || answer == "y") return true;
    if (answer == "no" || answer == "n") return false;
    say("  yes or no?");
  }
}

}  // namespace pullproof::cli
