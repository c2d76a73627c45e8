#include "cli/shelf.hpp"

#include <fmt/format.h>

#include "cli/files.hpp"
#include "code/frozen.hpp"
#include "job/read.hpp"

namespace pullproof::cli {

Shelf open_shelf(const Options& options) {
  Shelf shelf;
  shelf.read = [](const std::string& path) { return read_file(path, largest_case); };
  if (options.rules.empty()) return shelf;
  Diagnostics diagnostics;
  const auto books = code::read_books(read_rules_folder(options.rules), diagnostics);
  if (!diagnostics.empty()) throw BadInput(diagnostics.sorted());
  shelf.store = code::share(code::freeze(books));
  return shelf;
}

namespace {

code::Edition or_complain(const std::optional<code::Edition>& edition, const Diagnostics& diagnostics) {
  if (edition) return *edition;
  auto all = diagnostics.sorted();
  if (all.size() == 1 && all[0].line == 0) throw CommandError(all[0].message, all[0].note);
  throw BadInput(std::move(all));
}

}  // namespace

code::Edition need_edition(const Shelf& shelf, std::string_view name) {
  Diagnostics diagnostics;
  const auto edition = find_edition(shelf, name, {}, diagnostics);
  return or_complain(edition, diagnostics);
}

code::Edition need_edition(const Shelf& shelf, const Options& options) {
  Diagnostics diagnostics;
  const auto edition = find_edition(shelf, options.edition.empty() ? usual_edition : std::string_view(options.edition), options.amendments, diagnostics);
  return or_complain(edition, diagnostics);
}

}  // namespace pullproof::cli
