#include "cli/options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/program_options.hpp>
#include <charconv>
#include <limits>
#include <sstream>

#include "core/text.hpp"

namespace po = boost::program_options;

namespace pullproof::cli {
namespace {

constexpr std::string_view intro =
    "pullproof checks an appliance circuit and its control wiring against the rules\n"
    "of a code edition, before the wire is pulled.\n";

constexpr std::string_view statuses =
    "Exit status: 0 nothing fails or is open; 1 something fails; 2 a file could not\n"
    "be read or the command was wrong; 3 nothing fails, but something is open. Of\n"
    "several cases the worst counts: 2, then 1, then 3.\n";

/// Boost pads some wrapped lines with a space at their end.
std::string without_trailing_spaces(const std::string& text) {
  std::string out;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) {
    while (line.ends_with(' ')) line.pop_back();
    out += line + '\n';
  }
  return out;
}

bool knows(const Command& c, std::string_view option) {
  std::istringstream in{std::string(c.options)};
  for (std::string s; in >> s;)
    if (s == option) return true;
  return false;
}

po::options_description describe(const Command& c) {
  po::options_description d("Options");
  auto add = d.add_options();
  add("help,h", "print this");
  if (knows(c, "format"))
    add("format", po::value<std::string>()->value_name("FORM"),
        c.name == "report"   ? "html, pdf, md, txt or json, where the file's name does not say it"
        : knows(c, "markdown") ? "text (the default), md (Markdown) or json"
                               : "text (the default) or json");
  if (knows(c, "full")) add("full", "with the working of every answer, and why what does not apply does not");
  if (knows(c, "edition"))
    add("edition", po::value<std::string>()->value_name("ID|FILE"),
        c.name == "check" || c.name == "size" || c.name == "reach" || c.name == "compare" || c.name == "report"
            ? "check to this edition or amendment file, instead of the edition and amendments that the case names"
            : "an edition or an amendment file (us-2023 without it)");
  if (knows(c, "row")) add("row", po::value<std::vector<std::string>>()->value_name("KEY"), "only the rows with this key; may be repeated");
  if (knows(c, "remedies"))
    add("remedies", po::value<std::string>()->value_name("WHEN"), "try changes that would mend what fails: auto (the default: when one case is named), always or never");
  if (knows(c, "apply")) {
    add("apply", "write the verified changes into the case and check it again");
    add("apply-partial", "write what mends a part, too");
  }
  if (knows(c, "output")) add("output,o", po::value<std::string>()->value_name("FILE"), c.name == "report" ? "write the report to this file; - for standard output" : c.name == "new" ? "write the case to this file" : "write the completed case to this file");
  if (knows(c, "force")) add("force", "replace the file if it is there");
  if (knows(c, "paper")) add("paper", po::value<std::string>()->value_name("SIZE"), "letter (the default) or a4, for pages that are printed");
  if (knows(c, "at-least"))
    add("at-least", po::value<std::vector<std::string>>()->value_name("KEY=VALUE"), "nothing smaller: --at-least \"wire.size=12 AWG\"; may be repeated");
  if (knows(c, "stock"))
    add("stock", po::value<std::vector<std::string>>()->value_name("KEY=LIST"), "only what is at hand: --stock \"raceway.size=1/2,3/4\"; may be repeated");
  if (knows(c, "ignore-advice")) add("ignore-advice", "let advice be, such as an advised voltage drop: only what is binding counts");
  if (knows(c, "jobs")) add("jobs", po::value<std::string>()->value_name("N"), "check this many cases at once (one a processor without it)");
  if (knows(c, "from"))
    add("from", po::value<std::string>()->value_name("N"), c.name == "check" ? "begin with the Nth case" : "begin with the Nth line of the input");
  if (knows(c, "list")) {
    add("list", po::value<std::string>()->value_name("FILE"), "check the files and folders named in FILE, too, one a line; - for standard input");
    add("null", "the names of the list end at NUL characters");
  }
  if (knows(c, "brief")) add("brief", "a line a case: its outcome, its name, and what fails");
  if (knows(c, "rules")) add("rules", po::value<std::string>()->value_name("DIR"), "read the rules in this folder, instead of the built-in ones");
  add("color", po::value<std::string>()->value_name("WHEN"), "auto (the default: on a terminal, unless NO_COLOR is set), always or never");
  return d;
}

std::string help_of(const Command& c) {
  std::ostringstream options;
  options << describe(c);
  std::string s = fmt::format("pullproof {} [options]{}{}\n\n{}\n\n{}", c.name, c.words.empty() ? "" : " ", c.words, c.about, without_trailing_spaces(options.str()));
  if (!c.examples.empty()) s += fmt::format("\nExamples:\n{}", c.examples);
  if (c.name == "check" || c.name == "report") s += fmt::format("\n{}", statuses);
  return s;
}

std::string help() {
  std::string s = fmt::format("{}\nCommands:\n", intro);
  for (const Command& c : all_commands()) {
    constexpr std::size_t column = 21;
    const std::string usage = fmt::format("{} {}", c.name, c.words);
    s += fmt::format("  {:<{}}{}{}\n", usage, column, usage.size() < column ? "" : "\n" + std::string(column + 2, ' '), c.summary);
  }
  s += "\n`pullproof COMMAND --help` says more about each. Other options: --version.\n\n";
  s += "Start here:\n"
       "  pullproof check case.toml         what fails, and what would do\n"
       "  pullproof check --full case.toml  the same with the working of every answer\n"
       "  pullproof report a.toml -o a.html a report to file with the permit\n"
       "  pullproof keys                    every key that a case may have\n\n";
  s += statuses;
  return s;
}

std::vector<std::string_view> command_names() {
  std::vector<std::string_view> names;
  for (const Command& c : all_commands()) names.push_back(c.name);
  return names;
}

/// The command that the leading words name, and how many words that took.
std::pair<const Command*, int> find_command(const std::vector<std::string>& words) {
  for (const int n : {2, 1}) {
    if (static_cast<int>(words.size()) < n) continue;
    const std::string name = n == 2 ? words[0] + " " + words[1] : words[0];
    for (const Command& c : all_commands())
      if (c.name == name) return {&c, n};
  }
  // A family such as "rules" without a member, or with an unknown one.
  std::vector<std::string_view> members, firsts;
  for (const Command& c : all_commands()) {
    if (c.name.starts_with(words[0] + " ")) members.push_back(c.name.substr(words[0].size() + 1));
    firsts.push_back(c.name.substr(0, c.name.find(' ')));
  }
  if (members.empty()) throw CommandError(fmt::format("there is no command '{}'", words[0]), suggestion(words[0], firsts));
  if (words.size() == 1 || words[1].starts_with("-"))
    throw CommandError(fmt::format("'{}' wants one of: {}", words[0], fmt::join(members, ", ")));
  throw CommandError(fmt::format("there is no command '{} {}'", words[0], words[1]), suggestion(words[1], members));
}

template <class E>
E one_of(std::string_view option, const std::string& value, std::initializer_list<std::pair<std::string_view, E>> all) {
  std::vector<std::string_view> known;
  for (const auto& [word, e] : all) {
    if (word == value) return e;
    known.push_back(word);
  }
  throw CommandError(fmt::format("--{} is one of {}, not '{}'", option, fmt::join(known, ", "), value));
}

std::string one_value(const po::variables_map& map, const char* name) {
  if (map.count(name) == 0) return {};
  std::string value = map[name].as<std::string>();
  if (value.empty()) throw CommandError(fmt::format("--{} wants a value", name));
  return value;
}

Format format_of(const Command& c, const std::string& word) {
  if (knows(c, "markdown")) return one_of<Format>("format", word, {{"text", Format::text}, {"md", Format::markdown}, {"json", Format::json}});
  if (c.name != "report") return one_of<Format>("format", word, {{"text", Format::text}, {"json", Format::json}});
  return one_of<Format>("format", word, {{"html", Format::html}, {"pdf", Format::pdf}, {"md", Format::markdown}, {"txt", Format::text}, {"json", Format::json}});
}

std::size_t count(const po::variables_map& map, const char* name, std::size_t otherwise, std::size_t most) {
  if (map.count(name) == 0) return otherwise;
  const std::string word = one_value(map, name);
  std::size_t n = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), n);
  if (error != std::errc{} || end != word.data() + word.size() || n == 0 || n > most)
    throw CommandError(fmt::format("--{} is a whole number from 1 to {}, not '{}'", name, most, word));
  return n;
}

