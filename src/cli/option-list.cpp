// The options of all commands in one list. The reader, --help, completions and the manual are made from it.
#include <algorithm>

#include "cli/options.hpp"

namespace pullproof::cli {
namespace {

constexpr const char* of_a_case = "check to this edition or amendment file, instead of the edition and amendments that the case names";
constexpr const char* of_the_rules = "an edition or an amendment file (us-2023 without it)";

/// What commands name in their `options`, and the options that this stands for.
struct Row {
  std::string_view group, name;
  char letter;
  std::string_view value;    ///< "FILE"; empty when it takes none
  std::string_view choices;  ///< the words that its value may be, with spaces between
  std::string_view help;
  bool repeats = false;
};

constexpr Row rows[] = {
    {"help", "help", 'h', "", "", "print this"},
    {"format", "format", '\0', "FORM", "text json", "text (the default) or json"},
    {"format-or-markdown", "format", '\0', "FORM", "text md json", "text (the default), md (Markdown) or json"},
    {"format-of-report", "format", '\0', "FORM", "html pdf md txt json", "html, pdf, md, txt or json, where the file's name does not say it"},
    {"full", "full", '\0', "", "", "with the working of every answer, and why what does not apply does not"},
    {"brief", "brief", '\0', "", "", "a line a case: its outcome, its name, and what fails"},
    {"edition-of-case", "edition", '\0', "ID|FILE", "", of_a_case},
    {"edition", "edition", '\0', "ID|FILE", "", of_the_rules},
    {"amendment", "amendment", '\0', "FILE", "", "lay this amendment over the edition; may be repeated", true},
    {"row", "row", '\0', "KEY", "", "only the rows with this key; may be repeated", true},
    {"filters", "COLUMN", '\0', "VALUE", "", "only the rows that have this in a column, or the columns for it: --size 6, --material copper, --ambient \"105 °F\""},
    {"remedies", "remedies", '\0', "WHEN", "auto always never", "try changes that would mend what fails: auto (the default: when one case is named), always or never"},
    {"apply", "apply", '\0', "", "", "write the verified changes into the case and check it again"},
    {"apply", "apply-partial", '\0', "", "", "write what mends a part, too"},
    {"output-of-report", "output", 'o', "FILE", "", "write the report to this file; - for standard output"},
    {"output-of-new", "output", 'o', "FILE", "", "write the case to this file"},
    {"output-of-size", "output", 'o', "FILE", "", "write the completed case to this file; - for standard output"},
    {"force", "force", '\0', "", "", "replace the file if it is there"},
    {"paper", "paper", '\0', "SIZE", "letter a4", "letter (the default) or a4, for pages that are printed"},
    {"at-least", "at-least", '\0', "KEY=VALUE", "", "nothing smaller: --at-least \"wire.size=12 AWG\"; may be repeated", true},
    {"stock", "stock", '\0', "KEY=LIST", "", "only what is at hand: --stock \"raceway.size=1/2,3/4\"; may be repeated", true},
    {"ignore-advice", "ignore-advice", '\0', "", "", "let advice be, such as an advised voltage drop: only what is binding counts"},
    {"jobs", "jobs", '\0', "N", "", "check this many cases at once (one a processor without it)"},
    {"from-case", "from", '\0', "N", "", "begin with the Nth case"},
    {"from-line", "from", '\0', "N", "", "begin with the Nth line of the input"},
    {"list", "list", '\0', "FILE", "", "check the files and folders named in FILE, too, one a line; - for standard input"},
    {"list", "null", '\0', "", "", "the names of the list end at NUL characters"},
    {"rules", "rules", '\0', "DIR", "", "read the rules in this folder, instead of the built-in ones"},
    {"color", "color", '\0', "WHEN", "auto always never", "auto (the default: on a terminal, unless NO_COLOR is set), always or never"},
};

}  // namespace

std::vector<std::string_view> words_in(std::string_view list) {
  std::vector<std::string_view> out;
  while (!list.empty()) {
    const std::size_t end = std::min(list.find(' '), list.size());
    if (end > 0) out.push_back(list.substr(0, end));
    list.remove_prefix(std::min(end + 1, list.size()));
  }
  return out;
}

bool knows(const Command& command, std::string_view group) {
  const auto groups = words_in(command.options);
  return std::find(groups.begin(), groups.end(), group) != groups.end();
}

std::vector<OptionInfo> options_of(const Command& command) {
  std::vector<OptionInfo> out;
  for (const Row& r : rows)
    if (r.group == "help" || r.group == "color" || knows(command, r.group)) out.push_back({r.name, r.letter, r.value, r.help, words_in(r.choices), r.repeats, r.group == "filters"});
  return out;
}

}  // namespace pullproof::cli
