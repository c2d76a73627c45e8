// new: a first case, from a few questions or for an appliance as it usually is.
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>

#include "cli/ask.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/shelf.hpp"
#include "cli/terminal.hpp"
#include "core/text.hpp"
#include "report/page.hpp"
#include "starter/interview.hpp"

namespace pullproof::cli {
namespace {

using starter::Plan;

/// The names that have one of the longer words: "ev charger" has one of "vehicle charger".
std::vector<std::string_view> names_with_a_word(const std::vector<std::string_view>& names, const std::string& words) {
  constexpr std::size_t long_enough = 4;
  std::vector<std::string_view> out;
  for (const std::string_view n : names)
    for (const std::string_view w : words_in(words))
      if (w.size() >= long_enough && n.find(w) != std::string_view::npos && (out.empty() || out.back() != n)) out.push_back(n);
  return out;
}

/// The appliance that is meant by a few words: its name, or the only one that has them all.
std::string appliance_called(const code::Edition& edition, const std::string& words) {
  const auto names = starter::appliances(edition);
  std::vector<std::string_view> fitting;
  for (const std::string_view n : names) {
    if (n == words) return words;
    if (n.find(words) != std::string_view::npos) fitting.push_back(n);
  }
  if (fitting.size() == 1) return std::string(fitting.front());
  if (fitting.size() > 1) throw CommandError(fmt::format("several appliances are a '{}'", words), fmt::format("one of: {}", fmt::join(fitting, "; ")));
  const auto akin = names_with_a_word(names, words);
  throw CommandError(fmt::format("there is no appliance '{}'", words),
                     !nearest(words, names).empty() ? suggestion(words, names)
                     : !akin.empty()                ? fmt::format("of that kind there are: {}", fmt::join(akin, "; "))
                                                    : "`pullproof rules show starters` lists them; 'other appliance' does for what is not among them");
}

void list_appliances(const code::Edition& edition) {
  report::Page page(page_width(), false);
  std::string all;
  for (const std::string_view n : starter::appliances(edition)) all += fmt::format("{}{}", all.empty() ? "" : "; ", n);
  page.paragraph(2, all, 0);
  fmt::print(stderr, "{}", page.take());
}

std::string ask_appliance(const code::Edition& edition) {
  while (true) {
    const std::string words = ask("What do you install? (? lists what is known)", "");
    if (words == "?") {
      list_appliances(edition);
      continue;
    }
    if (words.empty()) continue;
    try {
      return appliance_called(edition, words);
    } catch (const CommandError& error) {
      say(fmt::format("  {}{}{}", error.what(), error.note.empty() ? "" : ": ", error.note));
    }
  }
}

std::string ask_edition(const Shelf& shelf, const std::string& usual) {
  while (true) {
    const std::string name = ask("Which code edition did your town adopt? (us-2017, us-2020, us-2023)", usual);
    Diagnostics trouble;
    if (find_edition(shelf, name, {}, trouble)) return name;
    for (const Diagnostic& d : trouble.sorted()) say(fmt::format("  {}{}{}", d.message, d.note.empty() ? "" : ": ", d.note));
  }
}

/// A number alone takes the unit of what is proposed: "60" for "40 ft" is 60 ft.
std::string with_unit(const std::string& answer, const std::string& usual) {
  const std::size_t space = usual.find(' ');
  if (space == std::string::npos || answer.find_first_not_of("0123456789.") != std::string::npos) return answer;
  if (usual.substr(0, space).find_first_not_of("0123456789./") != std::string::npos) return answer;
  return answer + usual.substr(space);
}

/// Asks one thing until the answer can be read and fails no check that did not fail before, or is to be kept all the
/// same.
void ask_one(starter::Interview& interview, const starter::Question& q) {
  while (true) {
    const std::string usual = interview.usual(q);
    std::string answer = ask(q.text, usual.empty() ? q.unknown : usual);
    if (answer == "?") {
      say(fmt::format("  {}", q.help));
      continue;
    }
    answer = answer == q.unknown ? std::string{} : with_unit(answer, usual);
    if (!answer.empty() && answer == usual) return interview.answer(q, answer);
    const auto troubles = interview.troubles_with(q, answer);
    for (const std::string& t : troubles.unreadable) say(fmt::format("  {}", t));
    if (!troubles.unreadable.empty()) continue;
    for (const std::string& t : troubles.fails) say(fmt::format("  {}", t));
    if (!troubles.fails.empty() && !ask_whether("  Keep it all the same?", false)) continue;
    return interview.answer(q, answer);
  }
}

std::string file_name_for(const std::string& appliance) {
  std::string s;
  for (const char c : appliance)
    if (c == ' ' || c == ',') s += s.ends_with('-') ? "" : "-";
    else s += c;
  return s + ".toml";
}

/// Where the case goes: the file named on the command line, one that is asked for, or standard output in a pipe.
void hand_over(const Options& options, const std::string& text, const std::string& proposed, bool may_ask) {
  std::string path = options.output;
  if (path == "-" || (path.empty() && (!may_ask || ::isatty(STDOUT_FILENO) != 1))) return put(text);
  while (true) {
    const bool asked = path.empty();
    if (asked) path = ask("Write it to which file?", proposed);
    try {
      write_file(path, text, options.force ? Existing::replace : Existing::keep);
      break;
    } catch (const CommandError& error) {
      if (!asked) throw;
      say(fmt::format("  {}", error.what()));
      path.clear();
    }
  }
  say(fmt::format("Written to {}. Look it over, then: pullproof check {}", path, path));
}

void say_how_it_stands(const Report& report) {
  const std::size_t fails = report.count(Verdict::fail), open = report.count(Verdict::needs_input) + report.count(Verdict::not_covered);
  say("");
  say(fmt::format("{} pass, {} fail, {} open.", report.count(Verdict::pass), fails, open));
  std::vector<std::string_view> missing;
  for (const Finding& f : report.findings)
    if (f.verdict == Verdict::needs_input && std::find(missing.begin(), missing.end(), f.missing) == missing.end()) missing.push_back(f.missing);
  if (!missing.empty()) say(fmt::format("Still to be found out: {}.", fmt::join(missing, ", ")));
}

int interview(const Options& options, const Shelf& shelf) {
  say("A few questions; an empty answer takes what stands in brackets, ? says more.");
  say("");
  const std::string edition_name = ask_edition(shelf, options.edition.empty() ? std::string(usual_edition) : options.edition);
  const code::Edition edition = need_edition(shelf, edition_name);
  Plan plan = starter::plan_for(edition, ask_appliance(edition));
  plan.edition = edition_name;
  starter::Interview questions(shelf, edition, std::move(plan));
  for (const starter::Question& q : starter::questions())
    if (q.applies(edition, questions.plan())) ask_one(questions, q);
  say_how_it_stands(questions.checked().report);
  hand_over(options, starter::compose(edition, questions.plan()), file_name_for(questions.plan().appliance), true);
  return status_pass;
}

}  // namespace

int new_case(const Options& options) {
  const Shelf shelf = open_shelf(options);
  if (options.words.empty()) {
    try {
      return interview(options, shelf);
    } catch (const InputEnded& end) {
      throw CommandError("the input ended before the last question was answered; nothing is written", fmt::format("the question was: {}", end.what()));
    }
  }
  const std::string edition_name = options.edition.empty() ? std::string(usual_edition) : options.edition;
  const code::Edition edition = need_edition(shelf, edition_name);
  Plan plan = starter::plan_for(edition, appliance_called(edition, fmt::format("{}", fmt::join(options.words, " "))));
  plan.edition = edition_name;
  starter::fit_sizes(shelf, edition, plan);
  hand_over(options, starter::compose(edition, plan), {}, false);
  return status_pass;
}

}  // namespace pullproof::cli