Options options_of(const Command& c, const po::variables_map& map) {
  Options o;
  o.format_given = map.count("format") != 0;
  if (o.format_given) o.format = format_of(c, one_value(map, "format"));
  if (map.count("color") != 0)
    o.color = one_of<Color>("color", one_value(map, "color"), {{"auto", Color::automatic}, {"always", Color::always}, {"never", Color::never}});
  o.full = map.count("full") != 0;
  o.edition = one_value(map, "edition");
  o.rules = one_value(map, "rules");
  if (map.count("remedies") != 0)
    o.remedies = one_of<Remedies>("remedies", one_value(map, "remedies"), {{"auto", Remedies::automatic}, {"always", Remedies::always}, {"never", Remedies::never}});
  if (map.count("apply") != 0) o.apply = Apply::verified;
  if (map.count("apply-partial") != 0) o.apply = Apply::partial;
  o.output = one_value(map, "output");
  o.force = map.count("force") != 0;
  if (map.count("paper") != 0) o.a4 = one_of<bool>("paper", one_value(map, "paper"), {{"letter", false}, {"a4", true}});
  if (map.count("at-least") != 0) o.at_least = map["at-least"].as<std::vector<std::string>>();
  if (map.count("stock") != 0) o.stock = map["stock"].as<std::vector<std::string>>();
  o.ignore_advice = map.count("ignore-advice") != 0;
  o.jobs = count(map, "jobs", o.jobs, 256);
  o.list = one_value(map, "list");
  o.null = map.count("null") != 0;
  o.brief = map.count("brief") != 0;
  o.from = count(map, "from", o.from, std::numeric_limits<std::int64_t>::max());
  if (map.count("row") != 0) o.rows = map["row"].as<std::vector<std::string>>();
  if (map.count("word") != 0) o.words = map["word"].as<std::vector<std::string>>();
  return o;
}

