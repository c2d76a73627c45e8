// What --help prints, made from the table of commands and the list of options.
#include <fmt/format.h>

#include "cli/options.hpp"
#include "core/diagnostic.hpp"
#include "report/page.hpp"

namespace pullproof::cli {
namespace {

constexpr std::size_t width = 80;

constexpr std::string_view intro =
    "pullproof checks an appliance circuit and its control wiring against the rules\n"
    "of a code edition, before the wire is pulled.\n";

std::string label_of(const OptionInfo& o) {
  return fmt::format("{}--{}{}{}", o.letter != '\0' ? fmt::format("-{}, ", o.letter) : "    ", o.name, o.value.empty() ? "" : " ", o.value);
}

std::string options_text(const Command& c) {
  const auto all = options_of(c);
  std::size_t widest = 0;
  for (const OptionInfo& o : all) widest = std::max(widest, display_width(label_of(o)));
  report::Page page(width, false);
  for (const OptionInfo& o : all) page.item(2, {label_of(o)}, widest, {{std::string(o.help)}});
  return page.take();
}

}  // namespace

std::string usage_of(const Command& c) { return fmt::format("pullproof {} [options]{}{}", c.name, c.words.empty() ? "" : " ", c.words); }

std::string help_of(const Command& c) {
  std::string s = fmt::format("{}\n\n{}\n\nOptions:\n{}", usage_of(c), c.about, options_text(c));
  if (!c.examples.empty()) s += fmt::format("\nExamples:\n{}", c.examples);
  if (c.judges) s += fmt::format("\n{}", exit_statuses);
  return s;
}

std::string help() {
  std::string s = fmt::format("{}\nCommands:\n", intro);
  for (const Command& c : all_commands()) {
    constexpr std::size_t column = 21;
    const std::string usage = fmt::format("{}{}{}", c.name, c.words.empty() ? "" : " ", c.words);
    s += fmt::format("  {:<{}}{}{}\n", usage, column, usage.size() < column ? "" : "\n" + std::string(column + 2, ' '), c.summary);
  }
  s += "\n`pullproof COMMAND --help` says more about each. Other options: --version.\n\n";
  s += "Start here:\n"
       "  pullproof new                     a few questions, and a first case\n"
       "  pullproof check case.toml         what fails, and what would do\n"
       "  pullproof check --full case.toml  the same with the working of every answer\n"
       "  pullproof report a.toml -o a.html a report to file with the permit\n"
       "  pullproof keys                    every key that a case may have\n\n";
  return s + std::string(exit_statuses);
}

}  // namespace pullproof::cli
