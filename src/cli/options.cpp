#include "cli/options.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <boost/program_options.hpp>
#include <charconv>
#include <limits>

#include "core/text.hpp"

namespace po = boost::program_options;

namespace pullproof::cli {
namespace {

po::options_description describe(const Command& c) {
  po::options_description d;
  for (const OptionInfo& o : options_of(c)) {
    if (o.any_name) continue;
    const std::string names = o.letter != '\0' ? fmt::format("{},{}", o.name, o.letter) : std::string(o.name);
    if (o.value.empty()) d.add_options()(names.c_str(), "");
    else if (o.repeats) d.add_options()(names.c_str(), po::value<std::vector<std::string>>(), "");
    else d.add_options()(names.c_str(), po::value<std::string>(), "");
  }
  return d;
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

/// The value of an option: one of its choices, where it has such a list.
std::string one_value(const Command& c, const po::variables_map& map, const char* name) {
  if (map.count(name) == 0) return {};
  std::string value = map[name].as<std::string>();
  if (value.empty()) throw CommandError(fmt::format("--{} wants a value", name));
  for (const OptionInfo& o : options_of(c))
    if (o.name == name && !o.choices.empty() && std::find(o.choices.begin(), o.choices.end(), value) == o.choices.end())
      throw CommandError(fmt::format("--{} is one of {}, not '{}'", name, fmt::join(o.choices, ", "), value));
  return value;
}

std::vector<std::string> values(const po::variables_map& map, const char* name) {
  return map.count(name) != 0 ? map[name].as<std::vector<std::string>>() : std::vector<std::string>{};
}

/// What a word of an option stands for.
template <class E>
E meant(const std::string& word, E otherwise, std::initializer_list<std::pair<std::string_view, E>> all) {
  for (const auto& [text, e] : all)
    if (text == word) return e;
  return otherwise;
}

std::size_t count(const Command& c, const po::variables_map& map, const char* name, std::size_t otherwise, std::size_t most) {
  if (map.count(name) == 0) return otherwise;
  const std::string word = one_value(c, map, name);
  std::size_t n = 0;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), n);
  if (error != std::errc{} || end != word.data() + word.size() || n == 0 || n > most)
    throw CommandError(fmt::format("--{} is a whole number from 1 to {}, not '{}'", name, most, word));
  return n;
}

Options read_options(const Command& c, const po::variables_map& map) {
  Options o;
  o.format_given = map.count("format") != 0;
  o.format = meant<Format>(one_value(c, map, "format"), Format::text, {{"html", Format::html}, {"pdf", Format::pdf}, {"md", Format::markdown}, {"json", Format::json}});
  o.color = meant<Color>(one_value(c, map, "color"), Color::automatic, {{"always", Color::always}, {"never", Color::never}});
  o.full = map.count("full") != 0;
  o.edition = one_value(c, map, "edition");
  o.amendments = values(map, "amendment");
  o.rules = one_value(c, map, "rules");
  o.remedies = meant<Remedies>(one_value(c, map, "remedies"), Remedies::automatic, {{"always", Remedies::always}, {"never", Remedies::never}});
  if (map.count("apply") != 0) o.apply = Apply::verified;
  if (map.count("apply-partial") != 0) o.apply = Apply::partial;
  o.output = one_value(c, map, "output");
  o.force = map.count("force") != 0;
  o.a4 = one_value(c, map, "paper") == "a4";
  o.at_least = values(map, "at-least");
  o.stock = values(map, "stock");
  o.ignore_advice = map.count("ignore-advice") != 0;
  o.jobs = count(c, map, "jobs", o.jobs, 256);
  o.list = one_value(c, map, "list");
  o.null = map.count("null") != 0;
  o.brief = map.count("brief") != 0;
  o.from = count(c, map, "from", o.from, std::numeric_limits<std::int64_t>::max());
  o.rows = values(map, "row");
  o.words = values(map, "word");
  return o;
}

/// Takes "--NAME VALUE" and "--NAME=VALUE" out of `words` where the command has no option of that name and lets any
/// column stand for one.
std::vector<Filter> take_filters(const Command& c, std::vector<std::string>& words) {
  std::vector<Filter> out;
  if (!knows(c, "filters")) return out;
  const auto all = options_of(c);
  std::vector<std::string> rest;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const std::string& word = words[i];
    if (word == "--") {
      rest.insert(rest.end(), words.begin() + static_cast<std::ptrdiff_t>(i), words.end());
      break;
    }
    const std::size_t equals = std::min(word.find('='), word.size());
    const std::string name = word.starts_with("--") ? word.substr(2, equals - 2) : std::string{};
    const auto own = std::find_if(all.begin(), all.end(), [&](const OptionInfo& o) { return !o.any_name && (name == o.name || (o.letter != '\0' && word == fmt::format("-{}", o.letter))); });
    if (name.empty() || own != all.end()) {
      rest.push_back(word);
      if (own != all.end() && !own->value.empty() && equals == word.size() && i + 1 < words.size()) rest.push_back(words[++i]);
      continue;
    }
    if (equals == word.size() && i + 1 == words.size()) throw CommandError(fmt::format("--{} wants a value", name), fmt::format("--{} VALUE", name));
    out.push_back({name, equals < word.size() ? word.substr(equals + 1) : words[++i]});
  }
  words = std::move(rest);
  return out;
}

/// The options as Boost.Program_Options names its troubles, in our words.
[[noreturn]] void refuse(const Command& c, const po::error& error) {
  if (const auto* unknown = dynamic_cast<const po::unknown_option*>(&error)) {
    std::string name = unknown->get_option_name();
    name.erase(0, std::min(name.find_first_not_of('-'), name.size()));
    std::vector<std::string> owned;
    std::vector<std::string_view> known;
    for (const OptionInfo& o : options_of(c)) owned.push_back(fmt::format("--{}", o.name));
    for (const std::string& o : owned) known.push_back(o);
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
  if (!words.empty() && words[0] == "help") {  // "help check" is "check --help"
    words.erase(words.begin());
    words.emplace_back("--help");
  }
  if (words.empty()) throw CommandError("a command is wanted", "`pullproof new` writes a first case, `pullproof check CASE` checks one, `pullproof --help` lists the rest");
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
  std::vector<std::string> given(words.begin() + taken, words.end());
  std::vector<Filter> filters = take_filters(*command, given);
  po::options_description hidden;
  hidden.add(describe(*command)).add_options()("word", po::value<std::vector<std::string>>());
  po::positional_options_description positions;
  positions.add("word", -1);
  po::variables_map map;
  try {
    namespace style = po::command_line_style;
    po::store(po::command_line_parser(given)
                  .options(hidden)
                  .positional(positions)
                  .style(style::unix_style & ~style::allow_guessing)
                  .run(),
              map);
  } catch (const po::error& error) {
    refuse(*command, error);
  }
  if (map.count("help") != 0) return {nullptr, {}, help_of(*command)};
  Options options = read_options(*command, map);
  options.filters = std::move(filters);
  if (options.words.size() < command->least_words)
    throw CommandError(fmt::format("'{}' wants {}", command->name, command->words), fmt::format("`pullproof {} --help` says more", command->name));
  if (options.words.size() > command->most_words)
    throw CommandError(fmt::format("'{}' takes no '{}'", command->name, options.words[command->most_words]),
                       fmt::format("usage: {}", usage_of(*command)));
  return {command, std::move(options), {}};
}

}  // namespace pullproof::cli
