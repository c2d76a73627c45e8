// size: works out the sizes that a case leaves open.
#include <fmt/format.h>

#include <cstdio>

#include "answers/sizing.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/open_case.hpp"
#include "cli/terminal.hpp"
#include "engine/run.hpp"
#include "report/sizing.hpp"

namespace pullproof::cli {
namespace {

/// "wire.size=12 AWG" or "raceway.size=1/2,3/4".
answers::Limit limit_of(std::string_view option, const std::string& text) {
  answers::Limit out;
  const std::size_t equals = text.find('=');
  const auto trimmed = [](std::string_view s) {
    while (s.starts_with(' ')) s.remove_prefix(1);
    while (s.ends_with(' ')) s.remove_suffix(1);
    return std::string(s);
  };
  if (equals != std::string::npos) {
    out.key = trimmed(std::string_view(text).substr(0, equals));
    for (std::size_t at = equals + 1; at <= text.size();) {
      const std::size_t end = std::min(text.find(',', at), text.size());
      out.values.push_back(trimmed(std::string_view(text).substr(at, end - at)));
      at = end + 1;
    }
  }
  if (out.key.empty() || out.values.empty() || out.values.front().empty())
    throw CommandError(fmt::format("--{} wants a key and a value, not '{}'", option, text), option == "stock" ? "--stock \"raceway.size=1/2,3/4\"" : "--at-least \"wire.size=12 AWG\"");
  if (option == "at-least" && out.values.size() > 1) throw CommandError("--at-least takes one value", "--stock takes several");
  return out;
}

}  // namespace

int size(const Options& options) {
  answers::SizingOptions how;
  for (const std::string& text : options.at_least) how.at_least.push_back(limit_of("at-least", text));
  for (const std::string& text : options.stock) how.stock.push_back(limit_of("stock", text));
  how.heed_advice = !options.ignore_advice;
  const Shelf shelf = open_shelf(options);
  const OpenedCase opened = open_case(shelf, options.words.front(), options.edition);
  if (const std::string wrong = answers::wrong_limit(opened.draft, how); !wrong.empty())
    throw CommandError(wrong, "`pullproof size --help` shows how limits are written");
  const answers::Sizing sizing = answers::size_case(opened.draft, how);
  const auto done = sizing.conflict ? opened.job : opened.draft.with(sizing.edits);
  const Report report = run_checks(done, opened.draft.edition);
  const int status = sizing.conflict ? status_fail : status_of(report);
  const bool to_screen = options.output == "-";
  if (!sizing.conflict && to_screen) put(opened.draft.edited(sizing.edits));
  else if (options.format == Format::json) put(report::as_json(sizing, report, PULLPROOF_VERSION, status));
  else put(report::as_text(sizing, report, {wants_color(options.color), false, page_width()}));
  if (options.output.empty() || to_screen) return status;
  if (sizing.conflict) {
    flush();
    fmt::print(stderr, "pullproof: nothing was written into '{}'\n", options.output);
    return status;
  }
  write_file(options.output, opened.draft.edited(sizing.edits));
  if (options.format == Format::text) put(fmt::format("\nThe completed case is in {}.\n", options.output));
  return status;
}

}  // namespace pullproof::cli
