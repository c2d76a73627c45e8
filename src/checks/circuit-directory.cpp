#include <algorithm>
#include <cctype>
#include <map>

#include "derive/outlet.hpp"
#include "engine/check.hpp"

namespace pullproof {
namespace {

/// In lower case, without spaces and points around it.
std::string plain(std::string_view text) {
  std::string out;
  for (const char ch : text) out += static_cast<char>(std::tolower(static_cast<unsigned char>(ch)));
  const auto is_edge = [](char ch) { return ch == ' ' || ch == '.'; };
  while (!out.empty() && is_edge(out.back())) out.pop_back();
  out.erase(out.begin(), std::find_if_not(out.begin(), out.end(), is_edge));
  return out;
}

/// A line that tells this circuit from the others.
std::string_view suggestion(Context& cx, const Circuit& c) {
  const std::string_view what = c.load.appliance ? *c.load.appliance : derive::is_feeder(c) ? "panel" : "name of the appliance";
  return cx.text("write what it feeds and in which room or building: \"{}, ...\"", what);
}

void run(Context& cx, const Supply&) {
  const auto& circuits = cx.job().circuits;
  if (circuits.empty()) return void(cx.not_applicable("the case has no circuit"));
  const Citation cite = cx.cite("panel-directory");
  std::map<std::string, const Circuit*> lines;
  std::size_t told = 0, good = 0;
  for (const Circuit& c : circuits) {
    if (!c.directory) continue;
    ++told;
    const std::string line = plain(*c.directory);
    const auto [first, is_new] = lines.try_emplace(line, &c);
    if (line.empty())
      cx.fail(cx.text("circuit {} has an empty line in the directory", *c.name), suggestion(cx, c), cite, c.directory.where);
    else if (cx.listed("panel-directory", "vague", line))
      cx.fail(cx.text("\"{}\" in the directory does not tell what circuit {} feeds", *c.directory, *c.name), suggestion(cx, c), cite, c.directory.where);
    else if (!is_new && first->second->feeder == c.feeder)
      cx.fail(cx.text("circuits {} and {} have the same line in the directory", *first->second->name, *c.name),
              "write lines that tell them apart", cite, c.directory.where);
    else
      ++good;
  }
  if (told == 0)  // not known before the work is done: what is wanted is said
    return void(cx.advise("nothing is said of the panel's directory (circuit.directory)", suggestion(cx, circuits.front()), cite));
  if (good == told) cx.pass(told == 1 ? std::string_view("its line in the directory says what it feeds") : "the lines in the directory say what each circuit feeds", cite);
  if (told == circuits.size()) return;
  const auto silent = std::find_if(circuits.begin(), circuits.end(), [](const Circuit& c) { return !c.directory; });
  cx.advise(cx.text("nothing is said of circuit {} in the directory", *silent->name), suggestion(cx, *silent), cite, silent->where);
}

}  // namespace

extern const Check check_circuit_directory{
    .id = "circuit-directory",
    .title = "The circuit in the panel's directory",
    .family = Family::disconnects,
    .about = "Whoever has to turn a circuit off in a hurry reads the directory. Each circuit has a line that says what it feeds and tells it from "
             "all others; \"plugs\" or \"spare\" does not, and neither does a line that two circuits share. It is one of the last things to be done "
             "and one of the first that an inspector reads. What is not written yet is advised, once for all circuits.",
    .formula = "",
    .reads = "circuit.directory, load.appliance, circuit.fed_by",
    .rules = "panel-directory",
    .run = run};

}  // namespace pullproof
