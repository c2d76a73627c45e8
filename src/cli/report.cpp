// report: checks a case and writes the report to a file.
#include <fmt/format.h>

#include <cctype>
#include <filesystem>

#include "answers/remedies.hpp"
#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/open_case.hpp"
#include "cli/pdf.hpp"
#include "cli/terminal.hpp"
#include "engine/run.hpp"
#include "report/compose.hpp"
#include "report/html.hpp"
#include "report/json.hpp"
#include "report/markdown.hpp"
#include "report/text.hpp"

namespace pullproof::cli {
namespace {

constexpr std::string_view program = "pullproof " PULLPROOF_VERSION;

/// The form that was asked for, or that the file's name asks for.
Format form_of(const Options& o) {
  if (o.format_given) return o.format;
  std::string suffix = std::filesystem::path(o.output).extension().string();
  for (char& c : suffix) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  constexpr std::pair<std::string_view, Format> suffixes[] = {{".html", Format::html}, {".htm", Format::html}, {".pdf", Format::pdf}, {".md", Format::markdown},
                                                              {".txt", Format::text}, {".json", Format::json}};
  for (const auto& [s, form] : suffixes)
    if (s == suffix) return form;
  throw CommandError(o.output == "-" ? std::string("standard output does not say which form the report is to have")
                                     : fmt::format("the name '{}' does not say which form the report is to have", o.output),
                     "end it with .html, .pdf, .md, .txt or .json, or say --format");
}

std::string written(const Report& report, const OpenedCase& opened, Format form, const Options& o) {
  if (form == Format::json) {
    report::JsonReports json(PULLPROOF_VERSION);
    json.add(report);
    json.finish(status_of(report));
    return json.take();
  }
  if (form == Format::text) {
    report::TextOptions text;
    text.full = true;
    return report::as_text(report, text);
  }
  const doc::Document document = report::compose(report, *opened.job, opened.draft.edition, program);
  if (form == Format::markdown) return report::as_markdown(document);
  if (form == Format::pdf) return make_pdf(document, {.a4 = o.a4});
  return report::as_html(document, o.a4 ? report::Paper::a4 : report::Paper::letter);
}

/// Before any work: what can be known of the output's place.
void look_at_output(const Options& o, const std::string& case_path) {
  if (o.output == "-") return;
  if (!o.force && would_replace(o.output)) throw CommandError(fmt::format("'{}' is there already", o.output), "--force replaces it");
  std::error_code none;
  if (case_path != "-" && std::filesystem::equivalent(case_path, o.output, none)) throw CommandError("the report would replace the case itself");
}

}  // namespace

int report(const Options& options) {
  if (options.output.empty()) throw CommandError("'report' wants to know where to write", "-o report.html, or -o - for standard output");
  const Format form = form_of(options);
  const std::string& path = options.words.front();
  look_at_output(options, path);
  const OpenedCase opened = open_case(open_shelf(options), path, options.edition);
  Report found = run_checks(opened.job, opened.draft.edition);
  if (options.remedies != Remedies::never && found.outcome() == Outcome::fail) answers::add_remedies(found, opened.draft);
  const std::string bytes = written(found, opened, form, options);
  if (options.output == "-") put(bytes);
  else write_file(options.output, bytes, options.force ? Existing::replace : Existing::keep);
  return status_of(found);
}

}  // namespace pullproof::cli
