// completions: what a shell completes, made from the table of commands and the list of options.
#include <fmt/format.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "cli/known-words.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"

namespace pullproof::cli {
namespace {

constexpr std::string_view rule_data = "the rule data: list, show, diff, coverage";

/// In single quotes, for any of the shells.
std::string single(std::string_view s) {
  std::string out = "'";
  for (const char c : s) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

/// "--output" and "-o".
std::vector<std::string> names_of(const OptionInfo& o) {
  std::vector<std::string> out{fmt::format("--{}", o.name)};
  if (o.letter != '\0') out.push_back(fmt::format("-{}", o.letter));
  return out;
}

/// The first words of commands, each with what it stands for.
std::vector<std::pair<std::string_view, std::string_view>> first_words() {
  std::vector<std::pair<std::string_view, std::string_view>> out;
  for (const Command& c : all_commands())
    if (std::none_of(out.begin(), out.end(), [&](const auto& f) { return f.first == family_of(c); })) out.emplace_back(family_of(c), member_of(c).empty() ? c.summary : rule_data);
  return out;
}

std::vector<const Command*> members_of(std::string_view family) {
  std::vector<const Command*> out;
  for (const Command& c : all_commands())
    if (family_of(c) == family && !member_of(c).empty()) out.push_back(&c);
  return out;
}

/// What each command's options want and have, for a shell whose words stand in a list.
template <class List, class Files>
std::string case_of(const Command& c, const code::Edition& edition, List list, Files files) {
  std::string s;
  for (const OptionInfo& o : options_of(c)) {
    if (o.value.empty() || o.any_name) continue;
    const Words after = words_after(o, edition);
    s += fmt::format("        {}) {}{}return ;;\n", fmt::join(names_of(o), "|"), after.words.empty() ? "" : list(after.words) + "; ", after.files ? files() + "; " : "");
  }
  return s;
}

std::vector<std::string> option_names(const Command& c) {
  std::vector<std::string> out;
  for (const OptionInfo& o : options_of(c))
    if (!o.any_name)
      for (std::string& n : names_of(o)) out.push_back(std::move(n));
  return out;
}

std::string bash(const code::Edition& edition) {
  const auto list = [](const auto& words) { return fmt::format("_pullproof_words $'{}'", fmt::join(words, "\\n")); };
  const auto files = [] { return std::string("_pullproof_files"); };
  std::vector<std::string> firsts;
  for (const auto& f : first_words()) firsts.emplace_back(f.first);
  firsts.insert(firsts.end(), {"--help", "--version"});
  std::string s =
      "# bash completion for pullproof\n"
      "_pullproof_words() {\n"
      "  local IFS=$'\\n' word\n"
      "  while read -r word; do\n"
      "    printf -v word '%q' \"$word\"\n"
      "    COMPREPLY+=(\"$word\")\n"
      "  done < <(compgen -W \"$1\" -- \"$cur\")\n"
      "}\n"
      "_pullproof_files() {\n"
      "  compopt -o filenames 2>/dev/null\n"
      "  local word\n"
      "  while read -r word; do COMPREPLY+=(\"$word\"); done < <(compgen -f -- \"$cur\")\n"
      "}\n"
      "_pullproof() {\n"
      "  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} command=${COMP_WORDS[1]}\n"
      "  COMPREPLY=()\n"
      "  # --format=json is three words here\n"
      "  if [[ $cur == = ]]; then cur=; elif [[ $prev == = ]]; then prev=${COMP_WORDS[COMP_CWORD-2]}; fi\n";
  s += fmt::format("  if [[ $COMP_CWORD -eq 1 ]]; then {}; return; fi\n  case $command in\n", list(firsts));
  for (const auto& f : first_words()) {
    std::vector<std::string_view> members;
    for (const Command* c : members_of(f.first)) members.push_back(member_of(*c));
    if (!members.empty()) s += fmt::format("    {}) if [[ $COMP_CWORD -eq 2 ]]; then {}; return; fi; command+=\" ${{COMP_WORDS[2]}}\" ;;\n", f.first, list(members));
  }
  s += "  esac\n  case $command in\n";
  for (const Command& c : all_commands()) {
    const Words after = words_after(c.words, edition);
    s += fmt::format("    '{}')\n      case $prev in\n{}      esac\n      if [[ $cur == -* ]]; then {}; return; fi\n", c.name, case_of(c, edition, list, files), list(option_names(c)));
    if (!after.words.empty()) s += fmt::format("      {}\n", list(after.words));
    if (after.files) s += "      _pullproof_files\n";
    s += "      ;;\n";
  }
  return s + "  esac\n}\ncomplete -F _pullproof pullproof\n";
}

std::string zsh(const code::Edition& edition) {
  const auto list = [](const auto& words) {
    std::string s = "compadd --";
    for (const auto& w : words) s += " " + single(w);
    return s;
  };
  const auto files = [] { return std::string("_files"); };
  /// 'word:what it is', as _describe wants it.
  const auto described = [](std::string_view word, std::string_view what) {
    std::string s;
    for (const char c : what) s += c == ':' ? std::string("\\:") : std::string(1, c);
    return single(fmt::format("{}:{}", word, s));
  };
  std::string s = "#compdef pullproof\n_pullproof() {\n  local command=$words[2]\n  local -a given\n  if (( CURRENT == 2 )); then\n    given=(";
  for (const auto& [name, what] : first_words()) s += "\n      " + described(name, what);
  s += ")\n    _describe command given\n    compadd -- --help --version\n    return\n  fi\n  case $command in\n";
  for (const auto& f : first_words()) {
    if (members_of(f.first).empty()) continue;
    s += fmt::format("    {})\n      if (( CURRENT == 3 )); then\n        given=(", f.first);
    for (const Command* c : members_of(f.first)) s += "\n          " + described(member_of(*c), c->summary);
    s += ")\n        _describe command given\n        return\n      fi\n      command+=\" $words[3]\" ;;\n";
  }
  s += "  esac\n  case $command in\n";
  for (const Command& c : all_commands()) {
    const Words after = words_after(c.words, edition);
    s += fmt::format("    '{}')\n      case $words[CURRENT-1] in\n{}      esac\n      if [[ $words[CURRENT] == -* ]]; then\n        given=(", c.name, case_of(c, edition, list, files));
    for (const OptionInfo& o : options_of(c))
      if (!o.any_name)
        for (const std::string& n : names_of(o)) s += "\n          " + described(n, o.help);
    s += ")\n        _describe -o option given\n        return\n      fi\n";
    if (!after.words.empty()) s += fmt::format("      {}\n", list(after.words));
    if (after.files) s += "      _files\n";
    s += "      ;;\n";
  }
  return s + "  esac\n}\nif [[ $funcstack[1] == _pullproof ]]; then _pullproof \"$@\"; else compdef _pullproof pullproof; fi\n";
}

std::string fish(const code::Edition& edition) {
  std::string s =
      "# fish completion for pullproof\n"
      "function __pullproof_in\n"
      "  set -l given (commandline -opc)\n"
      "  set -l wanted (string split ' ' -- $argv[1])\n"
      "  test (count $given) -gt (count $wanted); or return 1\n"
      "  set -l last (math (count $wanted) + 1)\n"
      "  test \"$given[2..$last]\" = \"$argv[1]\"\n"
      "end\n"
      "function __pullproof_at\n"
      "  test (count (commandline -opc)) -eq $argv[1]\n"
      "end\n"
      "complete -c pullproof -f\n"
      "complete -c pullproof -n '__pullproof_at 1' -l help -d 'what there is'\n"
      "complete -c pullproof -n '__pullproof_at 1' -l version -d 'which version this is'\n";
  for (const auto& [name, what] : first_words()) s += fmt::format("complete -c pullproof -n '__pullproof_at 1' -a {} -d {}\n", name, single(what));
  for (const Command& c : all_commands()) {
    if (const std::string_view member = member_of(c); !member.empty())
      s += fmt::format("complete -c pullproof -n '__pullproof_at 2; and __pullproof_in {}' -a {} -d {}\n", family_of(c), member, single(c.summary));
    const std::string when = fmt::format("-n {}", single(fmt::format("__pullproof_in \"{}\"", c.name)));
    const auto words = [](const Words& w) {
      std::string all;
      for (const std::string& word : w.words) all += fmt::format("{}{}", all.empty() ? "" : " ", word.find(' ') == std::string::npos ? word : "\"" + word + "\"");
      return all.empty() ? all : " -a " + single(all);
    };
    for (const OptionInfo& o : options_of(c)) {
      if (o.any_name) continue;
      const Words after = words_after(o, edition);
      s += fmt::format("complete -c pullproof {} -l {}{}{} -d {}\n", when, o.name, o.letter == '\0' ? "" : fmt::format(" -s {}", o.letter),
                       o.value.empty() ? std::string{} : fmt::format(" {}{}", after.files ? "-rF" : "-x", words(after)), single(o.help));
    }
    const Words after = words_after(c.words, edition);
    if (after.files) s += fmt::format("complete -c pullproof {} -F\n", when);
    if (!after.words.empty()) s += fmt::format("complete -c pullproof {}{}\n", when, words(after));
  }
  return s;
}

}  // namespace

int completions(const Options& options) {
  const auto edition = need_edition(Shelf{}, usual_edition);
  const std::string& shell = options.words[0];
  if (shell == "bash") put(bash(edition));
  else if (shell == "zsh") put(zsh(edition));
  else if (shell == "fish") put(fish(edition));
  else throw CommandError(fmt::format("there are no completions for '{}'", shell), suggestion(shell, {"bash", "zsh", "fish"}));
  return status_pass;
}

}  // namespace pullproof::cli
