#include "cli/open_case.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "job/read.hpp"

namespace pullproof::cli {

OpenedCase open_case(const Shelf& shelf, const std::string& file, const std::string& edition) {
  const std::string name = file == "-" ? std::string(stdin_name) : file;
  std::optional<code::Edition> instead;
  if (!edition.empty()) instead = need_edition(shelf, edition);
  FileText text = read_file(file, largest_case);
  Diagnostics diagnostics;
  if (!text.error.empty()) {
    diagnostics.add({name, 0, 0, 1, fmt::format("the case cannot be read: {}", text.error), {}, {}});
    throw BadInput(diagnostics.sorted());
  }
  const auto loaded = load_case(shelf, name, text.text, instead, diagnostics);
  if (!loaded) throw BadInput(diagnostics.sorted());
  return {{name, std::move(text.text), loaded->edition, std::make_shared<answers::Effort>(answers::effort_asked)}, loaded->job};
}

int status_of(const Report& report) {
  switch (report.outcome()) {
    case Outcome::pass: return status_pass;
    case Outcome::fail: return status_fail;
    case Outcome::open: return status_open;
  }
  return status_bad;
}

int worse(int a, int b) {
  constexpr int ranks[] = {status_pass, status_open, status_fail, status_bad};
  const auto rank = [&](int s) { return std::find(std::begin(ranks), std::end(ranks), s); };
  return rank(a) < rank(b) ? b : a;
}

}  // namespace pullproof::cli
