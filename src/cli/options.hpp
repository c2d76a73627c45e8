#pragma once
// The command line: which command, with which options. Boost.Program_Options reads it, in options.cpp alone.
#include <cstddef>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace pullproof::cli {

/// A command line that cannot be carried out: what is wrong, and what would do.
struct CommandError : std::runtime_error {
  CommandError(const std::string& message, std::string what_would_do = {})
      : std::runtime_error(message), note(std::move(what_would_do)) {}
  std::string note;
};

enum class Format { text, json, markdown, html, pdf };
enum class Color { automatic, always, never };
enum class Remedies { automatic, always, never };
enum class Apply { nothing, verified, partial };

/// "--size 6" of a look-up: what a column has to say, by the column's name or the trade's word for it.
struct Filter {
  std::string name, value;
};

struct Options {
  std::vector<std::string> words;  ///< what is no option: files, a check, editions, a table
  Format format = Format::text;
  bool format_given = false;
  Color color = Color::automatic;
  bool full = false;
  std::string edition;                  ///< id or file; empty when not given
  std::vector<std::string> amendments;  ///< files to lay over it, in order
  std::string rules;                    ///< a folder in place of the built-in rules; empty when not given
  std::vector<std::string> rows;
  std::vector<Filter> filters;
  Remedies remedies = Remedies::automatic;
  Apply apply = Apply::nothing;
  std::string output;                       ///< a file to write to; empty when not given
  std::vector<std::string> at_least, stock; ///< "wire.size=12 AWG", "raceway.size=1/2,3/4"
  bool ignore_advice = false;
  bool force = false;  ///< a file that is there may be replaced
  bool a4 = false;     ///< paper: A4 instead of US Letter
  std::size_t jobs = 0;  ///< cases at once; 0 for one a processor
  std::size_t from = 1;  ///< the first line of a stream, or the first of the cases, that is wanted
  std::string list;      ///< a file with names of cases, "-" for standard input; empty when not given
  bool null = false;     ///< the names of a list end at NUL characters
  bool brief = false;    ///< a line a case
};

/// A command of the program.
struct Command {
  std::string_view name;      ///< "check", "rules show"
  std::string_view words;     ///< its words as usage shows them, "FILE..."
  std::size_t least_words, most_words;
  std::string_view options;   ///< the groups of options that it knows beside --help and --color, separated by spaces
  std::string_view summary;   ///< a line for the list of commands
  std::string_view about;     ///< paragraphs for its own help, an empty line between
  std::string_view examples;  ///< command lines, as a shell runs them
  int (*run)(const Options&);
  bool judges = false;        ///< whether its exit status says how a case did
};

/// The commands, in the order that help shows them.
std::span<const Command> all_commands();

/// An option as a command has it.
struct OptionInfo {
  std::string_view name;  ///< "output", without dashes
  char letter;            ///< 'o', or '\0'
  std::string_view value; ///< "FILE"; empty when it takes none
  std::string_view help;
  std::vector<std::string_view> choices;  ///< the words that the value may be, where there is such a list
  bool repeats, any_name;                 ///< may be given again; stands for options of any other name
};
std::vector<OptionInfo> options_of(const Command& command);
/// Whether a command knows a group of options.
bool knows(const Command& command, std::string_view group);

inline constexpr std::string_view exit_statuses =
    "Exit status: 0 nothing fails or is open; 1 something fails; 2 a file could not\n"
    "be read or the command was wrong; 3 nothing fails, but something is open. Of\n"
    "several cases the worst counts: 2, then 1, then 3.\n";

/// What --help prints: of the program, of a command.
std::string help();
std::string help_of(const Command& command);
/// "pullproof check [options] FILE..."
std::string usage_of(const Command& command);

/// The words of a list with spaces between.
std::vector<std::string_view> words_in(std::string_view list);

/// What a command line asks for: a command to run, or a text to print.
struct Request {
  const Command* command = nullptr;
  Options options;
  std::string print;
};

/// Throws CommandError.
Request read_command_line(int argc, const char* const* argv);

/// The note "did you mean 'x'?" or the list of what is known.
std::string suggestion(std::string_view word, const std::vector<std::string_view>& known);

}  // namespace pullproof::cli
