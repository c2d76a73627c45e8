// manual: the manual page, made from the table of commands and the list of options, in man(7).
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/terminal.hpp"

namespace pullproof::cli {
namespace {

constexpr std::string_view date = "2026-11-25";

/// Text as roff takes it: hyphens that are copied as such, and no line that is taken for a request.
std::string escaped(std::string_view text) {
  std::string out;
  bool line_start = true;
  for (const char c : text) {
    if (line_start && (c == '.' || c == '\'')) out += "\\&";
    line_start = c == '\n';
    if (c == '\\') out += "\\e";
    else if (c == '-') out += "\\-";
    else if (c == '`' || c == '^' || c == '~') out += fmt::format("\\({}", c == '`' ? "ga" : c == '^' ? "ha" : "ti");
    else if (c == '\'') out += "\\(aq";
    else out += c;
  }
  return out;
}

/// The command lines within a sentence, which help has in backquotes, in bold.
std::string sentence(std::string_view text) {
  std::string out;
  for (bool inside = false;; inside = !inside) {
    const std::size_t end = std::min(text.find('`'), text.size());
    if (inside) out += fmt::format("\\fB{}\\fR", escaped(text.substr(0, end)));
    else out += escaped(text.substr(0, end));
    if (end == text.size()) return out;
    text.remove_prefix(end + 1);
  }
}

/// Paragraphs with an empty line between.
std::string paragraphs(std::string_view text) {
  std::string out;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find("\n\n"), text.size());
    out += fmt::format("{}{}\n", out.empty() ? "" : ".PP\n", sentence(text.substr(0, end)));
    text.remove_prefix(std::min(end + 2, text.size()));
  }
  return out;
}

/// Command lines as they are typed.
std::string examples(std::string_view text) {
  std::string out = ".PP\n.nf\n.RS\n";
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    std::string_view line = text.substr(0, end);
    while (line.starts_with(' ')) line.remove_prefix(1);
    if (!line.empty()) out += escaped(line) + "\n";
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return out + ".RE\n.fi\n";
}

std::string about(const Command& c) {
  std::string s = fmt::format(".SS \"{}\"\n", escaped(fmt::format("{}{}{}", c.name, c.words.empty() ? "" : " ", c.words)));
  s += paragraphs(c.about);
  for (const OptionInfo& o : options_of(c)) {
    if (o.name == "help" || o.name == "color") continue;  // said once for all
    s += ".TP\n";
    if (o.letter != '\0') s += fmt::format("\\fB\\-{}\\fR, ", o.letter);
    s += fmt::format("\\fB\\-\\-{}\\fR{}\n{}\n", escaped(o.name), o.value.empty() ? "" : fmt::format(" \\fI{}\\fR", escaped(o.value)), sentence(o.help));
  }
  return s + examples(c.examples);
}

}  // namespace

int manual(const Options&) {
  std::string s = fmt::format(".TH PULLPROOF 1 {} \"pullproof {}\" \"User Commands\"\n", date, PULLPROOF_VERSION);
  s += ".SH NAME\npullproof \\- prove an appliance circuit before the wire is pulled\n";
  s += ".SH SYNOPSIS\n.B pullproof\n.I command\n.RI [ options ]\n.RI [ word ...]\n.PP\n.B pullproof\n.BR \\-\\-help \" | \" \\-\\-version\n";
  s += ".SH DESCRIPTION\n"
       "A case is a text file in TOML that says what is about to be installed: panel,\n"
       "breaker, conductors, conduit, appliance, disconnect, low\\-voltage control run.\n"
       ".B pullproof\n"
       "checks it against the rules of a code edition and prints what passes, what fails\n"
       "and what would do, what it could not decide, and where every number comes from.\n"
       ".PP\n"
       "It is a calculation aid. The adopted code, its local amendments and the authority\n"
       "having jurisdiction decide, and the work is for qualified people. It sees only\n"
       "what the case says.\n";
  s += ".SH OPTIONS\nEvery command knows these.\n"
       ".TP\n\\fB\\-h\\fR, \\fB\\-\\-help\\fR\nprint help on the command\n"
       ".TP\n\\fB\\-\\-color\\fR \\fIWHEN\\fR\nauto (the default: on a terminal, unless NO_COLOR is set), always or never\n";
  s += ".SH COMMANDS\n";
  for (const Command& c : all_commands()) s += about(c);
  s += ".SH \"EXIT STATUS\"\n"
       ".TP\n.B 0\nnothing fails or is open\n"
       ".TP\n.B 1\nsomething fails\n"
       ".TP\n.B 2\na file could not be read, or the command was wrong\n"
       ".TP\n.B 3\nnothing fails, but something is open\n"
       ".PP\nOf several cases the worst counts: 2, then 1, then 3.\n";
  s += ".SH ENVIRONMENT\n.TP\n.B NO_COLOR\nwhen it is set and not empty, no colour is used unless \\fB\\-\\-color always\\fR asks for it\n"
       ".TP\n.B TERM\nwhen it is \\(lqdumb\\(rq or not set, no colour is used\n";
  put(s);
  return status_pass;
}

}  // namespace pullproof::cli