/// The options as Boost.Program_Options names its troubles, in our words.
[[noreturn]] void refuse(const Command& c, const po::error& error) {
  if (const auto* unknown = dynamic_cast<const po::unknown_option*>(&error)) {
    std::string name = unknown->get_option_name();
    name.erase(0, std::min(name.find_first_not_of('-'), name.size()));
    const po::options_description all = describe(c);
    std::vector<std::string> owned;
    std::vector<std::string_view> known;
    for (const auto& option : all.options()) owned.push_back("--" + option->long_name());
    for (const std::string& s : owned) known.push_back(s);
    throw CommandError(fmt::format("'{}' has no option '{}'", c.name, unknown->get_option_name()), suggestion("--" + name, known));
  }
  std::string message = error.what();
  throw CommandError(message, fmt::format("`pullproof {} --help` shows its options", c.name));
}

}  // namespace

std::string suggestion(std::string_view word, const std::vector<std::string_view>& known) {
  const std::string_view near = nearest(word, known);
  if (!near.empty()) return fmt::format("did you mean '{}'?", near);
  constexpr std::size_t most = 24;
  std::vector<std::string_view> once;
  for (const std::string_view k : known)
    if (std::find(once.begin(), once.end(), k) == once.end()) once.push_back(k);
  if (once.size() > most) return fmt::format("{} are known, {} the first of them", once.size(), once.front());
  return fmt::format("known: {}", fmt::join(once, ", "));
}

Request read_command_line(int argc, const char* const* argv) {
  std::vector<std::string> words(argv + std::min(argc, 1), argv + argc);
  if (words.empty()) throw CommandError("a command is wanted", fmt::format("one of: {}; or --help", fmt::join(command_names(), ", ")));
  if (words[0] == "--help" || words[0] == "-h") return {nullptr, {}, help()};
  if (words[0] == "--version") return {nullptr, {}, fmt::format("pullproof {}\n", PULLPROOF_VERSION)};
  if (words[0].starts_with("-")) throw CommandError(fmt::format("the command comes first, before '{}'", words[0]), "`pullproof --help` shows the commands");
  if (words.size() > 1 && (words[1] == "--help" || words[1] == "-h")) {  // help on a family of commands
    std::string all;
    for (const Command& c : all_commands())
      if (c.name == words[0] || c.name.starts_with(words[0] + " ")) all += (all.empty() ? "" : "\n") + help_of(c);
    if (!all.empty()) return {nullptr, {}, all};
  }
  const auto [command, taken] = find_command(words);
  po::options_description hidden;
  hidden.add(describe(*command)).add_options()("word", po::value<std::vector<std::string>>());
  po::positional_options_description positions;
  positions.add("word", -1);
  po::variables_map map;
  try {
    namespace style = po::command_line_style;
    po::store(po::command_line_parser(std::vector<std::string>(words.begin() + taken, words.end()))
                  .options(hidden)
                  .positional(positions)
                  .style(style::unix_style & ~style::allow_guessing)
                  .run(),
              map);
  } catch (const po::error& error) {
    refuse(*command, error);
  }
  if (map.count("help") != 0) return {nullptr, {}, help_of(*command)};
  Options options = options_of(*command, map);
  if (options.words.size() < command->least_words)
    throw CommandError(fmt::format("'{}' wants {}", command->name, command->words), fmt::format("`pullproof {} --help` says more", command->name));
  if (options.words.size() > command->most_words)
    throw CommandError(fmt::format("'{}' takes no '{}'", command->name, options.words[command->most_words]),
                       fmt::format("usage: pullproof {} [options] {}", command->name, command->words));
  return {command, std::move(options), {}};
}

}  // namespace pullproof::cli
